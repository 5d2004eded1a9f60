/**
 * Moments: what the wall clock of a zone shows, and when a limit ends. No clock: "now" and the zone always come in as values.
 *
 * Invariants:
 * - A limit in hours is elapsed time, a limit in days is the local calendar; a clock change moves neither.
 * - Where a local time exists twice or not at all, an end is always put at the earlier instant.
 */
import { Decimal } from "decimal.js";
import {
  addDays,
  addMonths,
  type CalendarDate,
  type DateFault,
  dateOfNumber,
  dateText,
  dayNumber,
  type Expiry,
  isDateFault,
  parseDate,
  twoDigits,
} from "./dates.ts";

/**
 * An instant together with how the wall clock shows it. `offsetMinutes`: local time less UTC.
 * `zone`: IANA name, or an offset such as `+02:00`.
 */
export interface Moment {
  date: CalendarDate;
  hour: number;
  minute: number;
  second: number;
  offsetMinutes: number;
  zone: string;
}

const daySeconds = 86400;
const fixedOffset = /^([+-])(\d{2}):(\d{2})$/;

/** Wall clocks by zone; building one is slow. */
const clocks = new Map<string, Intl.DateTimeFormat>();

function clockOf(zone: string): Intl.DateTimeFormat | DateFault {
  const known = clocks.get(zone);
  if (known) return known;
  try {
    const clock = new Intl.DateTimeFormat("en-US", {
      timeZone: zone,
      calendar: "gregory",
      numberingSystem: "latn",
      hourCycle: "h23",
      year: "numeric",
      month: "numeric",
      day: "numeric",
      hour: "numeric",
      minute: "numeric",
      second: "numeric",
    });
    clocks.set(zone, clock);
    return clock;
  } catch (reason) {
    if (!(reason instanceof RangeError)) throw reason;
    const message = `The time zone ${zone} is not known. Write a name such as Europe/London, or an offset such as +01:00.`;
    return { fault: "unknown-zone", text: zone, message };
  }
}

/** Seconds since 1970-01-01T00:00Z of a wall-clock reading taken as if it were UTC. */
function asIfUtc(date: CalendarDate, secondOfDay: number): number {
  return dayNumber(date) * daySeconds + secondOfDay;
}

/** Local time less UTC in seconds at an instant. */
function offsetAt(instant: number, zone: string): number | DateFault {
  // Needs no table of zones, which takes some 20 ms to load.
  if (zone === "UTC") return 0;
  const fixed = fixedOffset.exec(zone);
  if (fixed) {
    const [hours, minutes] = [Number(fixed[2]), Number(fixed[3])];
    if (hours > 14 || minutes > 59) {
      const message = `The offset ${zone} is larger than any in use. Correct it.`;
      return { fault: "unknown-zone", text: zone, message };
    }
    return (fixed[1] === "-" ? -1 : 1) * (hours * 3600 + minutes * 60);
  }
  const clock = clockOf(zone);
  if (isDateFault(clock)) return clock;
  const part: Record<string, number> = {};
  for (const { type, value } of clock.formatToParts(instant * 1000)) part[type] = Number(value);
  const date = { year: part.year!, month: part.month!, day: part.day! };
  return asIfUtc(date, part.hour! * 3600 + part.minute! * 60 + part.second!) - instant;
}

/** Seconds since 1970-01-01T00:00Z, leap seconds not counted. */
export function instantOf(moment: Moment): number {
  const secondOfDay = moment.hour * 3600 + moment.minute * 60 + moment.second;
  return asIfUtc(moment.date, secondOfDay) - moment.offsetMinutes * 60;
}

/** What the wall clock of a zone shows at an instant (whole seconds since 1970-01-01T00:00Z). */
export function momentAt(instant: number, zone: string): Moment | DateFault {
  const offset = offsetAt(instant, zone);
  if (typeof offset !== "number") return offset;
  const local = instant + offset;
  const day = Math.floor(local / daySeconds);
  const rest = local - day * daySeconds;
  return {
    date: dateOfNumber(day),
    hour: Math.floor(rest / 3600),
    minute: Math.floor((rest % 3600) / 60),
    second: rest % 60,
    offsetMinutes: offset / 60,
    zone,
  };
}

/** Below 0 where `a` is the earlier instant. */
export function compareMoments(a: Moment, b: Moment): number {
  return instantOf(a) - instantOf(b);
}

/** `2026-10-25T02:30:00+01:00`. An instant keeps its offset in writing, so that a clock change does not move it. */
export function momentText(m: Moment): string {
  const size = Math.abs(m.offsetMinutes);
  const offset = `${m.offsetMinutes < 0 ? "-" : "+"}${twoDigits(Math.floor(size / 60))}:${twoDigits(size % 60)}`;
  return `${dateText(m.date)}T${twoDigits(m.hour)}:${twoDigits(m.minute)}:${twoDigits(m.second)}${offset}`;
}

/**
 * The instants at which a zone's clock shows a local time, earliest first: one, two where the clock was put back, none
 * where it was put forward. No zone has changed twice within two days, so the offsets a day to each side are all there are.
 */
function instantsShowing(local: number, zone: string): number[] | DateFault {
  const before = offsetAt(local - daySeconds, zone);
  const after = offsetAt(local + daySeconds, zone);
  if (typeof before !== "number") return before;
  if (typeof after !== "number") return after;
  const possible = [...new Set([local - before, local - after])].sort((a, b) => a - b);
  return possible.filter((instant) => instant + (offsetAt(instant, zone) as number) === local);
}

