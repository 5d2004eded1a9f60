import type { NameSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";

interface Contradicted {
  at: NameSlot;
  drug: string;
  nature: string;
  /** The word of the form that says otherwise, and the form that would not. */
  word: string;
  right: string | undefined;
}

/** What a form says of the liquid, and the natures of which one must then be in it. */
const saidBy: ReadonlyMap<string, readonly string[]> = new Map([
  ["emulsion", ["emulsion"]],
  ["suspension", ["suspension", "lipid-complex"]],
]);

/** The form that a nature makes of a liquid; a protein is dissolved. */
const wordOf: ReadonlyMap<string, string> = new Map([
  ["emulsion", "emulsion"],
  ["suspension", "suspension"],
  ["solution", "solution"],
  ["protein", "solution"],
]);

/** What is no solution. Labels of liposomes call them dispersion, suspension and solution. */
const dispersed: ReadonlySet<string> = new Set(["emulsion", "suspension"]);

const emulsion: [string, string] = [
  "  light          not-sensitive\n",
  "  light          not-sensitive\n  nature         emulsion\n  filter         never below 5 micrometre\n",
];

const white: [string, string] = ['"clear, colourless, free of particles"', '"white, even, no oil drops"'];

export const formContradictsNature = recipeCheck<Contradicted>({
  name: "form-contradicts-nature",
  family: "record",
  severity: "warning",
  title: "A form that calls a solution what is an emulsion or a suspension, or the other way round",
  why: "A solution is filtered, shaken and looked at for particles; an emulsion or a suspension is ruined by it, or passed for spoilt.",
  source: "common practice",
  bad: example(emulsion, white),
  good: example(emulsion, white, ["form           solution-for-infusion", "form           emulsion-for-infusion"]),
  *find(context) {
    for (const preparation of context.recipe.preparations) {
      const form = preparation.facts.one("form")?.slots.form;
      if (!form) continue;
      const natures = naturesIn(preparation.name.name, context);
      const words = form.name.split("-");
      const other = words.includes("solution") ? natures.find(({ nature }) => dispersed.has(nature ?? "")) : undefined;
      if (other?.nature) {
        yield { at: form, ...other, nature: other.nature, word: "solution", right: wordOf.get(other.nature) };
        continue;
      }
      // Of what a monograph does not say nothing is known.
      const [first] = natures;
      if (!first?.nature || natures.some(({ nature }) => nature === undefined)) continue;
      for (const [word, fitting] of saidBy) {
        if (!words.includes(word) || natures.some(({ nature }) => fitting.includes(nature ?? ""))) continue;
        yield { at: form, drug: first.drug, nature: first.nature, word, right: wordOf.get(first.nature) };
      }
    }
  },
  say: ({ at, drug, nature, word, right }) => ({
    text: `The preparation is called ${at.name.replaceAll("-", " ")}, and the monograph of ${drug} says that it is ${nature.startsWith("e") ? "an" : "a"} ${nature.replaceAll("-", " ")}. ${right ? `Write ${withWord(at, word, right)}` : "Write the form that its label states"}, or correct \`nature\` in the monograph.`,
  }),
  fixes: ({ at, word, right }) =>
    right ? [{ title: `Write ${withWord(at, word, right)}`, edits: [{ at, text: withWord(at, word, right) }] }] : [],
});

function withWord({ name }: NameSlot, word: string, right: string): string {
  return name
    .split("-")
    .map((each) => (each === word ? right : each))
    .join("-");
}

/** Each drug in the finished container, or of the order where the steps bring none, with what its monograph calls it. */
function naturesIn(
  container: string,
  { recipe, run, lookup }: RecipeContext,
): { drug: string; nature: string | undefined }[] {
  const held = run.finals.find(({ name }) => name === container)?.liquid.drugs ?? [];
  const ordered = [recipe.order?.one("drug"), ...(recipe.order?.all("additive") ?? [])].flatMap(
    (fact) => fact?.slots.drug.name ?? [],
  );
  return [...new Set(held.length > 0 ? held : ordered)].map((drug) => ({
    drug,
    nature: lookup.find("drug", drug)?.facts.one("nature")?.slots.nature.choice,
  }));
}
