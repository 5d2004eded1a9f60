import { isExposure } from "../../bench/order.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";

const dose = "    dose            4 g per bag\n";
const byAuc = "    clearance       95 mL/min\n    dose            33.33 AUC per bag\n";
const limit = "  dose           from 500 mg up to 10 g for any route\n";

export const aucFormulaNotDeclared = recipeCheck({
  name: "auc-formula-not-declared",
  family: "units",
  severity: "error",
  title: "A dose by AUC of a drug whose monograph names no formula for it",
  why: "The formula that turns an exposure into a dose is one drug's own: that of carboplatin gives a wrong dose of any other.",
  source:
    "Calvert AH et al., Carboplatin dosage: prospective evaluation of a simple formula based on renal function, J Clin Oncol 1989;7:1748-56 (formula as printed on public calculators)",
  bad: example([dose, byAuc]),
  good: example([dose, byAuc], [limit, `${limit}  dose-by-auc    calvert\n`]),
  find: ({ recipe, lookup }) => [...withoutFormula(recipe, lookup)],
  say: ({ written, drug }) => ({
    text: `${written} is an exposure, and the monograph of ${drug} names no formula by which its dose follows from one. Write the dose worked out; where the formula is that of carboplatin, add \`dose-by-auc calvert\` with its source to drug ${drug}.`,
  }),
});

/** Doses by AUC of drugs that name no formula. */
export function* withoutFormula(
  { order }: Recipe,
  lookup: Pick<Lookup, "find">,
): Iterable<{ at: MeasureSlot; written: string; drug: string }> {
  const main = order?.one("drug")?.slots.drug;
  for (const { slots } of [...(order?.all("dose") ?? []), ...(order?.all("additive") ?? [])]) {
    if (!slots.dose.quantity || !isExposure(slots.dose.quantity)) continue;
    const name = "drug" in slots ? slots.drug : main;
    const drug = name && lookup.find("drug", name.name);
    // A drug that is not declared, or a line of it that cannot be read, is told there.
    if (!drug || drug.facts.one("dose-by-auc") || isNotKnown(drug.facts, "dose-by-auc")) continue;
    yield { at: slots.dose, written: slots.dose.written, drug: drug.name.name };
  }
}
