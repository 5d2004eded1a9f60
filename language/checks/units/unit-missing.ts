import { showQuantity } from "../../quantities/quantity.ts";
import { clockTime, ratioStrength } from "../../quantities/ratio.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { expectedOf } from "./expected.ts";
import { statedMeasures } from "./measures.ts";

export const unitMissing = chunkCheck({
  name: "unit-missing",
  family: "units",
  severity: "error",
  title: "A quantity without its unit",
  why: "A bare number is read as mg by one and as mL by another.",
  source: "common practice",
  bad: example(
    ["infuse-over     4 h", "infuse-over     4 h\n    weight          40 to 110 kg"],
    ["rate           up to 9 g/h", "rate           up to 150 mg/kg/h"],
  ),
  good: example(
    ["infuse-over     4 h", "infuse-over     4 h\n    weight          40 kg to 110 kg"],
    ["rate           up to 9 g/h", "rate           up to 150 mg/kg/h"],
  ),
  *find({ reading, policy }) {
    const ratiosAreTold = policy.severities.get("ratio-strength") !== "off";
    const fractionsAreTold = policy.severities.get("time-as-fraction") !== "off";
    for (const stated of statedMeasures(reading)) {
      const { measure, other, word } = stated;
      // A ratio carries its kind, or is named by ratio-strength.
      if (measure.unit || (measure.number.kind === "ratio" && (ratiosAreTold || clockTime(measure.number.text))))
        continue;
      if (fractionsAreTold && /^\d+\/(?:7|12|24|52)$/.test(measure.number.text)) continue;
      const takes = expectedOf(stated)?.name;
      const [, ratio, kind = "w/v"] = /^1 in (\d[\d,]*)(?: ([wv]\/[wv]))?$/.exec(measure.written) ?? [];
      const share = ratio === undefined || stated.word !== "strength" ? undefined : ratioStrength(`1:${ratio}`, kind);
      yield {
        at: { start: measure.start, end: measure.end },
        written: measure.written,
        word,
        takes,
        unit: other?.unit?.text,
        asRatio: share && showQuantity(share),
        hasKind: / [wv]\/[wv]$/.test(measure.written),
      };
    }
  },
  say: ({ written, word, takes, unit, asRatio, hasKind }) => ({
    text: hasKind
      ? `${written} in \`${word}\` is a ratio, and ratios are misread and miscounted. Write ${asRatio ?? "the amount per mL"}.`
      : asRatio
        ? `${written} in \`${word}\` does not say what it is a share of. Write the amount per mL: as ${written} w/v it is ${asRatio}.`
        : `${written} in \`${word}\` has no unit. ${unit ? `Write ${written} ${unit} if that is meant` : `Write ${takes ?? "the number with its unit"}`}.`,
  }),
  fixes: ({ at, written, unit, asRatio, hasKind }) =>
    unit === undefined
      ? hasKind && asRatio
        ? [{ title: `Write ${asRatio}`, edits: [{ at, text: asRatio }] }]
        : []
      : [
          {
            title: `Write ${written} ${unit}`,
            edits: [{ at: { start: at.end, end: at.end }, text: ` ${unit}` }],
            preferred: true,
          },
        ],
});
