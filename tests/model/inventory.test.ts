/** Inventory exports. Stock names and lots are invented; the pack number is GS1's own worked example 6291041500213. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Library } from "../../language/library.ts";
import { dateText } from "../../language/model/dates.ts";
import { readInventory } from "../../language/model/inventory.ts";
import type { InventoryOptions } from "../../language/model/inventory-reading.ts";

const GS = "\u001d";
const read = (text: string, options: InventoryOptions = { currentYear: 2026 }) =>
  readInventory(text, "shelf.csv", options);
const head = "stock,lot,expires\n";
const kinds = (text: string) => read(text).problems.map((p) => p.kind);
/** Stock, lot, last day, pack number and the text at the lot's place. */
const seen = (text: string) =>
  read(text).lots.map((l) =>
    [l.stock, l.lot, dateText(l.expires.lastDay), l.gtin ?? "", text.slice(l.start, l.end)].join(" | "),
  );

describe("what is read", () => {
  it.each([
    ["comma, LF", "stock,lot,expires\nmag,007a,2027-04\nwfi,B,2026-12-15\n", ["mag,007a,2027-04", "wfi,B,2026-12-15"]],
    [
      "semicolon, CRLF",
      "stock;lot;expires\r\nmag;007a;2027-04\r\nwfi;B;2026-12-15\r\n",
      ["mag;007a;2027-04", "wfi;B;2026-12-15"],
    ],
    [
      "tab, CR",
      "stock\tlot\texpires\rmag\t007a\t2027-04\rwfi\tB\t2026-12-15",
      ["mag\t007a\t2027-04", "wfi\tB\t2026-12-15"],
    ],
    [
      "mixed line ends, mark",
      "\uFEFFstock,lot,expires\r\nmag,007a,2027-04\nwfi,B,2026-12-15\r",
      ["mag,007a,2027-04", "wfi,B,2026-12-15"],
    ],
    [
      "quotes, CRLF",
      '"stock","lot","expires"\r\n"mag","007a","2027-04"\r\nwfi,"B",2026-12-15',
      ['"mag","007a","2027-04"', 'wfi,"B",2026-12-15'],
    ],
    [
      "blank lines, blanks",
      "\n Stock , LOT, expires \n\nmag , 007a,2027-04 \n  \nwfi,B,2026-12-15\n\n",
      ["mag , 007a,2027-04 ", "wfi,B,2026-12-15"],
    ],
  ])("%s", (_, text, lines) => {
    expect(read(text).problems).toEqual([]);
    expect(seen(text)).toEqual([`mag | 007a | 2027-04-30 |  | ${lines[0]}`, `wfi | B | 2026-12-15 |  | ${lines[1]}`]);
  });

  it("counts places in UTF-16 code units", () => {
    const text = "note,stock,lot,expires\n💉💉,mag,A,2027-04\né,wfi,B,2027-05\n";
    expect(seen(text)).toEqual([
      "mag | A | 2027-04-30 |  | 💉💉,mag,A,2027-04",
      "wfi | B | 2027-05-31 |  | é,wfi,B,2027-05",
    ]);
    expect(read(text).lots.map((l) => l.line)).toEqual([2, 3]);
  });

  it("keeps separators and doubled quotes inside quotes", () => {
    const text = `${head}mag,"A,1 ""x""",2027-04\n`;
    expect(read(text).lots[0]?.lot).toBe('A,1 "x"');
  });

  it("takes lot, expiry and pack number from a barcode", () => {
    const code = `010629104150021310A1${GS}17270131`;
    expect(seen(`stock,barcode\nmag,${code}`)).toEqual([`mag | A1 | 2027-01-31 | 06291041500213 | mag,${code}`]);
    expect(seen(`stock,lot,expires,gtin,barcode\nmag,A1,2027-01,6291041500213,${code}`)[0]).toContain(
      "A1 | 2027-01-31 | 06291041500213",
    );
  });

  it("follows the site's reading of a month", () => {
    const lots = read(`${head}mag,A,2027-04`, { monthOnly: "first-day" }).lots;
    expect(lots[0]?.expires.lastDay.day).toBe(1);
  });
});

