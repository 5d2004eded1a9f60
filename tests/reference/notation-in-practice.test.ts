/**
 * How doses, strengths, rates, times and dates are written in practice in several countries: each is accepted with just the meaning of
 * the figure that the recipe needs, or told at its place with what to write instead. What is told may not be read as another amount.
 * Spellings: common practice, from memory of labels and drug charts (United Kingdom, Australia, Germany, Switzerland); the published
 * list of error-prone notation has its own test beside this one.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "../checks/findings-of.ts";

const places = {
  // 4 g, 500 mg/mL, 4 h, 1 g/h and 308 mOsm/L are what the standard recipe states or allows.
  dose: (text: string) => example(["    dose            4 g per bag", `    dose            ${text} per bag`]),
  strength: (text: string) => example(["  strength   500 mg/mL", `  strength   ${text}`]),
  time: (text: string) => example(["    infuse-over     4 h", `    infuse-over     ${text}`]),
  rate: (text: string) => example(["    infuse-over     4 h", `    infuse-at       ${text}`]),
  osmolarity: (text: string) => example(["  osmolarity  308 mOsm/L", `  osmolarity  ${text}`]),
  limit: (text: string) => example(["    use-within     24 h at", `    use-within     ${text} at`]),
  expiry: (text: string) => example(["expires 2027-04\n", `expires ${text}\n`]),
  note: (text: string) =>
    example(["  light          not-sensitive", `  light          not-sensitive\n  note           "Give ${text} now."`]),
} as const;

type Place = keyof typeof places;

/** Accepted as it stands. */
const accepted: readonly [Place, string][] = [
  ["dose", "4 g"],
  ["dose", "4,000 mg"],
  ["dose", "4 grams"],
  ["dose", "4\u00a0g"],
  ["dose", "4,000,000 mcg"],
  ["dose", "4,000,000 micrograms"],
  ["strength", "50 % w/v"],
  ["strength", "50% w/v"],
  ["strength", "50 % (w/v)"],
  ["strength", "50 % m/V"],
  ["strength", "50 % W/V"],
  ["strength", "5 g in 10 mL"],
  ["strength", "500 g/L"],
  ["strength", "50 g/dL"],
  ["dose", "4,000 milligrams"],
  ["dose", "4 million mcg"],
  ["dose", "16.23 mmol of magnesium"],
  ["dose", "32.46 mEq of magnesium"],
  ["strength", "500 mcg/mcL"],
  ["strength", "500,000 mcg/mL"],
  ["strength", "50 g in 100 mL"],
  ["strength", "50 %w/v"],
  ["strength", "50 % (m/v)"],
  ["time", "4 hours"],
  ["rate", "16.7 mg/min"],
  ["rate", "0.45 mL/min"],
  ["rate", "27 mL/hour"],
  ["time", "240 min"],
  ["rate", "24 g/day"],
  ["rate", "1 g/h"],
  ["note", "5 mg in 2 500 mL bags"],
  ["note", "the bag of 5/10/20 mL"],
  ["note", "it by 25/12/2026"],
  ["note", "it as in section 3.4.12"],
];

