/** Which lots to use: of those in date, the one that expires first. Source of the rule: first-expired-first-used, common practice. */
import { type CalendarDate, compareDates, daysBetween, isExpired } from "../model/dates.ts";
import type { Lookup } from "../model/lookup.ts";

export interface LotChoice {
  stock: string;
  /** In date, first to expire first: the order in which they are used up. */
  use: readonly { lot: string; expires: string; daysLeft: number }[];
  /** On the shelf and not to be used: out of date, or with a date that cannot be read. */
  leave: readonly { lot: string; why: string }[];
}

export function lotChoice(stock: string, lookup: Lookup, asOf: CalendarDate): LotChoice {
  const shelf = lookup.lots(stock);
  const use = shelf
    .flatMap(({ lot, expires }) => (expires && !isExpired(expires, asOf) ? [{ lot, expires }] : []))
    .sort((a, b) => compareDates(a.expires.lastDay, b.expires.lastDay) || (a.lot < b.lot ? -1 : 1))
    .map(({ lot, expires }) => ({ lot, expires: expires.text, daysLeft: daysBetween(asOf, expires.lastDay) }));
  const leave = shelf.flatMap(({ lot, expires }) => {
    if (!expires) return [{ lot, why: "its expiry cannot be read" }];
    return isExpired(expires, asOf) ? [{ lot, why: `went out of date: ${expires.text}` }] : [];
  });
  return { stock, use, leave };
}
