/**
 * Days and expiry dates. No clock: "today" always comes in as a value. Times of day and zones are in `moments.ts`.
 *
 * Invariants:
 * - A `CalendarDate` made here is a real day, 1900 to 2199; a text that is none gives a `DateFault`, never a near day.
 * - An expiry keeps its precision: a month stays a month beside the day on which it ends.
 */

/** A real day. `month` and `day` count from 1. */
export interface CalendarDate {
  year: number;
  month: number;
  day: number;
}

export interface ClockTime {
  hour: number;
  minute: number;
}

/** Which day a date of month and year alone stands for; a site decides, the last day unless it does. */
export type MonthOnlyReading = "last-day" | "first-day";

/** An expiry as printed, with the last day on which the product may be used. */
export interface Expiry {
  /** As written. */
  text: string;
  precision: "day" | "month";
  lastDay: CalendarDate;
  /** Only where the pack gives a time of day (GS1 7003): usable on `lastDay` until that minute. */
  time?: ClockTime;
}

export type DateFaultKind =
  | "not-a-date"
  | "ambiguous-date"
  | "no-such-month"
  | "no-such-day"
  | "year-out-of-range"
  | "no-such-time"
  | "time-twice"
  | "offset-not-of-zone"
  | "unknown-zone"
  | "no-such-duration";

/** Why a text is no date. `message`: what it says, then what to write. */
export interface DateFault {
  fault: DateFaultKind;
  text: string;
  message: string;
}

export function isDateFault(value: object): value is DateFault {
  return "fault" in value;
}

const firstYear = 1900;
const lastYear = 2199;

const monthNames = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

export function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** 28 to 31. `month` 1 to 12. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** The day of these three figures, or why there is none. `text` is what the author wrote, for the message. */
export function calendarDate(year: number, month: number, day: number, text: string): CalendarDate | DateFault {
  const fault = monthFault(year, month, text);
  if (fault) return fault;
  const last = daysInMonth(year, month);
  if (day < 1)
    return { fault: "no-such-day", text, message: `${text} names day 0. Months begin with day 1; write the day.` };
  if (day > last) {
    const message = `${text}: ${monthNames[month - 1]} ${year} ends on the ${ordinal(last)}. Correct the day.`;
    return { fault: "no-such-day", text, message };
  }
  return { year, month, day };
}

function monthFault(year: number, month: number, text: string): DateFault | undefined {
  if (year < firstYear || year > lastYear) {
    const message = `${text}: the year ${year} is outside ${firstYear} to ${lastYear}. Correct the year.`;
    return { fault: "year-out-of-range", text, message };
  }
  if (month >= 1 && month <= 12) return undefined;
  const which = month === 0 ? "no month 0" : month === 13 ? "no thirteenth month" : `no month ${month}`;
  return { fault: "no-such-month", text, message: `${text} has ${which}. Months are 01 to 12; correct the month.` };
}

/** 1st, 2nd, 22nd, 31st. */
function ordinal(n: number): string {
  const tens = n % 100;
  if (tens >= 11 && tens <= 13) return `${n}th`;
  return `${n}${["th", "st", "nd", "rd"][n % 10] ?? "th"}`;
}

/** `YYYY-MM-DD` only. */
export function parseDate(text: string): CalendarDate | DateFault {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  return parts ? calendarDate(Number(parts[1]), Number(parts[2]), Number(parts[3]), text) : notIso(text);
}

/** `YYYY-MM-DD` or `YYYY-MM`. Anything else, also a date that people in two countries would read differently, is refused. */
export function parseExpiry(text: string, monthOnly: MonthOnlyReading = "last-day"): Expiry | DateFault {
  const parts = /^(\d{4})-(\d{2})$/.exec(text);
  if (parts) return monthExpiry(Number(parts[1]), Number(parts[2]), text, monthOnly);
  const day = parseDate(text);
  return isDateFault(day) ? day : { text, precision: "day", lastDay: day };
}