describe("what is refused, with the row left out", () => {
  it.each([
    ["two readings", "mag,A,03/04/26", "expiry-not-read"],
    ["no such month", "mag,A,2026-13", "expiry-not-read"],
    ["no lot", "mag,,2027-04", "cell-empty"],
    ["no stock", ",A,2027-04", "cell-empty"],
    ["no expiry", "mag,A,", "cell-empty"],
    ["too few cells", "mag,2027-04", "cell-count"],
    ["too many cells", "mag,A,1,2027-04", "cell-count"],
    ["lot as number", "mag,1.23E+10,2027-04", "lot-not-text"],
    ["lot as formula", 'mag,"=""0012""",2027-04', "lot-not-text"],
    ["invisible sign", "mag,A\u200b1,2027-04", "lot-not-text"],
    ["lot over two lines", 'mag,"A\nB",2027-04', "cell-over-lines"],
    ["open quote", 'mag,"A,2027-04\nwfi,B,2027-04', "quotes"],
    ["text after quote", 'mag,"A"1,2027-04', "quotes"],
  ])("%s", (_, row, kind) => {
    const reading = read(`${head}ok,Z,2027-01\n${row}`);
    expect(reading.problems.map((p) => [p.kind, p.severity, p.line])).toEqual([[kind, "error", 3]]);
    expect(reading.lots.map((l) => l.lot)).toEqual(["Z"]);
    expect(reading.problems[0]).toMatchObject({ start: `${head}ok,Z,2027-01\n`.length });
    expect(reading.problems[0]?.message).not.toMatch(/invalid/i);
  });

  const wide = "stock,lot,expires,gtin,barcode\n";
  it.each([
    ["lot", "mag,A2,,,1727013110A1", "cells-disagree"],
    ["expiry", "mag,,2027-02,,1727013110A1", "cells-disagree"],
    ["pack number", `mag,A,2027-01,5012345678900,0106291041500213`, "cells-disagree"],
    ["pack number's check digit", "mag,A,2027-01,6291041500214,", "gtin-not-read"],
    ["barcode", "mag,A,2027-01,,172701", "barcode-not-read"],
    ["barcode without expiry", "mag,,,,10A1", "cell-empty"],
  ])("columns and barcode: %s", (_, row, kind) => {
    expect(kinds(wide + row)).toEqual([kind]);
    expect(read(wide + row).lots).toEqual([]);
  });

  it("needs the current year for a barcode, and never takes one of its own", () => {
    expect(read("stock,barcode\nmag,1727013110A1", {})).toMatchObject({
      lots: [],
      problems: [{ kind: "barcode-not-read" }],
    });
  });

  it("passes on what a barcode makes doubtful, with the row kept", () => {
    const reading = read("stock,barcode\nmag,1727010010A1");
    expect(reading.problems).toMatchObject([{ kind: "barcode-remark", severity: "warning" }]);
    expect(reading.lots).toMatchObject([{ lot: "A1", expires: { precision: "month" } }]);
  });

  it("warns where another cell joins several lines", () => {
    const reading = read('stock,lot,expires,note\nmag,A,2027-04,"one\ntwo"\nwfi,B,2027-04,');
    expect(reading.problems).toMatchObject([{ kind: "cell-over-lines", severity: "warning", line: 2 }]);
    expect(reading.lots.map((l) => l.line)).toEqual([2, 4]);
  });
});

describe("the file as a whole", () => {
  it.each([
    ["", "no-header"],
    ["\uFEFF\r\n\n", "no-header"],
    ["stock,lot,expires\n", "no-lots"],
    ["stock,lot,expiry\nmag,A,2027-04", "column-missing"],
    ["mag,A,2027-04", "column-missing"],
    ["stock,lot,lot,expires\nmag,A,B,2027-04", "column-twice"],
    ['stock,lot,"expires\nmag,A,2027-04', "quotes"],
  ])("%j: %s", (text, kind) => {
    expect(kinds(text)).toEqual([kind]);
    expect(read(text).lots).toEqual([]);
  });

  it("names the missing columns beside those found", () => {
    expect(read("stock;batch;expiry\nmag;A;2027-04").problems[0]?.message).toBe(
      "shelf.csv has no columns lot, expires; its first row reads stock, batch, expiry. Name the columns stock, lot and expires.",
    );
  });
});