/** Told under a name, with all that is offered in its place. */
const told: readonly [Place, string, string, ...string[]][] = [
  ["dose", "4'000 mg", "number-with-two-readings", "Write 4,000"],
  ["dose", "4’000 mg", "number-with-two-readings", "Write 4,000"],
  ["dose", "4 000 mg", "number-with-two-readings", "Write 4,000"],
  ["dose", "4.000 mg", "number-with-two-readings", "Write 4,000", "Write 4"],
  ["dose", "4.000,0 mg", "number-with-two-readings", "Write 4,000"],
  ["dose", "4,0 g", "number-with-two-readings", "Write 4"],
  ["dose", "4.0 g", "trailing-zero", "Write 4 g"],
  ["dose", "4 x 10^3 mg", "power-of-ten", "Write 4,000 mg"],
  ["dose", "4×10³ mg", "power-of-ten", "Write 4,000 mg"],
  ["dose", "4\u202f000 mg", "thousands-not-grouped", "Write 4,000 mg"],
  ["dose", "4000 mg", "thousands-not-grouped", "Write 4,000 mg"],
  ["dose", "4,000mg", "unit-run-together", "Write 4,000 mg"],
  ["dose", ".004 kg", "naked-decimal", "Write 0.004 kg"],
  ["dose", "0,004 kg", "number-with-two-readings", "Write 0.004"],
  ["dose", "04 g", "number-with-two-readings"],
  ["dose", "4·0 g", "number-with-two-readings", "Write 4"],
  ["dose", "4·5 g", "number-with-two-readings", "Write 4.5"],
  ["dose", "4. g", "fact-not-understood", "Write 4 g"],
  ["dose", "4e3 mg", "number-with-two-readings"],
  ["dose", "4e+3 mg", "number-with-two-readings"],
  ["dose", "4.0e3 mg", "number-with-two-readings"],
  ["dose", "4·10^3 mg", "power-of-ten", "Write 4,000 mg"],
  ["dose", "4*10^3 mg", "power-of-ten", "Write 4,000 mg"],
  ["dose", "4 x 103 mg", "fact-not-understood"],
  ["dose", "IV g", "fact-not-understood"],
  ["dose", "8/2 g", "fraction", "Write 4 g"],
  ["dose", "3 2/2 g", "fraction", "Write 4 g"],
  ["dose", "1 1/3 g", "number-with-two-readings"],
  ["dose", "⅓ g", "number-with-two-readings"],
  ["dose", "4-5 g", "range-with-hyphen", "Write 4 g to 5 g"],
  ["dose", "4–5 g", "range-with-hyphen", "Write 4 g to 5 g"],
  ["dose", "4 g – 5 g", "foreign-letter", "Write to"],
  ["dose", "٤ g", "foreign-letter"],
  ["dose", "４ g", "foreign-letter", "Write 4"],
  ["dose", "4 G", "number-with-two-readings", "Write g", "Write gauge"],
  ["dose", "4 Gram", "unit-letter-case", "Write 4 g"],
  ["dose", "4 g.", "unit-period", "Write 4 g"],
  ["dose", "4 gr", "customary-unit"],
  ["dose", "4 grms", "unit-spelling", "Write 4 g"],
  ["dose", "4,000 mgm", "unit-spelling", "Write 4,000 mg"],
  ["dose", "4,000,000 µg", "micro-sign", "Write 4,000,000 mcg"],
  ["dose", "4,000,000 ug", "micro-sign", "Write 4,000,000 mcg"],
  ["dose", "4,000,000 mcgs", "plural-unit", "Write 4,000,000 mcg"],
  ["dose", "4M mcg", "million-as-m"],
  ["dose", "16.23 millimol of magnesium", "unit-spelling", "Write 16.23 mmol"],
  ["dose", "32.46 mequiv of magnesium", "unit-spelling", "Write 32.46 mEq"],
  ["dose", "32.46 mVal of magnesium", "unit-spelling", "Write 32.46 mEq"],
  ["dose", "0.8 amp", "unknown-unit"],
  ["dose", "1 ampoule", "unknown-unit"],
  ["dose", "4 MIU", "million-as-m"],
  ["dose", "4 kIU", "thousand-as-k"],
  ["dose", "4 mIU", "microunits"],
  ["dose", "4 Gm", "unit-spelling", "Write 4 g"],
  ["dose", "4 grammes", "unit-spelling", "Write 4 g"],
  ["dose", "4,000,000 microg", "unit-spelling", "Write 4,000,000 mcg"],
  ["dose", "4,000,000 γ", "micro-sign", "Write 4,000,000 mcg"],
  ["dose", "32.46 mval", "unit-spelling", "Write 32.46 mEq"],
  ["dose", "4 mM", "number-with-two-readings", "Write mmol/L", "Write mm"],
  ["dose", "4 ｇ", "unknown-unit", "Write g"],
  ["dose", "4 E", "unknown-unit"],
  ["dose", "4 ‰", "unknown-unit"],
  ["dose", "5 AUC", "auc-formula-not-declared"],
  ["dose", "4 MU", "million-as-m"],
  ["strength", "1:2 w/v", "ratio-strength", "Write 500 mg/mL"],
  ["strength", "1 : 2 w/v", "ratio-strength", "Write 500 mg/mL"],
  ["strength", "1\u202f:\u202f2 w/v", "ratio-strength", "Write 500 mg/mL"],
  ["strength", "1\u22362 w/v", "ratio-strength", "Write 500 mg/mL"],
  ["strength", "10:20 w/v", "ratio-strength", "Write 500 mg/mL"],
  ["strength", "1 in 2 w/v", "unit-missing", "Write 500 mg/mL"],
  ["strength", "500 ‰", "unknown-unit"],
  ["strength", "50 w/v", "unknown-unit", "Write % w/v"],
  ["strength", "500 mg%", "unknown-unit", "Write mg/dL"],
  ["strength", "500 mg/1 mL", "figure-below-slash", "Write 500 mg/mL"],
  ["strength", "5 g/10 mL", "figure-below-slash", "Write 0.5 g/mL"],
  ["strength", "500.0 mg/mL", "trailing-zero", "Write 500 mg/mL"],
  ["strength", "500 mg/cc", "millilitres-as-cc", "Write 500 mg/mL"],
  ["strength", "500 g/l", "litre-as-small-l", "Write 500 g/L"],
  ["strength", "500 mg per mL", "fact-not-understood", "Write mg/mL"],
  ["strength", "500 mg / mL", "fact-not-understood", "Write mg/mL"],
  ["strength", "50 g%", "unknown-unit", "Write g/dL"],
  ["strength", "500 mg·mL⁻¹", "unknown-unit", "Write mg/mL"],
  ["strength", "500 mg.mL-1", "unknown-unit", "Write mg/mL"],
  ["strength", "500 mg／mL", "unknown-unit", "Write mg/mL"],
  ["strength", "1 in 200", "unit-missing"],
  ["strength", "1:200", "number-with-two-readings"],
  ["strength", "1/1000", "figure-below-slash"],
  ["time", "4:00", "number-with-two-readings", "Write 4 h"],
  ["time", "1:30", "number-with-two-readings", "Write 1.5 h"],
  ["time", "12:20", "number-with-two-readings", "Write 740 min"],
  ["time", "4 h 30 min", "fact-not-understood", "Write 4.5 h"],
  ["time", "over 4 h", "fact-not-understood", "Leave it out"],
  ["time", "4/24", "time-as-fraction", "Write 4 h"],
  ["time", "3-4 h", "range-with-hyphen", "Write 3 h to 4 h"],
  ["time", "240 mins", "unit-spelling", "Write 240 min"],
  ["rate", "1 g/hr", "unit-spelling", "Write 1 g/h"],
  ["rate", "24 g/24 h", "figure-below-slash", "Write 1 g/h"],
  ["rate", "9 gtt/min", "unit-spelling", "Write 9 drops/min"],
  ["time", "4 hrs", "unit-spelling", "Write 4 h"],
  ["osmolarity", "308 mOsmol/L", "unit-spelling", "Write 308 mOsm/L"],
  ["limit", "1 d", "unit-spelling", "Write 1 day"],
  ["expiry", "04/2027", "date-not-iso", "Write 2027-04"],
  ["expiry", "03/04/27", "date-not-iso"],
  ["expiry", "2207-04", "date-not-iso"],
  ["note", "10 000 units", "number-with-two-readings", "Write 10,000"],
  ["note", "10⁶ units", "power-of-ten", "Write 1 million"],
  ["note", "5 γ", "micro-sign", "Write 5 mcg"],
  ["note", "≥10 mg", "sign-for-word", "Write at least"],
  ["note", "it by 03/04/27", "date-not-iso"],
  ["note", "it by 3/4/2027", "date-not-iso", "Write 2027-04-03", "Write 2027-03-04"],
  ["note", "1 drop OD", "instruction-abbreviated", "Write once daily", "Write right eye"],
  ["note", "it qhs", "frequency-abbreviated", "Write nightly"],
];

