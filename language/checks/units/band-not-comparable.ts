import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { bandsExample } from "./band-rows.ts";

export const bandNotComparable = declarationCheck<{ at: Spot; figure: MeasureSlot; first: MeasureSlot }>({
  name: "band-not-comparable",
  family: "units",
  severity: "error",
  title: "A dose band whose ends measure something else than each other, or than the other bands",
  why: "No dose can be laid against both ends, so the band is passed over and its doses have none.",
  source: "common practice",
  bad: bandsExample(["  from  4 g below 5 g gives 4.5 g\n", "  from  4 g below 5 mmol gives 4.5 g\n"]),
  good: bandsExample(["  from  4 g below 5 g gives 4.5 g\n", "  from  4 g below 5,000 mg gives 4.5 g\n"]),
  *find({ declaration }) {
    if (declaration.kind !== "bands") return;
    let first: MeasureSlot | undefined;
    for (const { slots, start, end } of declaration.facts.all("from")) {
      if (slots.low.quantity) first ??= slots.low;
      const figure = [slots.low, slots.high].find(
        ({ quantity }) => quantity && first?.quantity && quantity.unit.dimension !== first.quantity.unit.dimension,
      );
      if (figure && first) yield { at: { start, end }, figure, first };
    }
  },
  say: ({ figure, first }) => ({
    text: `${figure.written} measures something else than ${first.written}, so that no dose can be laid against both. Write all ends of the bands in the unit of the dose.`,
  }),
});
