/** Every row of the published reading rules and examples for expiry dates, pack numbers and barcodes. */
import { describe, expect, it } from "vitest";
import {
  type CalendarDate,
  dateText,
  type Expiry,
  isDateFault,
  isExpired,
  parseDate,
  parseExpiry,
} from "../../language/model/dates.ts";
import { fullYear, readElementString, readGs1Date } from "../../language/model/gs1.ts";
import { checkDigit, isGtinFault, readGtin, weightedSum } from "../../language/model/gtin.ts";
import { readInventory } from "../../language/model/inventory.ts";
import {
  beyondUseEnd,
  compareMoments,
  endOfExpiry,
  type Moment,
  momentText,
  parseMoment,
} from "../../language/model/moments.ts";
import reference from "../reference/practice/expiry.json" with { type: "json" };

interface Row {
  id: string;
  kind: string;
  verified: string;
  source: { title: string; publisher: string };
  input?: string;
  current_year?: string;
  output?: string;
  without_check_digit?: string;
  weighted_sum?: string;
  check_digit?: string;
  gtin?: string;
  gtin14?: string;
  expected_check_digit?: string;
  raw?: string;
  elements?: Record<string, string>;
  expiry?: string;
  note?: string;
}

const rows = reference.rows as unknown as Row[];
const ofKind = (kind: string) => rows.filter((row) => row.kind === kind);
/** A row recalled and not seen in its source is marked in the test's name. */
const named = (row: Row) => `${row.id}${row.verified === "memory" ? " [from memory]" : ""}: ${row.source.title}`;

const GS = "\u001d";
const year2026 = { currentYear: 2026 };
const expiry = (text: string, reading?: "first-day") => parseExpiry(text, reading) as Expiry;
const date = (text: string) => parseDate(text) as CalendarDate;
const moment = (text: string, zone: string) => parseMoment(text, zone) as Moment;
const lastDay = (text: string, reading?: "first-day") => dateText(expiry(text, reading).lastDay);

/** One test for each row of kind `rule`; a rule without a test, or a test without its rule, fails below. */
const rules: Record<string, () => void> = {
  "month-only-last-day": () => {
    expect(lastDay("2026-04")).toBe("2026-04-30");
    expect(lastDay("2028-02")).toBe("2028-02-29");
  },
  "month-only-last-day-2": () => {
    expect(isExpired(expiry("2026-12"), date("2026-12-31"))).toBe(false);
    expect(isExpired(expiry("2026-12"), date("2027-01-01"))).toBe(true);
  },
  "expired-is-after": () => {
    expect(isExpired(expiry("2026-12-15"), date("2026-12-14"))).toBe(false);
    expect(isExpired(expiry("2026-12-15"), date("2026-12-15"))).toBe(false);
    expect(isExpired(expiry("2026-12-15"), date("2026-12-16"))).toBe(true);
  },
  "expiry-vs-bud": () => {
    const end = endOfExpiry(expiry("2026-12-15"), "Europe/London") as Moment;
    expect(compareMoments(moment("2026-12-15T23:59:59", "Europe/London"), end)).toBeLessThan(0);
    expect(compareMoments(moment("2026-12-16T00:00:01", "Europe/London"), end)).toBeGreaterThan(0);
  },
  "first-day-readings-exist": () => expect(lastDay("2026-04", "first-day")).toBe("2026-04-01"),
  ai01: () => {
    expect(readElementString("010629104150021317261231", year2026).gtin?.gtin14).toBe("06291041500213");
    expect(readElementString("010629104150021", year2026).faults.map((f) => f.kind)).toEqual(["too-short"]);
  },
  ai10: () => {
    expect(readElementString(`10${"A".repeat(20)}${GS}17261231`, year2026).lot).toBe("A".repeat(20));
    expect(readElementString(`10${"A".repeat(21)}`, year2026).faults.map((f) => f.kind)).toEqual(["too-long"]);
  },
  ai17: () => expect(readElementString("1726123110A", year2026)).toMatchObject({ lot: "A", faults: [] }),
  "ai17-00": () => expect(readGs1Date("280200", year2026)).toMatchObject({ lastDay: { day: 29 }, precision: "month" }),
  "ai17-2025": () => {
    const kinds = (text: string) => readElementString(text, year2026).notices.map((n) => n.kind);
    expect(kinds("1727020010A")).toEqual(["day-00"]);
    expect(kinds("1727022810A")).toEqual([]);
  },
  "ai17-range": () => {
    for (let yy = 0; yy < 100; yy++) {
      const year = fullYear(yy, 2026);
      expect(year % 100).toBe(yy);
      expect(year).toBeGreaterThanOrEqual(2026 - 49);
      expect(year).toBeLessThanOrEqual(2026 + 50);
    }
  },
  century: () => {
    expect([51, 99].map((d) => fullYear(d, 2000))).toEqual([1951, 1999]);
    expect([fullYear(0, 2099), fullYear(49, 2099), fullYear(50, 2099), fullYear(50, 2000)]).toEqual([
      2100, 2149, 2050, 2050,
    ]);
  },
  "gtin-pad": () => {
    expect(readGtin("6291041500213")).toMatchObject({ gtin14: "06291041500213", level: 0 });
    const carton = `1629104150021${checkDigit("1629104150021")}`;
    expect(readGtin(carton)).toMatchObject({ gtin14: carton, level: 1 });
    expect(carton.slice(0, 1) + carton.slice(1, 13)).not.toBe("06291041500213");
  },
  "gtin-check": () => expect([weightedSum("629104150021"), checkDigit("629104150021")]).toEqual([57, 3]),
  "lot-as-text": () => {
    expect(readElementString("10007aB", year2026).lot).toBe("007aB");
    expect(readInventory("stock,lot,expires\nmag,007aB,2027-01", "s.csv").lots[0]?.lot).toBe("007aB");
  },
  "ai11-vs-17": () => {
    const reading = readElementString("112601011526060110A", year2026);
    expect(reading.elements.map((e) => e.ai)).toEqual(["11", "15", "10"]);
    expect(reading.expiry).toBeUndefined();
    expect(reading.notices.map((n) => n.kind)).toContain("no-expiry");
  },
  ai7003: () => {
    const read = readElementString(`7003261231143010A`, year2026).expiry!;
    expect(read).toMatchObject({ lastDay: { year: 2026, month: 12, day: 31 }, time: { hour: 14, minute: 30 } });
    expect(isExpired(read, date("2026-12-31"), { hour: 14, minute: 30 })).toBe(false);
    expect(isExpired(read, date("2026-12-31"), { hour: 14, minute: 31 })).toBe(true);
    expect(isExpired(read, date("2026-12-31"))).toBe(true);
    expect(momentText(endOfExpiry(read, "Europe/London") as Moment)).toBe("2026-12-31T14:30:00+00:00");
  },
  iso8601: () => {
    expect(expiry("2027-04")).toEqual({
      text: "2027-04",
      precision: "month",
      lastDay: { year: 2027, month: 4, day: 30 },
    });
    expect(momentText(moment("2026-06-01T08:00+01:00", "Europe/London"))).toBe("2026-06-01T08:00:00+01:00");
  },
  "device-label-date": () => expect(expiry("2027-04-30").precision).toBe("day"),
  "not-dd-mm-guess": () => expect(parseExpiry("03/04/26")).toMatchObject({ fault: "ambiguous-date" }),
  "dst-and-offset": () => {
    // Europe/London puts the clock back at 02:00 summer time on 25 October 2026: the night has an hour more.
    const start = moment("2026-10-24T20:00", "Europe/London");
    const hours = beyondUseEnd(start, 12, "h", "Europe/London") as Moment;
    expect(momentText(hours)).toBe("2026-10-25T07:00:00+00:00");
    const day = beyondUseEnd(start, 1, "day", "Europe/London") as Moment;
    expect(momentText(day)).toBe("2026-10-25T20:00:00+00:00");
    expect(compareMoments(day, start)).toBe(25 * 3600);
  },
};

