import { dateText, daysBetween, isExpired } from "../../model/dates.ts";
import { libraryCheck } from "../check.ts";
import { example } from "../example.ts";
import { lastDayText, lotName, lotsOf } from "./shelf.ts";

const lot = `  lot "KQ-2291"  expires 2027-04\n`;

export const lotExpiresSoon = libraryCheck({
  name: "lot-expires-soon",
  family: "stock",
  severity: "warning",
  title: "A lot on the shelf comes near its expiry",
  why: "Known in time it is used first; found out too late it is thrown away or, worse, used.",
  source: "common practice",
  bad: example([lot, `${lot}  lot "KQ-2304"  expires 2026-12-15\n`]),
  good: example([lot, `${lot}  lot "KQ-2304"  expires 2027-01-15\n`]),
  *find(context) {
    for (const { at, lot } of lotsOf(context)) {
      if (!lot.expires || isExpired(lot.expires, context.asOf)) continue;
      const days = daysBetween(context.asOf, lot.expires.lastDay);
      if (days <= context.policy.expiryAheadDays) yield { at, lot, days };
    }
  },
  say: ({ lot, days }, { asOf, policy }) => {
    const left = days === 0 ? "today is its last day" : days === 1 ? "1 day is left" : `${days} days are left`;
    return {
      text: `${lotName(lot)} may be used until ${lastDayText(lot)}; on ${dateText(asOf)} ${left}, and the site asks to be told ${policy.expiryAheadDays === 1 ? "1 day" : `${policy.expiryAheadDays} days`} ahead. Use it first and order more.`,
    };
  },
});
