import type { Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

interface Incomplete {
  at: Spot;
  drug: Drug;
  lacking: string[];
}

export const monographIncomplete = recipeCheck<Incomplete>({
  name: "monograph-incomplete",
  family: "record",
  severity: "warning",
  title: "The monograph of an ordered drug leaves open what the checks rest on",
  why: "What the monograph does not say is watched by nobody, and a clean report would look as if it had been.",
  source: "common practice",
  bad: example(["  hazard         not-hazardous\n", ""]),
  good: example(),
  *find({ recipe, run }) {
    const order = recipe.order;
    if (!order) return;
    for (const { slots } of [...order.all("drug"), ...order.all("additive")]) {
      const drug = run.setup.drugs.get(slots.drug.name);
      if (!drug) continue;
      const lacking = lackingIn(drug);
      if (lacking.length > 0) yield { at: slots.drug, drug, lacking };
    }
  },
  say: ({ drug, lacking }) => ({
    text: `The monograph of ${drug.name.name} does not state ${lacking.join(", ")}, so that was not watched. State what is known with its source; what has no limit is written \`any\`.`,
    related: [{ at: { start: drug.name.start, end: drug.name.end, chunk: drug.chunk }, text: "the monograph" }],
  }),
});

const wanted = [
  ["high-alert", "`high-alert` yes or no"],
  ["hazard", "`hazard`"],
  ["light", "`light`"],
  ["dose", "a `dose` window"],
  ["concentration", "a limit of `concentration`"],
] as const;

/** A line that cannot be read, a word spelt wrong included, may state it: that is told. */
function lackingIn({ facts }: Drug): string[] {
  return wanted.filter(([word]) => !facts.one(word) && !facts.isUnread(word)).map(([, said]) => said);
}