const offered = (fixes: readonly { title: string }[]) => fixes.map(({ title }) => title);

describe("notation in practice", () => {
  it.each(accepted)("%s: %s is accepted", (place, written) => {
    expect(findingsOf(places[place](written)).map((f) => f.message)).toEqual([]);
  });

  it.each(told)("%s: %s is told as %s", (place, written, name, ...fixes) => {
    const [finding, ...others] = findingsOf(places[place](written)).filter((f) => f.family !== "limits");
    expect(others.map((f) => f.message)).toEqual([]);
    expect(finding?.name).toBe(name);
    expect(offered(finding?.fixes ?? [])).toEqual(fixes);
  });

  it("says what a ratio by parts stands for", () => {
    const [finding] = findingsOf(places.strength("1 in 200"));
    expect(finding?.message).toContain("as 1 in 200 w/v it is 5 mg/mL");
  });

  it("reads mega units as millions", () => {
    const found = findingsOf(places.dose("1.2 mega units"));
    expect(found.find((f) => f.name === "million-as-m")?.message).toContain("Write `1.2 million units`");
  });

  it("tells a ratio without its kind also where the site does not mind ratios", () => {
    const quiet = (text: string) =>
      text.replace(
        "  role           aseptic-lead",
        `  role           aseptic-lead\n  severity       ratio-strength off because "dental stock"`,
      );
    expect(findingsOf(quiet(places.strength("1:200"))).map((f) => f.name)).toContain("unit-missing");
    expect(findingsOf(quiet(places.time("4:00"))).map((f) => f.name)).toContain("number-with-two-readings");
  });
});