describe("rules", () => {
  it("has one test for every rule", () => {
    expect(Object.keys(rules).sort()).toEqual(
      ofKind("rule")
        .map((row) => row.id)
        .sort(),
    );
  });
  for (const row of ofKind("rule")) it(named(row), () => rules[row.id]!());
});

describe("date examples", () => {
  const faults: Record<string, string> = { "invalid month": "no-such-month", "invalid day": "no-such-day" };
  it.each(ofKind("date-example").map((row) => [named(row), row] as const))("%s", (_, row) => {
    const read = readGs1Date(row.input!, { currentYear: Number(row.current_year) });
    const output = "fault" in read ? read.fault : dateText(read.lastDay);
    expect(output).toBe(faults[row.output!] ?? row.output);
  });
});

describe("check digits", () => {
  it.each(ofKind("check-digit-example").map((row) => [named(row), row] as const))("%s", (_, row) => {
    const read = readGtin(row.gtin!);
    if (row.without_check_digit !== undefined) {
      expect(weightedSum(row.without_check_digit)).toBe(Number(row.weighted_sum));
      expect(checkDigit(row.without_check_digit)).toBe(Number(row.check_digit));
      expect(read).toMatchObject({ gtin14: row.gtin14 });
    } else expect(read).toMatchObject({ fault: "check-digit", expected: Number(row.expected_check_digit) });
    expect(isGtinFault(read)).toBe(row.without_check_digit === undefined);
  });
});

describe("barcodes", () => {
  const forms = (raw: string, elements: Record<string, string>) => [
    raw,
    `]d2${raw}`,
    `]C1${raw}`,
    `${GS}${raw}`,
    Object.entries(elements)
      .map(([ai, value]) => `(${ai})${value}`)
      .join(""),
    Object.entries(elements)
      .map(([ai, value]) => `(${ai}) ${value}`)
      .join(" "),
  ];
  it.each(ofKind("barcode-example").map((row) => [named(row), row] as const))("%s", (_, row) => {
    for (const text of forms(row.raw!.replace("<GS>", GS), row.elements!)) {
      const reading = readElementString(text, year2026);
      expect(reading.faults).toEqual([]);
      expect(Object.fromEntries(reading.elements.map((e) => [e.ai, e.value]))).toEqual(row.elements);
      for (const e of reading.elements) expect(text.slice(e.start, e.end)).toBe(e.value);
      expect(dateText(reading.expiry!.lastDay)).toBe(row.expiry);
      expect(reading.lot).toBe(row.elements!["10"]);
      expect(reading.notices.some((n) => n.kind === "day-00")).toBe(row.note?.includes("DD=00") ?? false);
      expect(reading.notices.some((n) => n.kind === "no-lot")).toBe(row.elements!["10"] === undefined);
    }
  });
  it("covers every row of the file", () => {
    const kinds = ["rule", "date-example", "check-digit-example", "barcode-example"];
    expect(rows.filter((row) => !kinds.includes(row.kind))).toEqual([]);
    expect(rows.length).toBe(46);
    expect(isDateFault(parseDate("2026-02-28"))).toBe(false);
  });
});
