import { inputRanges } from "../../bench/order.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { inBase, measure } from "../../quantities/quantity.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

/** Beyond these no patient is; they are no limits of any dose. */
const bounds: Readonly<Record<string, readonly [string, string]>> = {
  weight: ["0.2 kg", "500 kg"],
  "body-surface": ["0.05 m2", "4 m2"],
  lumen: ["0.05 mL", "20 mL"],
  clearance: ["1 mL/min", "250 mL/min"],
};

export const patientFigureUnlikely = writtenCheck<{ at: MeasureSlot; input: string; least: string; most: string }>({
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
    for (const { input, range } of inputRanges(recipe)) {
      const bound = bounds[input];
      if (!bound) continue;
      const [least, most] = bound.map(measure) as [ReturnType<typeof measure>, ReturnType<typeof measure>];
      for (const at of [range.from, range.to]) {
        const { quantity } = at;
        if (!quantity || quantity.unit.dimension !== least.unit.dimension) continue;
        const value = inBase(quantity);
        if (!value.isBelow(inBase(least)) && !value.isAbove(inBase(most))) continue;
        yield { at, input, least: bound[0], most: bound[1] };
        break;
      }
    }
  },
  say: ({ at, input, least, most }) => ({
    text: `${at.written} is no ${input.replace("-", " ")} that a patient has (${least} to ${most}). Look at the figure and its unit.`,
  }),
});
