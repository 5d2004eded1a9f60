import type { MeasureSlot } from "../../model/slots.ts";
import { hours } from "../../quantities/hours.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

/** As a person counts. */
const daysInMonth = 30;

const appearance = "    appearance     ";
const opened = (time: string): [string, string] => [appearance, `    after-opening  ${time}\n${appearance}`];

export const afterOpeningLongerThanKept = writtenCheck<{ at: MeasureSlot; limit: MeasureSlot }>({
  name: "after-opening-longer-than-kept",
  family: "stability",
  severity: "error",
  title: "A life after opening that is longer than the life unopened",
  why: "Opening never makes a preparation keep longer; the patient would use it when nothing is known of it any more.",
  source: "common practice",
  bad: example(opened("28 days")),
  good: example(opened("12 h")),
  *find({ recipe }) {
    for (const { facts } of recipe.preparations) {
      const at = facts.one("after-opening")?.slots.time;
      const time = hours(at?.quantity, daysInMonth);
      const rows = facts
        .all("use-within")
        .map(({ slots }) => ({ slot: slots.time, hours: hours(slots.time.quantity, daysInMonth) }));
      if (!at || !time || rows.length === 0 || rows.some(({ hours }) => !hours)) continue;
      const longest = rows.reduce((a, b) => (b.hours!.isAbove(a.hours!) ? b : a));
      if (time.isAbove(longest.hours!)) yield { at, limit: longest.slot };
    }
  },
  say: ({ at, limit }) => ({
    text: `May be used for ${at.written} once opened, but unopened it keeps ${limit.written} at most. Shorten \`after-opening\`, or correct \`use-within\`.`,
    related: [{ at: limit, text: "the longest limit" }],
  }),
});
