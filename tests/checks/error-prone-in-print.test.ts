/**
 * Rows of published lists of error-prone abbreviations, in each place where a recipe prints words: told under the right name, and silent
 * once the fix is taken where there is one.
 *
 * ISMP: ismp.org/recommendations/error-prone-abbreviations-list, as kept in public copies (AD, AS, AU, OD, OS, OU, D/C, o.d., q1d, qn,
 * q6PM, cc, IU, units with a period, K and M, TNK, TPA, PIT). ISMP-2: from memory of the same list (i/d, x3d, UD, SSI, arrows, the empty
 * set). NZ: prescribing instructions of a New Zealand district, pinkbook.org.nz/132290.htm (SL, od). MED: medabbrev.com/dangerousabbrev.html,
 * November 2023 (IT). CAN: ISMP Canada, Do Not Use, 2025 update (fractions for a duration). WHO: prescribing guidance in a WHO collection,
 * collections.infocollections.org/whocountry/en/d/Js6861e/3.4.html (cm3). The other cytotoxic short forms: from memory.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import type { Finding } from "../../shared/finding.ts";
import { findingsOf } from "./findings-of.ts";

const places: Readonly<Record<string, (said: string) => string>> = {
  label: (said) => example(["  preparation bag {", `  label-text {\n    line "${said}"\n  }\n\n  preparation bag {`]),
  "note of the recipe": (said) => example(["  order {", `  note "${said}"\n\n  order {`]),
  "note between steps": (said) => example(["    seal bag\n", `    note "${said}"\n    seal bag\n`]),
  appearance: (said) => example(["clear, colourless, free", `${said}, clear, colourless, free`]),
  "note of a stock": (said) => example(["  fill       10 mL", `  fill       10 mL\n  note       "${said}"`]),
  "note of the site": (said) => example(["  cabinet ", `  note "${said}"\n  cabinet `]),
};

const rows: readonly (readonly [list: string, said: string, name: string])[] = [
  ["ISMP", "cassette, drops OS", "instruction-abbreviated"],
  ["ISMP", "cassette, drops OU", "instruction-abbreviated"],
  ["ISMP", "cassette, drops AU", "instruction-abbreviated"],
  ["ISMP", "cassette, drops AS", "instruction-abbreviated"],
  ["ISMP", "cassette, drops AD", "instruction-abbreviated"],
  ["ISMP", "then d/c", "instruction-abbreviated"],
  ["NZ", "then od", "instruction-abbreviated"],
  ["ISMP-2", "then UD", "instruction-abbreviated"],
  ["ISMP-2", "for SSI", "instruction-abbreviated"],
  ["ISMP", "then q1d", "frequency-abbreviated"],
  ["ISMP", "then qn", "frequency-abbreviated"],
  ["ISMP", "then q6PM", "frequency-abbreviated"],
  ["ISMP-2", "then i/d", "frequency-abbreviated"],
  ["ISMP-2", "then x3d", "frequency-abbreviated"],
  ["CAN", "keep for 6/52", "time-as-fraction"],
  ["CAN", "look every 4/24", "time-as-fraction"],
  ["ISMP", "about 5 c.c. of air", "millilitres-as-cc"],
  ["WHO", "about 5 cm3 of air", "millilitres-as-cc"],
  ["WHO", "about 5 cm³ of air", "millilitres-as-cc"],
  ["ISMP", "not 10 I.U. of it", "international-units-as-iu"],
  ["ISMP", "not 5K units of it", "thousand-as-k"],
  ["ISMP", "not 5 M units of it", "million-as-m"],
  ["ISMP", "packs of 1E6 units", "power-of-ten"],
  ["ISMP", "about 5 mL. of air", "unit-period"],
  ["ISMP", "about 1 1/2 mL of air", "fraction"],
  ["ISMP-2", "then ↓ rate", "sign-for-word"],
  ["ISMP-2", "Ø additive", "sign-for-word"],
  ["NZ", "not SL", "route-abbreviated"],
  ["NZ", "not s.c.", "route-abbreviated"],
  ["MED", "not IT", "route-abbreviated"],
  ["ISMP", "not with TPA", "abbreviated-drug-name"],
  ["ISMP", "not with TNK", "abbreviated-drug-name"],
  ["memory", "not with VBL", "abbreviated-drug-name"],
  ["memory", "not with araC", "abbreviated-drug-name"],
];

const named = (text: string, name: string) => findingsOf(text).filter((f) => f.name === name);
const mended = (text: string, { fixes }: Finding) =>
  [...fixes[0]!.edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((t, e) => t.slice(0, e.span.start) + e.text + t.slice(e.span.end), text);

describe.each(Object.entries(places))("%s", (_, text) => {
  it.each(rows)("%s: %j is told", (_, said, name) => {
    const [found, ...others] = named(text(said), name);
    expect(found?.message).toBeDefined();
    expect(others).toEqual([]);
    if (found!.fixes.length > 0) expect(named(mended(text(said), found!), name)).toEqual([]);
  });
});

/** Ordinary words, and counts that look alike. */
const ordinary = [
  "DO NOT SHAKE IT",
  "FROM WARD AS ORDERED",
  "USE AS DIRECTED",
  "Ward AD",
  "Ask IT on 4521",
  "Contact the IT department",
  "Bag 1/2",
  "Syringe 3/12",
  "Set 2/7 of the series",
  "See shelf 1/52",
  "A filter of Ø 25 mm",
  "Let it stand 5 min. Then look",
  "As it comes, od-d as that is",
  "Pit of the stomach",
];
describe.each(Object.entries(places))("%s is silent of", (_, text) => {
  it.each(ordinary)("%j", (said) => {
    const told = findingsOf(text(said)).filter((f) => f.family === "notation");
    expect(told.map((f) => f.message)).toEqual([]);
  });
});

it("the name of a hospital is what it is called", () => {
  const text = example(["  cabinet ", "  cabinet "]);
  const site = /site \{[^}]*\}/.exec(text)![0];
  const renamed = text.replace(site, site.replace(/name( +)"[^"]*"/, 'name$1"Hospital AD & OU"'));
  expect(findingsOf(renamed)).toEqual([]);
});