/** An expiry of month and year alone. */
export function monthExpiry(
  year: number,
  month: number,
  text: string,
  monthOnly: MonthOnlyReading = "last-day",
): Expiry | DateFault {
  const fault = monthFault(year, month, text);
  if (fault) return fault;
  const day = monthOnly === "first-day" ? 1 : daysInMonth(year, month);
  return { text, precision: "month", lastDay: { year, month, day } };
}

/** Says why a text that is not ISO is refused, naming the two readings where there are two (no guess between them). */
function notIso(text: string): DateFault {
  const parts = /^(\d{1,2})[/.\- ](\d{1,2})[/.\- ](\d{2}|\d{4})$/.exec(text);
  const [a, b] = [Number(parts?.[1]), Number(parts?.[2])];
  const shortYear = parts?.[3]?.length === 2;
  if (parts && (shortYear || (a <= 12 && b <= 12 && a !== b))) {
    const message = `${text} can be read as more than one date. Write year, month and day, such as 2026-04-03.`;
    return { fault: "ambiguous-date", text, message };
  }
  const message = `${text === "" ? "An empty text" : text} is not read as a date. Write year-month-day, such as 2027-04-30, or year-month, such as 2027-04.`;
  return { fault: "not-a-date", text, message };
}

/** `YYYY-MM-DD`. */
export function dateText(date: CalendarDate): string {
  return `${date.year}-${twoDigits(date.month)}-${twoDigits(date.day)}`;
}

export function twoDigits(n: number): string {
  return String(n).padStart(2, "0");
}

/** Below 0 where `a` is the earlier, 0 for the same day, above 0 where it is the later. */
export function compareDates(a: CalendarDate, b: CalendarDate): number {
  return a.year - b.year || a.month - b.month || a.day - b.day;
}

/** Days since 1970-01-01. Years are counted from March, so that the leap day comes last. */
export function dayNumber({ year, month, day }: CalendarDate): number {
  const y = month > 2 ? year : year - 1;
  const daysBeforeMonth = Math.floor((153 * ((month + 9) % 12) + 2) / 5);
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + daysBeforeMonth + day - 719469;
}

/** The inverse of `dayNumber`. 146097 days make 400 years. */
export function dateOfNumber(number: number): CalendarDate {
  const shifted = number + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const leaps = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36524) + Math.floor(dayOfEra / 146096);
  const yearOfEra = Math.floor((dayOfEra - leaps) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const day = dayOfYear - Math.floor((153 * fromMarch + 2) / 5) + 1;
  return { year: era * 400 + yearOfEra + (month <= 2 ? 1 : 0), month, day };
}

/** The day so many whole days later; earlier where `days` is below 0. */
export function addDays(date: CalendarDate, days: number): CalendarDate {
  return dateOfNumber(dayNumber(date) + days);
}

/** The same day so many months later, or the last day of that month: nothing is kept longer for a month being short. */
export function addMonths({ year, month, day }: CalendarDate, months: number): CalendarDate {
  const all = year * 12 + (month - 1) + months;
  const [later, of] = [Math.floor(all / 12), (all % 12) + 1];
  return { year: later, month: of, day: Math.min(day, daysInMonth(later, of)) };
}

/** Whole days from `from` to `to`; below 0 where `to` is the earlier. */
export function daysBetween(from: CalendarDate, to: CalendarDate): number {
  return dayNumber(to) - dayNumber(from);
}

/**
 * Expired is after the last day; on that day it may still be used. Where the expiry has a time of day, that time decides
 * on the last day, and without a time of day in hand (`at` left out) the product counts as expired on it.
 */
export function isExpired(expiry: Expiry, onDay: CalendarDate, at?: ClockTime): boolean {
  const order = compareDates(onDay, expiry.lastDay);
  if (order !== 0 || !expiry.time) return order > 0;
  return !at || at.hour * 60 + at.minute > expiry.time.hour * 60 + expiry.time.minute;
}
