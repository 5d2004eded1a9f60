/** The day on which lots, deviations and dates are judged. */
import { calendarDate, isDateFault } from "../../language/model/dates.ts";
import { CannotRun } from "./cannot-run.ts";

/** No machine with a right clock ran this program before; one whose clock has lost its battery says 1970 or thereabouts. */
const firstDay = "2024-01-01";

/**
 * Today's date where the machine stands: the pharmacist's calendar, not Greenwich's.
 * @throws CannotRun where the clock cannot be right: every lot would pass as in date.
 */
export function today(now: Date): string {
  const day = dayOnClock(now);
  if (day < firstDay) {
    throw new CannotRun(`This machine's clock says ${day}, which cannot be. Set it, or give the day.`);
  }
  return day;
}

/** What the machine's clock says, right or not. */
export function dayOnClock(now: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${String(now.getFullYear()).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** @throws CannotRun unless `text` is a day of the calendar, written YYYY-MM-DD. */
export function requireDay(text: string, flag = "--as-of"): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) throw new CannotRun(`${flag} is "${text}". Write a day as year, month and day, for example 2026-11-25.`);
  const day = calendarDate(Number(parts[1]), Number(parts[2]), Number(parts[3]), text);
  if (isDateFault(day)) throw new CannotRun(`${flag}: ${day.message}`);
  return text;
}
