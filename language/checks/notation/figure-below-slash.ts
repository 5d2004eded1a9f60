import { Exact } from "../../quantities/exact.ts";
import { formatMeasure, type HouseStyle, readNumber } from "../../quantities/notation.ts";
import { over } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { standardAnd } from "../example.ts";
import { figuresOf } from "./figures.ts";

export const figureBelowSlash = chunkCheck({
  name: "figure-below-slash",
  family: "notation",
  severity: "error",
  title: "A figure behind the slash of a unit",
  why: "A slash before a figure has been read as the figure 1: /10 as 110.",
  source:
    "ISMP list as printed in a nursing journal (Nephrology Nursing Journal); Design guidance for displaying medication strength (common user interface guidance (public health service with a software vendor))",
  rows: ["error-prone-notation slash-per", "error-prone-notation slash-strength-ui"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    100 units/1mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    100 units/mL
}
`),
  *find(context) {
    for (const figure of figuresOf(context)) {
      const fault = figure.faults.find((f) => f.rule === "slash-per" || f.rule === "slash-strength-ui");
      if (!fault) continue;
      const written = figure.number + figure.gap + figure.unit;
      const safe = forOne(figure.number, figure.unit, context.policy.house);
      yield { at: { start: figure.start, end: figure.end }, written, safe, detail: fault.detail };
    }
  },
  say: ({ written, safe, detail }) => ({
    text: `Written as \`${written}\`. ${detail} ${safe ? `Write \`${safe}\`.` : "Write the amount for one unit of what stands below the slash."}`,
  }),
  fixes: ({ at, safe }) =>
    safe === undefined ? [] : [{ title: `Write ${safe}`, edits: [replaceText(at, safe)], preferred: true }],
});

/** `10 mg/5 mL` as `2 mg/mL`; undefined where the quotient does not end or the two are doses of one kind (`25 units/10 units`). */
function forOne(number: string, unit: string, house: HouseStyle): string | undefined {
  const [, above = "", count = "", below = ""] = /^([^/]+)\/([\d.,]+)\s*([^/\d]+)$/.exec(unit) ?? [];
  const value = readNumber(number, house).value;
  const per = readNumber(count, house).value;
  const [top, bottom] = [findUnit(above).unit, findUnit(below).unit];
  if (!value || !per?.isPositive() || !top || !bottom || top.dimension === bottom.dimension) return undefined;
  const joined = over({ value: value.over(per), unit: top }, { value: Exact.one, unit: bottom });
  return joined.value.terminates() ? formatMeasure(joined, house) : undefined;
}
