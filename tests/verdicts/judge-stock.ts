/**
 * Lots and opened containers. From language/checks/FINDINGS.md and tests/spec/declarations.md: the printed day is still good, a month
 * alone stands for its last day unless the site reads its first, and what is dated beyond a lot is told.
 */
import { Fraction } from "../oracle/fraction.ts";
import { inHours } from "./amounts.ts";
import type { Lot, Scenario, Time, Verdict } from "./scenario.ts";

const dayLength = 86_400_000;

export const dayOf = (date: string): number => Date.parse(`${date}T00:00:00Z`) / dayLength;
export const dateOf = (day: number): string => new Date(day * dayLength).toISOString().slice(0, 10);

/** The last day on which a lot may be used. */
export function lastDay({ expires }: Lot, monthOnly: "first-day" | undefined): number {
  const [year, month, day] = expires.split("-").map(Number);
  if (day !== undefined) return dayOf(expires);
  return monthOnly ? Date.UTC(year!, month! - 1, 1) / dayLength : Date.UTC(year!, month!, 0) / dayLength;
}

/** The last day that a time may reach which begins at some moment of the day on which it is made. */
function lastDayOf(made: number, { number, unit }: Time): number {
  if (unit === "days") return made + number;
  if (unit === "months") return monthsLater(made, number);
  return made + Math.ceil((unit === "h" ? number : number / 60) / 24);
}

/** The same day of a later month, or that month's last. */
function monthsLater(from: number, months: number): number {
  const date = new Date(from * dayLength);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth() + months];
  const last = Date.UTC(year, month + 1, 0) / dayLength;
  return Math.min(Date.UTC(year, month, date.getUTCDate()) / dayLength, last);
}

export function stockVerdicts({ asOf, site, lots, useWithin, additives }: Scenario): Verdict[] {
  const today = dayOf(asOf);
  const found: Verdict[] = [];
  for (const [stock, list] of lots) {
    const days = list.map((lot) => lastDay(lot, site.monthOnly));
    list.forEach(({ id }, i) => {
      const left = days[i]! - today;
      if (left < 0) found.push({ name: "lot-expired", at: [`lot ${id}`] });
      else if (left <= site.expiryAhead) found.push({ name: "lot-expires-soon", at: [`lot ${id}`] });
    });
    const good = days.filter((day) => day >= today);
    if (list.length > 0 && good.length === 0) found.push({ name: "every-lot-expired", at: [`material ${stock}`] });
    // Told once for each lot, of the limit that reaches furthest.
    const ends = useWithin.map(({ time }) => lastDayOf(today, time));
    const furthest = Math.max(...ends);
    const at = useWithin.filter((_, i) => ends[i] === furthest).map((each) => `use-within ${each.at}`);
    for (const day of good) if (day < furthest) found.push({ name: "lot-expires-before-use-limit", at });
  }
  for (const { product, again, waitBefore } of additives) {
    if (product.doses === "multiple" && !product.inUse)
      found.push({ name: "opened-container-limit", at: [`stock ${product.name}`] });
    const waits = [waitBefore, again].flatMap((wait) => (wait ? [inHours(wait)] : []));
    const open = waits.reduce((sum, each) => sum.plus(each), Fraction.zero);
    if (again && product.inUse && open.against(inHours(product.inUse)) > 0)
      found.push({ name: "opened-too-long", at: [`draw again ${product.drug}`] });
  }
  return found;
}
