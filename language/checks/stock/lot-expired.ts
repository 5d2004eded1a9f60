import { dateText, isExpired } from "../../model/dates.ts";
import { libraryCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";
import { lastDayText, lotName, lotsOf } from "./shelf.ts";

const lot = `  lot "KQ-2291"  expires 2027-04\n`;

export const lotExpired = libraryCheck({
  name: "lot-expired",
  family: "stock",
  severity: "error",
  title: "A lot on the shelf is past its expiry",
  why: "What stands on the shelf gets used; an expired lot has to leave it.",
  source:
    "Is the expiration date of a drug the first or last day of the month? (public pharmacist answer restating USP, 28 March 2024): month alone means its last day, expired is the day after",
  rows: ["expiry expired-is-after", "expiry month-only-last-day", "expiry month-only-last-day-2"],
  bad: example([lot, `${lot}  lot "KQ-2101"  expires 2026-10\n`]),
  good: example([lot, `${lot}  lot "KQ-2101"  expires 2027-10\n`]),
  *find(context) {
    for (const { at, lot } of lotsOf(context)) {
      if (lot.expires && isExpired(lot.expires, context.asOf)) yield { at, lot };
    }
  },
  say: ({ lot }, { asOf }) => ({
    text: `${lotName(lot)} expired after ${lastDayText(lot)}; today is ${dateText(asOf)}. Take it off the shelf and out of this list.`,
  }),
  fixes: ({ at, lot }, { chunk }) =>
    lot.inventory ? [] : [{ title: `Take lot ${lot.lot} out of the list`, edits: [withoutLine(chunk.text, at)] }],
});
