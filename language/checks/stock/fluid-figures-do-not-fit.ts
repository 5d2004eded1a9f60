import type { Fluid } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, measure, showQuantity } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

const perLitre = measure("1 mOsm/L").unit;
const molar = measure("1 mmol/L").unit.dimension;
const byWeight = measure("1 g/L").unit.dimension;
/** Grams in a millimole of glucose, without its water: C6H12O6. */
const glucose = Exact.of("0.18016");
/** Labels count by ideal solutions and round: a slip of the point lies far outside, and so does a salt of which one ion is left out. */
const [least, most] = [Exact.of("0.75"), Exact.of("1.2")];

export const fluidFiguresDoNotFit = declarationCheck({
  name: "fluid-figures-do-not-fit",
  family: "stock",
  severity: "warning",
  title: "A fluid whose contents and osmolarity do not fit each other",
  why: "What a bag brings of sodium, and whether a vein bears it, is reckoned from these figures; a slip in one shows beside the other.",
  source: "common practice: each millimole in solution counts one milliosmole",
  bad: example(["  contains    sodium 154 mmol/L", "  contains    sodium 15.4 mmol/L"]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "fluid") return;
    const misfit = fluidMisfit(declaration);
    if (misfit) yield misfit;
  },
  say: ({ written, sum }) => ({
    text: `What this fluid is said to hold adds up to ${showQuantity({ value: sum.over(perLitre.factor), unit: perLitre }, 3)}; its osmolarity is stated as ${written}. Correct the figure that is wrong, or state what else it holds.`,
  }),
});

/** Undefined where contents and osmolarity fit, or cannot be laid beside each other. */
export function fluidMisfit(fluid: Fluid): { at: MeasureSlot; written: string; sum: Exact } | undefined {
  const at = fluid.facts.one("osmolarity")?.slots.osmolarity;
  const sum = contentsOf(fluid);
  if (!sum || at?.quantity?.unit.dimension !== perLitre.dimension) return undefined;
  const stated = inBase(at.quantity);
  if (sum.isAtLeast(stated.times(least)) && sum.isAtMost(stated.times(most))) return undefined;
  return { at, written: at.written, sum };
}

/** mOsm per mL; undefined where one content says nothing of its millimoles, or a single ion stands for a salt. */
function contentsOf({ facts }: Fluid): Exact | undefined {
  const contents = facts.all("contains");
  if (facts.isUnread("contains")) return undefined;
  let sum = Exact.zero;
  for (const { slots } of contents) {
    const { quantity } = slots.amount;
    const isGlucose = slots.what.name === "glucose" && quantity?.unit.dimension === byWeight;
    if (!quantity || (quantity.unit.dimension !== molar && !isGlucose)) return undefined;
    if (contents.length === 1 && !isGlucose) return undefined;
    sum = sum.plus(isGlucose ? inBase(quantity).over(glucose) : inBase(quantity));
  }
  return contents.length > 0 ? sum : undefined;
}
