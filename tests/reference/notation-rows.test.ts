/**
 * Every row of the published list of error-prone notation (tests/reference/measuring/error-prone-notation.json, where each row
 * carries its source): its spelling, put where it can stand in a recipe, gives a finding; the finding's fix gives text that is
 * accepted and means the same. What has no fix, and what cannot stand in a recipe, is listed with the reason.
 */
import { describe, expect, test } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";
import list from "./measuring/error-prone-notation.json" with { type: "json" };

/** `measure`: a figure in a statement. `text`: printed words. With a site setting where the lists disagree. */
interface Row {
  place: "measure" | "text" | "strength";
  site?: string;
  /** One for each spelling of the row: what the fixes lead to. Several where the author chooses. */
  mended: (string | string[])[];
}

// The lists disagree on micrograms, international units and thousands: the default is the ISMP list, the others are site choices.
const rows: Record<string, Row> = {
  "trailing-zero": { place: "measure", mended: ["1 mg", "5 mL", "10 units"] },
  "naked-decimal": { place: "measure", mended: ["0.5 mg", "0.25 mL"] },
  "unit-U": { place: "measure", mended: ["10 units", "10 units", "4 units"] },
  "unit-IU-jc": { place: "measure", site: "activity international units", mended: ["100 international units"] },
  "unit-IU-ismp": { place: "measure", mended: ["100 units"] },
  MS: { place: "text", mended: [["morphine sulfate 10 mg", "magnesium sulfate 10 mg"]] },
  "MSO4-MgSO4": { place: "text", mended: ["magnesium sulfate 2 g", "morphine sulfate 2 mg"] },
  QD: { place: "text", mended: ["daily", "daily", "daily"] },
  QOD: { place: "text", mended: ["every other day", "every other day"] },
  cc: { place: "measure", mended: ["10 mL"] },
  "ug-sign": { place: "measure", mended: ["50 mcg", "50 mcg"] },
  "microgram-full": { place: "measure", site: "microgram micrograms", mended: ["50 micrograms", "50 micrograms"] },
  nanogram: { place: "measure", mended: ["5 nanograms", "5 nanograms"] },
  "litre-l": { place: "measure", mended: ["1 L"] },
  "ml-lower": { place: "measure", mended: ["5 mL"] },
  "million-M": { place: "measure", mended: [[], "5 million units"] },
  "thousand-K": { place: "measure", mended: ["5,000 units", []] },
  "ratio-single-drug": {
    place: "text",
    mended: ["epinephrine 1 mg/mL", "epinephrine 0.1 mg/mL", "isoproterenol 0.2 mg/mL"],
  },
  "run-together-name-dose": { place: "text", mended: ["propranolol 40 mg", "haloperidol 5 mg"] },
  "run-together-number-unit": { place: "measure", mended: ["10 mg", "100 mL"] },
  "no-thousands-separator": { place: "measure", mended: ["100,000 units", "1,000,000 units"] },
  "space-separator": { place: "measure", site: "thousands thin-space", mended: ["10\u202f000 units"] },
  "thousands-in-words": { place: "measure", site: "thousands words", mended: ["1 thousand units"] },
  "unit-period": { place: "measure", mended: ["10 mg", "5 mL"] },
  "slash-per": { place: "measure", mended: [[]] },
  "slash-strength-ui": { place: "measure", mended: ["2 mg/mL"] },
  "at-sign": { place: "text", mended: ["at 10 mL/h"] },
  "greater-less": { place: "text", mended: ["above 10 mg", "below 10 mg"] },
  "less-than-joined": { place: "text", mended: ["below 10"] },
  ampersand: { place: "text", mended: ["dose and flush"] },
  plus: { place: "text", mended: ["5 and 5 mg"] },
  "degree-hour": { place: "text", mended: ["every 2 hours"] },
  "half-tablet": { place: "text", mended: ["half tablet"] },
  "roman-numerals": { place: "text", mended: ["5 mg", "3 tablets"] },
  "power-of-ten": { place: "measure", mended: ["1 million units"] },
  "fraction-duration": { place: "measure", mended: ["2 weeks", "1 day", "6 h"] },
  "chem-abbrev": {
    place: "text",
    mended: ["potassium chloride 20 mmol", ["hydrochloric acid", "hydrochloride"], "magnesium sulfate"],
  },
  "drug-abbrev": {
    place: "text",
    mended: [
      ["methotrexate", "mitoxantrone"],
      ["hydrochlorothiazide", "hydrocortisone"],
      ["zidovudine", "azathioprine", "aztreonam"],
    ],
  },
  apothecary: { place: "text", mended: [[], []] },
  "plural-unit": { place: "measure", mended: ["5 mL", "10 mg"] },
  "unit-before-number": { place: "measure", mended: ["5 g"] },
  "mixed-fraction": { place: "measure", mended: ["1.5 mL"] },
  "unneeded-decimal": { place: "measure", site: "small-decimals smaller-unit", mended: ["500 mg", "100 mcg"] },
  "many-decimals": { place: "measure", site: "decimals one-place", mended: [[]] },
  microunits: { place: "measure", mended: [[], "0.000005 units"] },
  cm3: { place: "measure", mended: ["5 mL"] },
  "SC-SQ": { place: "text", mended: ["subcutaneously", "subcutaneously", "subcutaneously"] },
  IN: { place: "text", mended: ["intranasal"] },
  IJ: { place: "text", mended: ["injection"] },
  HS: {
    place: "text",
    mended: [
      ["half-strength", "at bedtime"],
      ["half-strength", "at bedtime"],
    ],
  },
  "D-C": { place: "text", mended: [["discharge", "discontinue"]] },
  // In a statement; in a title "sodium chloride 0.9 %" is the name on the bag, and the row is a design inference, on no safety list.
  "percent-suffix": { place: "strength", mended: [["5 % w/v", "5 % v/v", "5 % w/w"]] },
  "fda-trailing-zero": { place: "measure", mended: ["5 mg"] },
};

