import { dateText, isExpired } from "../../model/dates.ts";
import { libraryCheck } from "../check.ts";
import { example } from "../example.ts";
import { lastDayText, lotName, lotsOf } from "./shelf.ts";

const lot = `  lot "KQ-2291"  expires 2027-04\n`;

/** Sterile products are given a shelf life of five years at most, with few exceptions; twice that is a slip in the year. */
const yearsAhead = 10;

export const lotExpiryUnlikely = libraryCheck({
  name: "lot-expiry-unlikely",
  family: "stock",
  severity: "warning",
  title: "A lot whose expiry lies further ahead than any sterile product keeps",
  why: "A year that is mistyped keeps a lot on the shelf long after it has expired, and nobody is told.",
  source: "common practice",
  bad: example([lot, `${lot}  lot "KQ-2304"  expires 2072-04\n`]),
  good: example([lot, `${lot}  lot "KQ-2304"  expires 2027-04\n`]),
  *find(context) {
    const { year, month, day } = context.asOf;
    const furthest = { year: year + yearsAhead, month, day };
    for (const { at, lot } of lotsOf(context)) {
      if (lot.expires && isExpired({ ...lot.expires, lastDay: furthest }, lot.expires.lastDay)) yield { at, lot };
    }
  },
  say: ({ lot }, { asOf }) => ({
    text: `${lotName(lot)} is said to expire ${lastDayText(lot)}, more than ${yearsAhead} years after ${dateText(asOf)}. Read the date on the pack again and correct the year.`,
  }),
});
