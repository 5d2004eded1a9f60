import { inputRanges } from "../../bench/order.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";
import { withArticle } from "../showing.ts";
import { isWithin, type WrittenBounds } from "../written-bounds.ts";
import { patientBounds } from "./patient-bounds.ts";

interface Unlikely {
  at: MeasureSlot;
  input: string;
  bounds: WrittenBounds;
  /** `population`, where the order says it. */
  who: string | undefined;
}

export const patientFigureUnlikely = writtenCheck<Unlikely>({
  name: "patient-figure-unlikely",
  family: "limits",
  severity: "warning",
  title: "An order for a patient who cannot be",
  why: "A slip of the unit or the decimal point in the weight is the same slip in the dose.",
  source: "common practice",
  bad: example(
    ["    dose            4 g per bag\n", "    weight          600 kg to 900 kg\n    dose            4 g per bag\n"],
    ["rate           up to 9 g/h", "rate           up to 150 mg/kg/h"],
  ),
  good: example(
    ["    dose            4 g per bag\n", "    weight          60 kg to 90 kg\n    dose            4 g per bag\n"],
    ["rate           up to 9 g/h", "rate           up to 150 mg/kg/h"],
  ),
  *find({ recipe }) {
    const who = recipe.order?.one("population")?.slots.who.choice;
    for (const { input, range } of inputRanges(recipe)) {
      const bounds = patientBounds(input, who);
      if (!bounds) continue;
      for (const at of [range.from, range.to]) {
        if (!at.quantity || isWithin(at.quantity, bounds) !== false) continue;
        yield { at, input, bounds, who };
        break;
      }
    }
  },
  say: ({ at, input, bounds, who }) => ({
    text: `${at.written} is no ${input.replace("-", " ")} that ${who ? withArticle(who) : "a patient"} has (${bounds.join(" to ")}). Look at the figure and its unit${who ? ", and at `population`" : ""}.`,
  }),
});
