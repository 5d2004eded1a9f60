import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { expectedOf } from "./expected.ts";
import { statedMeasures } from "./measures.ts";

export const wrongDimension = chunkCheck({
  name: "wrong-dimension",
  family: "units",
  severity: "error",
  title: "A quantity that measures something else than its line asks for",
  why: "A volume in the place of a time is a slip of the line or of the unit, and nothing can be computed from it.",
  source: "common practice",
  bad: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24 mL",
  ]),
  good: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24 h",
  ]),
  *find({ reading }) {
    for (const stated of statedMeasures(reading)) {
      const { measure, word } = stated;
      const expected = expectedOf(stated);
      const dimension = measure.quantity?.unit.dimension;
      // A number without a unit is named by unit-missing.
      if (!expected || !dimension || !measure.unit || expected.fits.has(dimension.key)) continue;
      yield {
        at: { start: measure.start, end: measure.end },
        written: measure.written,
        is: dimension.name,
        word,
        takes: expected.name,
      };
    }
  },
  say: ({ written, is, word, takes }) => ({
    text: `${written} is ${is}; \`${word}\` takes ${takes}. Correct the unit, or the line.`,
  }),
});
