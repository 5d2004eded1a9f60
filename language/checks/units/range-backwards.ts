import { inputRanges } from "../../bench/order.ts";
import type { Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { RangeSlot, Spot } from "../../model/slots.ts";
import { inBase } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { everyFact, rangesIn } from "../declared-facts.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";

const capacity = "  capacity   150 mL\n";

/** The range of an order runs backwards, which is told there: there is no patient for whom anything else of it could be judged. */
export const isOrderBackwards = keptWith(({ order }: Recipe): boolean =>
  (order?.every() ?? []).some((fact) => rangesIn(fact).some(isBackwards)),
);

/** An end of a range of the order cannot be read, which is always told: for whom the order is, is not known. */
export function isOrderRangeUnread(recipe: Recipe): boolean {
  return inputRanges(recipe).some(({ range }) => !range.from.quantity || !range.to.quantity);
}

function isBackwards({ from, to }: RangeSlot): boolean {
  if (!from.quantity || !to.quantity || from.quantity.unit.dimension !== to.quantity.unit.dimension) return false;
  return inBase(from.quantity).isAbove(inBase(to.quantity));
}

export const rangeBackwards = declarationCheck<{ at: Spot; range: RangeSlot }>({
  name: "range-backwards",
  family: "units",
  severity: "error",
  title: "A range whose first figure is the greater",
  why: "What is computed for its lower end would be computed for the upper, and nothing between is looked at.",
  source: "common practice",
  bad: example([capacity, `${capacity}  overfill   10 mL to 5 mL  source guide "fluids"\n`]),
  good: example(
    [capacity, `${capacity}  overfill   5 mL to 10 mL  source guide "fluids"\n`],
    [role(), `${role()}  tolerance      volume 15 %\n`],
  ),
  *find({ declaration }) {
    for (const range of everyFact(declaration).flatMap(rangesIn)) {
      if (isBackwards(range)) yield { at: { start: range.start, end: range.end }, range };
    }
  },
  say: ({ range }) => ({
    text: `The range goes from ${range.from.written} down to ${range.to.written}. Write the smaller figure first, if both are right.`,
  }),
  fixes: ({ at, range }) => [
    {
      title: `Write ${range.to.written} to ${range.from.written}`,
      edits: [replaceText(at, `${range.to.written} to ${range.from.written}`)],
    },
  ],
});

function role(): string {
  return "  role           pharmacist\n";
}
