import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { takesConcentration } from "./expected.ts";
import { statedMeasures } from "./measures.ts";

const glucose = (strength: string) =>
  standardAnd(`fluid glucose-5 {
  source    guide "fluids"
  name      "glucose 5 % w/v"
  contains  glucose ${strength}
  use       injection
}
`);

export const strengthPercentWithoutKind = chunkCheck({
  name: "strength-percent-without-kind",
  family: "units",
  severity: "error",
  title: "A strength in percent that does not say of what",
  why: "5 % can be 5 g in 100 mL, 5 mL in 100 mL or 5 g in 100 g.",
  source: "USP General Notices, percentage measurements (United States Pharmacopeia, USP 28-NF 23)",
  rows: ["error-prone-notation percent-suffix"],
  bad: glucose("5 %"),
  good: glucose("5 % w/v"),
  *find({ reading }) {
    for (const stated of statedMeasures(reading)) {
      const { measure, word } = stated;
      if (measure.quantity?.unit.dimension.key !== "percent" || !takesConcentration(stated)) continue;
      yield {
        at: { start: measure.start, end: measure.end },
        written: measure.written,
        number: measure.number.text,
        word,
      };
    }
  },
  say: ({ written, number, word }) => ({
    text: `${written} in \`${word}\` does not say what it is a share of. Write ${number} % w/v (g in 100 mL), ${number} % v/v or ${number} % w/w, or the strength in mg/mL.`,
  }),
  fixes: ({ at, number }) =>
    ["w/v", "v/v", "w/w"].map((kind) => ({
      title: `Write ${number} % ${kind}`,
      edits: [{ at, text: `${number} % ${kind}` }],
    })),
});