/** A finding, and no fix: only the author knows the figure that is meant. */
const withoutFix: Record<string, string> = {
  "million-M": "`5 M units` has meant 5 thousand and 5 million",
  "thousand-K": "the same spelling read as thousand",
  "slash-per": "25 units/10 units are two doses, of which a fact takes one",
  apothecary: "a grain, a dram and a Roman figure have no one metric amount",
  "many-decimals": "fewer decimals are another dose: clinical advice",
  microunits: "`mU` has meant milliunits and microunits",
};

const cannotOccur: Record<string, string> = {
  "per-total-volume":
    "A strength per mL is a fact (`strength 2 mg/mL`, `fill 10 mL`); how the label prints it is decided where the label is made.",
};

const noteLine = "  light          not-sensitive\n";

/** The library with the spelling in place, and where it stands. */
function placed(row: Row, spelling: string): { text: string; start: number } {
  const lines = {
    text: `  note           "${spelling}"\n`,
    measure: `  dose           up to ${spelling} for any route\n`,
    strength: `  concentration  up to ${spelling} for route enteral\n`,
  };
  const line = lines[row.place];
  const withSite = row.site ? standardLibrary.replace("\n}", `\n  ${row.site}\n}`) : standardLibrary;
  const text = withSite
    .replace("  dose           from 500 mg up to 10 g for any route\n", "")
    .replace(noteLine, () => noteLine + line);
  return { text, start: text.indexOf(line) + line.indexOf(spelling) };
}

function findingsAt(text: string, start: number, length: number): Finding[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  return library
    .findings("a.misce")
    .filter(
      (f) =>
        f.span.start < start + length &&
        f.span.end > start &&
        (f.family === "notation" || f.name === "strength-percent-without-kind"),
    );
}

/** All spellings that the fixes lead to; the spelling itself where there is a finding without a fix. */
function mendedForms(row: Row, spelling: string, depth = 0): Set<string> {
  const { text, start } = placed(row, spelling);
  const found = findingsAt(text, start, spelling.length);
  if (found.length === 0) return new Set([spelling]);
  expect(depth, `fixes of ${spelling} lead nowhere`).toBeLessThan(5);
  const after = text.length - start - spelling.length;
  const forms = new Set<string>();
  for (const fix of found.flatMap((f) => f.fixes)) {
    const edits = [...fix.edits].sort((a, b) => b.span.start - a.span.start);
    const fixed = edits.reduce((t, e) => t.slice(0, e.span.start) + e.text + t.slice(e.span.end), text);
    for (const form of mendedForms(row, fixed.slice(start, fixed.length - after), depth + 1)) forms.add(form);
  }
  return forms;
}

describe("rows of the published list", () => {
  test("each row is tried or listed with the reason why it cannot occur", () => {
    const ids = list.rows.map((r) => r.id);
    expect([...Object.keys(rows), ...Object.keys(cannotOccur)].sort()).toEqual([...ids].sort());
    const lacking = Object.entries(rows).filter(([, r]) => r.mended.some((m) => m.length === 0));
    expect(lacking.map(([id]) => id).sort()).toEqual(Object.keys(withoutFix).sort());
  });

  for (const { id, bad } of list.rows) {
    const row = rows[id];
    if (!row) continue;
    bad.forEach((spelling, i) => {
      test(`${id}: ${spelling}`, () => {
        const bare = spelling.replace(" (thousand)", "").replace("dextrose ", "");
        const { text, start } = placed(row, bare);
        const found = findingsAt(text, start, bare.length);
        expect(
          found.map((f) => f.message),
          "a finding stands at the spelling",
        ).not.toEqual([]);
        const expected = row.mended[i]!;
        expect([...mendedForms(row, bare)].sort()).toEqual([expected].flat().sort());
      });
    });
  }
});
