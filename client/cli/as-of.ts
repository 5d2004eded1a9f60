/** The day on which lots, deviations and dates are judged. */
import { CannotRun } from "./cannot-run.ts";

/** Today's date where the machine stands: the pharmacist's calendar, not Greenwich's. */
export function today(now: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${String(now.getFullYear()).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** @throws CannotRun unless `text` is a day of the calendar, written YYYY-MM-DD. */
export function requireDay(text: string, flag = "--as-of"): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) throw new CannotRun(`${flag} is "${text}". Write a day as year, month and day, for example 2026-11-25.`);
  const date = new Date(`${text}T00:00:00Z`);
  // A day such as 31 April is either refused by Date or carried into May; both show here.
  if (Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== text) {
    throw new CannotRun(`${flag} is "${text}", which is not a day of the calendar. Write one that exists.`);
  }
  return text;
}