/** The first instant at which the clock shows this local time or, where that is skipped, the instant of the change. */
function firstInstantShowing(local: number, zone: string): number | DateFault {
  const shown = instantsShowing(local, zone);
  if (!Array.isArray(shown)) return shown;
  if (shown[0] !== undefined) return shown[0];
  let low = local - 2 * daySeconds;
  let high = local + 2 * daySeconds;
  const old = offsetAt(low, zone);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offsetAt(middle, zone) === old) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * `2026-10-25T02:30+01:00`, seconds optional, `Z` allowed. Without an offset the zone gives it; a local time that the zone
 * shows twice or never is refused, and so is an offset that the zone does not have then.
 */
export function parseMoment(text: string, zone: string): Moment | DateFault {
  const parts = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?(Z|[+-]\d{2}:\d{2})?$/.exec(text);
  if (!parts) {
    const message = `${text} is not read as a date with time. Write it such as 2026-10-25T14:30+01:00.`;
    return { fault: "not-a-date", text, message };
  }
  const date = parseDate(parts[1]!);
  if (isDateFault(date)) return date;
  const [hour, minute, second] = [Number(parts[2]), Number(parts[3]), Number(parts[4] ?? 0)];
  if (hour > 23 || minute > 59 || second > 59) {
    const message = `${text}: hours run from 00 to 23, minutes and seconds from 00 to 59. Correct the time.`;
    return { fault: "no-such-time", text, message };
  }
  const shown = instantsShowing(asIfUtc(date, hour * 3600 + minute * 60 + second), zone);
  if (!Array.isArray(shown)) return shown;
  return theMoment(shown, text, zone, parts[5]);
}

/** The one instant meant among those the zone's clock shows so. */
function theMoment(shown: number[], text: string, zone: string, offset: string | undefined): Moment | DateFault {
  const moments = shown.map((instant) => momentAt(instant, zone) as Moment);
  const [one, two] = moments;
  if (!one) {
    const message = `${text} does not exist in ${zone}: the clock is put forward over it. Correct the time.`;
    return { fault: "no-such-time", text, message };
  }
  if (offset !== undefined) {
    const wanted = offsetAt(0, offset === "Z" ? "+00:00" : offset);
    if (typeof wanted !== "number") return wanted;
    const meant = moments.find((m) => m.offsetMinutes * 60 === wanted);
    const theirs = moments.map((m) => momentText(m).slice(-6)).join(" or ");
    const message = `${text}: ${zone} is at ${theirs} then, not ${offset}. Correct the offset or the zone.`;
    return meant ?? { fault: "offset-not-of-zone", text, message };
  }
  if (!two) return one;
  const message = `${text} comes twice in ${zone}, as the clock is put back. Write ${momentText(one)} or ${momentText(two)}.`;
  return { fault: "time-twice", text, message };
}

/** The first instant after a day, on the local calendar: whatever ends later than this ends on a later day. */
export function endOfDay(date: CalendarDate, zone: string): Moment | DateFault {
  const instant = firstInstantShowing(asIfUtc(addDays(date, 1), 0), zone);
  return typeof instant === "number" ? momentAt(instant, zone) : instant;
}

/** The instant an expiry ends: the end of its last day, or its time of day on it. A preparation may not last longer. */
export function endOfExpiry(expiry: Expiry, zone: string): Moment | DateFault {
  if (!expiry.time) return endOfDay(expiry.lastDay, zone);
  const local = asIfUtc(expiry.lastDay, expiry.time.hour * 3600 + expiry.time.minute * 60);
  const instant = firstInstantShowing(local, zone);
  return typeof instant === "number" ? momentAt(instant, zone) : instant;
}

/**
 * When a beyond-use limit ends. Hours are elapsed time, a part of a second is dropped; days are the same time of day on the
 * local calendar of `zone`, months the same day of a later month, or its last day where it has no such day. `amount` is a
 * decimal of 0 or more, as text where it has a fraction; days and months must be whole.
 */
export function beyondUseEnd(
  start: Moment,
  amount: Decimal.Value,
  unit: "h" | "day" | "month",
  zone: string,
): Moment | DateFault {
  const size = new Decimal(amount);
  const text = `${size.toString()} ${unit}`;
  if (!size.isFinite() || size.isNegative() || size.greaterThan(100000)) {
    return { fault: "no-such-duration", text, message: `${text} is not a time to keep something. Write 0 or more.` };
  }
  if (unit === "h") return momentAt(instantOf(start) + size.times(3600).floor().toNumber(), zone);
  if (!size.isInteger()) {
    const message = `${text}: a part of a ${unit} has no place on the calendar. Write whole ${unit}s, or hours.`;
    return { fault: "no-such-duration", text, message };
  }
  const local = momentAt(instantOf(start), zone);
  if (isDateFault(local)) return local;
  const secondOfDay = local.hour * 3600 + local.minute * 60 + local.second;
  if (size.isZero()) return local;
  const last = (unit === "day" ? addDays : addMonths)(local.date, size.toNumber());
  const instant = firstInstantShowing(asIfUtc(last, secondOfDay), zone);
  return typeof instant === "number" ? momentAt(instant, zone) : instant;
}
