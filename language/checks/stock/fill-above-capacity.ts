import { Exact } from "../../quantities/exact.ts";
import { volumeOf } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { ml } from "../showing.ts";

const spare = (capacity: string) => `stock saline-bag-50 {
  fluid      sodium-chloride-0.9
  container  bag
  fill       50 mL
  capacity   ${capacity}
  made-of    polyolefin
  doses      single
  storage    room-temperature
}
`;

export const fillAboveCapacity = declarationCheck({
  name: "fill-above-capacity",
  family: "stock",
  severity: "error",
  title: "A container that is said to hold more than it can",
  why: "One of the two figures is wrong, and how much may be added rests on both.",
  source: "common practice",
  bad: standardAnd(spare("25 mL")),
  good: standardAnd(spare("100 mL")),
  *find({ declaration }) {
    if (declaration.kind !== "stock") return;
    const fill = declaration.facts.one("fill")?.slots.fill;
    const capacity = declaration.facts.one("capacity")?.slots.capacity;
    const [filled, most] = [volumeOf(fill?.quantity), volumeOf(capacity?.quantity)];
    if (!capacity || !filled || !most) return;
    const extra = volumeOf(declaration.facts.one("overfill")?.slots.overfill.to.quantity) ?? Exact.zero;
    if (filled.plus(extra).isAbove(most)) yield { at: capacity, filled, extra, most };
  },
  say: ({ filled, extra, most }) => ({
    text: `This stock is filled with ${ml(filled)}${extra.isPositive() ? ` and up to ${ml(extra)} of overfill` : ""}, and its capacity is ${ml(most)}. Correct one of them.`,
  }),
});
