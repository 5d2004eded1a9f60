import type { Declaration, Recipe } from "../../model/declaration.ts";
import type { Fact } from "../../model/facts.ts";
import { declarationCheck } from "../check.ts";
import { everyFact } from "../declared-facts.ts";
import { example } from "../example.ts";

/** Facts of an order that are judged by their condition at every order. */
const inOrder: ReadonlySet<string> = new Set([
  "weight",
  "age",
  "body-surface",
  "lumen",
  "clearance",
  "dose",
  "round",
  "maximum",
  "minimum",
  "additive",
  "access",
  "diluent",
  "diluent-volume",
  "final-volume",
  "method",
  "infuse-over",
  "infuse-at",
]);
const inDrug: ReadonlySet<string> = new Set(["dose", "concentration", "usual-concentration", "rate"]);
const inPreparation: ReadonlySet<string> = new Set(["concentration", "nominal-concentration", "volume", "use-within"]);
/** The dose follows from these, so that there is none yet to ask. */
const beforeDose: ReadonlySet<string> = new Set(["dose", "additive", "round", "maximum", "minimum"]);

interface NotFollowed {
  at: NonNullable<Fact["when"]>;
  word: string;
  asksDose: boolean;
}

export const conditionNotFollowed = declarationCheck<NotFollowed>({
  name: "condition-not-followed",
  family: "structure",
  severity: "error",
  title: "A condition at a line that is taken for every order",
  why: "The line would count for patients whom the condition leaves out, and nobody would see it.",
  source: "common practice",
  bad: example(["    route           intravenous\n", "    route           intravenous  when dose up to 6 g\n"]),
  good: example(["    infuse-over     4 h\n", "    infuse-over     4 h  when dose up to 6 g\n"]),
  *find({ declaration }) {
    for (const fact of everyFact(declaration)) {
      if (!fact.when) continue;
      const followed = followedIn(declaration, fact);
      const asksDose = followed && declaration.kind === "recipe" && beforeDose.has(fact.word) && asks(fact, "dose");
      if (!followed || asksDose) yield { at: fact.when, word: fact.word, asksDose };
    }
  },
  say: ({ word, asksDose }) => ({
    text: asksDose
      ? `The dose follows from \`${word}\`, so its condition cannot ask for the dose, and the line does not count. Ask for the weight, the age or another figure of the patient.`
      : `\`${word}\` is taken for every order, whatever \`when\` says beside it. Take the condition out, or write a recipe for each case.`,
  }),
});

function followedIn(declaration: Declaration, fact: Fact): boolean {
  if (declaration.kind === "drug") return inDrug.has(fact.word) && declaration.facts.every().includes(fact);
  if (declaration.kind !== "recipe") return false;
  if (inPreparation.has(fact.word) && declaration.preparations.some((p) => p.facts.every().includes(fact))) return true;
  return inOrder.has(fact.word) && declaration.order?.every().includes(fact) === true;
}

/** Whether a line of the recipe's order or of a preparation counts for those alone whom its condition names. */
export function isFollowed(recipe: Recipe, fact: Fact): boolean {
  return followedIn(recipe, fact) && !(beforeDose.has(fact.word) && asks(fact, "dose"));
}

function asks({ when }: Fact, input: string): boolean {
  return when?.input.name === input;
}
