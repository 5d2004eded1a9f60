import type { Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const monographIncomplete = recipeCheck<{ at: Spot; drug: Drug; lacking: string[] }>({
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
      const lacking = drug ? lackingIn(drug) : [];
      if (drug && lacking.length > 0) yield { at: slots.drug, drug, lacking };
    }
  },
  say: ({ drug, lacking }) => ({
    text: `The monograph of ${drug.name.name} does not state ${lacking.join(", ")}, so that was not watched. State what is known with its source; what has no limit is written \`any\`.`,
    related: [{ at: { start: drug.name.start, end: drug.name.end, chunk: drug.chunk }, text: "the monograph" }],
  }),
});

function lackingIn({ facts }: Drug): string[] {
  return [
    facts.one("high-alert") ? undefined : "`high-alert` yes or no",
    facts.one("hazard") ? undefined : "`hazard`",
    facts.one("light") ? undefined : "`light`",
    facts.all("dose").length > 0 ? undefined : "a `dose` window",
    facts.all("concentration").length > 0 ? undefined : "a limit of `concentration`",
  ].filter((word) => word !== undefined);
}