describe("a lot listed twice", () => {
  it("is kept once where the expiry is the same", () => {
    const reading = read(`${head}mag,A,2027-04\nmag,B,2027-04\nmag,A,2027-04`);
    expect(reading.lots.map((l) => l.line)).toEqual([2, 3]);
    expect(reading.problems).toMatchObject([
      { kind: "lot-twice", severity: "warning", line: 4, related: [{ line: 2 }] },
    ]);
  });
  it("is not used where the expiry differs", () => {
    const reading = read(`${head}mag,A,2027-04\nmag,B,2027-04\nmag,A,2027-05`);
    expect(reading.lots.map((l) => l.lot)).toEqual(["B"]);
    expect(reading.problems).toMatchObject([
      { kind: "lot-twice", severity: "error", line: 2, related: [{ line: 4 }] },
      { kind: "lot-twice", severity: "error", line: 4, related: [{ line: 2 }] },
    ]);
    expect(reading.problems[0]?.message).toContain("2027-04 and 2027-05");
  });
  it("is another lot in other case, with other zeros, or of another stock", () => {
    expect(kinds(`${head}mag,a1,2027-04\nmag,A1,2027-05\nmag,0A1,2027-06\nwfi,A1,2027-07`)).toEqual([]);
  });
});

describe("any text", () => {
  const piece = fc.constantFrom(
    "stock",
    "lot",
    "expires",
    "barcode",
    ",",
    ";",
    "\t",
    '"',
    "\n",
    "\r\n",
    "\r",
    "A",
    " ",
    "2027-04",
    "\uFEFF",
    "💉",
  );
  it("is never thrown over, and every place lies in it, in order", () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), fc.boolean(), (parts, headed) => {
        const text = (headed ? head : "") + parts.join("");
        const { lots, problems } = read(text);
        return [...lots, ...problems].every((p) => 0 <= p.start && p.start <= p.end && p.end <= text.length);
      }),
    );
  });

  it("accounts for every line and cuts it out exactly, whatever separates cells and lines", () => {
    const cell = fc.string({
      minLength: 1,
      maxLength: 6,
      unit: fc.constantFrom("A", "0", "-", " ", ",", ";", '"', "é", "💉"),
    });
    const line = fc.record({ lot: cell, end: fc.constantFrom("\n", "\r\n", "\r") });
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), fc.constantFrom(",", ";", "\t"), (lines, sep) => {
        fc.pre(lines.every((l) => l.lot.trim() !== ""));
        const written = lines.map((l, i) => [`s${i}`, `"${l.lot.replaceAll('"', '""')}"`, "2027-04"].join(sep));
        const text = `\uFEFF${["stock", "lot", "expires"].join(sep)}\r\n${written.map((w, i) => w + lines[i]!.end).join("")}`;
        const { lots, problems } = read(text);
        expect(problems).toEqual([]);
        expect(lots.map((l) => text.slice(l.start, l.end))).toEqual(written);
        expect(lots.map((l) => l.lot)).toEqual(lines.map((l) => l.lot.trim()));
        expect(lots.map((l) => l.line)).toEqual(lines.map((_, i) => i + 2));
      }),
    );
  });
});

describe("a long export", () => {
  const day = "2026-11-25";
  const long = (row: (i: number) => string) =>
    `stock,lot,expires\n${Array.from({ length: 40_000 }, (_, i) => `${row(i)}\n`).join("")}`;

  it.each([
    ["one stock that is known", (i: number) => `known-vial,L${i},2027-01-10`, 0],
    ["as many stocks that are not", (i: number) => `vial-of-others-${i},L,2027-01-10`, 40_000],
  ])("of %s costs no more for each row than a short one", (_, row, told) => {
    const library = new Library({ asOf: day });
    const stocks = Array.from({ length: 60 }, (_, i) => `stock known-vial${i || ""} {\n  drug x\n}\n`).join("\n");
    library.open("stocks.misce", stocks);
    library.openInventory("shelf.csv", long(row));
    const before = process.cpuUsage();
    library.findings("stocks.misce");
    expect(library.findings("shelf.csv")).toHaveLength(told);
    // One look at each row for each other row would take a quarter of a minute.
    const { user, system } = process.cpuUsage(before);
    expect((user + system) / 1e6).toBeLessThan(5);
  });
});
