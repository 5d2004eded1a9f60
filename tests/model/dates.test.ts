import { describe, expect, it } from "vitest";
import {
  addDays,
  type CalendarDate,
  compareDates,
  dateText,
  daysBetween,
  isDateFault,
  parseDate,
  parseExpiry,
} from "../../language/model/dates.ts";
import {
  beyondUseEnd,
  endOfDay,
  instantOf,
  type Moment,
  momentAt,
  momentText,
  parseMoment,
} from "../../language/model/moments.ts";

const london = "Europe/London";
const message = (value: object) => (isDateFault(value) ? value.message : "no fault");
const text = (value: Moment | { fault: string }) => ("fault" in value ? value.fault : momentText(value));

describe("the calendar, against the platform's UTC dates", () => {
  it("agrees on every day from 1900 to 2100", () => {
    const first: CalendarDate = { year: 1900, month: 1, day: 1 };
    const start = Date.UTC(1900, 0, 1);
    const days = (Date.UTC(2101, 0, 1) - start) / 86400000;
    let before: CalendarDate | undefined;
    for (let i = 0; i < days; i++) {
      const iso = new Date(start + i * 86400000).toISOString().slice(0, 10);
      const date = addDays(first, i);
      const read = parseDate(iso);
      if (dateText(date) !== iso || isDateFault(read) || compareDates(read, date) !== 0) throw new Error(iso);
      if (daysBetween(first, date) !== i || (before && compareDates(before, date) >= 0))
        throw new Error(`${iso}, day ${i}`);
      before = date;
    }
    expect(days).toBe(73414);
  });

  it("refuses every day that the platform moves into another month", () => {
    for (let year = 1900; year <= 2100; year++) {
      for (let month = 0; month <= 13; month++) {
        for (let day = 0; day <= 32; day++) {
          const iso = `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
          const utc = new Date(Date.UTC(year, month - 1, day));
          const real = utc.getUTCMonth() === month - 1 && utc.getUTCDate() === day;
          if (isDateFault(parseDate(iso)) === real) throw new Error(iso);
        }
      }
    }
  });
});

describe("what is said of a text that is no date", () => {
  it.each([
    ["2026-13", "2026-13 has no thirteenth month. Months are 01 to 12; correct the month."],
    ["2026-02-30", "2026-02-30: February 2026 ends on the 28th. Correct the day."],
    ["2028-02-30", "2028-02-30: February 2028 ends on the 29th. Correct the day."],
    ["2026-04-31", "2026-04-31: April 2026 ends on the 30th. Correct the day."],
    ["2026-00", "2026-00 has no month 0. Months are 01 to 12; correct the month."],
    ["2026-04-00", "2026-04-00 names day 0. Months begin with day 1; write the day."],
    ["0226-04-01", "0226-04-01: the year 226 is outside 1900 to 2199. Correct the year."],
    ["03/04/26", "03/04/26 can be read as more than one date. Write year, month and day, such as 2026-04-03."],
    ["03/04/2026", "03/04/2026 can be read as more than one date. Write year, month and day, such as 2026-04-03."],
    ["26-04-03", "26-04-03 can be read as more than one date. Write year, month and day, such as 2026-04-03."],
  ])("%s", (written, said) => expect(message(parseExpiry(written))).toBe(said));

  it.each([
    "31/12/2026",
    "04/2027",
    "20270430",
    "2027-4-3",
    " 2027-04",
    "2027-04-30T00:00",
    "",
    "APR 2027",
    "２０２７-04",
  ])("%j is refused", (written) => expect(parseExpiry(written)).toMatchObject({ fault: "not-a-date" }));
});

describe("moments", () => {
  it("refuses a local time that comes twice or never, and a wrong offset", () => {
    // Europe/London: put forward at 01:00 on 29 March 2026, put back at 02:00 on 25 October 2026 (IANA time zone database).
    expect(text(parseMoment("2026-10-25T01:30", london))).toBe("time-twice");
    expect(text(parseMoment("2026-03-29T01:30", london))).toBe("no-such-time");
    expect(text(parseMoment("2026-06-01T08:00+00:00", london))).toBe("offset-not-of-zone");
    expect(text(parseMoment("2026-10-25T01:30+01:00", london))).toBe("2026-10-25T01:30:00+01:00");
    expect(text(parseMoment("2026-10-25T01:30Z", london))).toBe("2026-10-25T01:30:00+00:00");
    expect(text(parseMoment("2026-06-01T08:00", "Europe/Nowhere"))).toBe("unknown-zone");
    expect(text(parseMoment("2026-06-01T24:00", london))).toBe("no-such-time");
    expect(text(parseMoment("2026-06-01T08:00", "+05:30"))).toBe("2026-06-01T08:00:00+05:30");
  });

  it("puts the end at the earlier instant where the local time comes twice or never", () => {
    const end = (start: string) => text(beyondUseEnd(parseMoment(start, london) as Moment, 1, "day", london));
    expect(end("2026-10-24T01:30")).toBe("2026-10-25T01:30:00+01:00");
    expect(end("2026-03-28T01:30")).toBe("2026-03-29T02:00:00+01:00");
    expect(end("2026-03-28T14:00")).toBe("2026-03-29T14:00:00+01:00");
  });

  it("counts hours exactly, also written with a fraction", () => {
    const start = parseMoment("2026-03-28T20:00", london) as Moment;
    expect(text(beyondUseEnd(start, "1.1", "h", london))).toBe("2026-03-28T21:06:00+00:00");
    expect(text(beyondUseEnd(start, 24, "h", london))).toBe("2026-03-29T21:00:00+01:00");
    expect(text(beyondUseEnd(start, "0.5", "day", london))).toBe("no-such-duration");
    expect(text(beyondUseEnd(start, -1, "h", london))).toBe("no-such-duration");
    expect(text(beyondUseEnd(start, Number.NaN, "h", london))).toBe("no-such-duration");
  });

  it("ends a day with the local day, also where midnight is skipped", () => {
    expect(text(endOfDay({ year: 2026, month: 10, day: 25 }, london))).toBe("2026-10-26T00:00:00+00:00");
    // Asia/Beirut puts the clock forward at midnight: 29 March 2026 begins at 01:00 (IANA time zone database).
    expect(text(endOfDay({ year: 2026, month: 3, day: 28 }, "Asia/Beirut"))).toBe("2026-03-29T01:00:00+03:00");
  });

  it.each([london, "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu", "Pacific/Apia", "UTC", "-03:00"])(
    "round trips every hour of a year in %s",
    (zone) => {
      const start = Date.UTC(2011, 6, 1) / 1000;
      for (let hour = 0; hour < 366 * 24; hour++) {
        const moment = momentAt(start + hour * 3600 + 17, zone) as Moment;
        const again = parseMoment(momentText(moment), zone);
        if (instantOf(moment) !== start + hour * 3600 + 17 || text(again) !== momentText(moment))
          throw new Error(momentText(moment));
      }
    },
  );
});
