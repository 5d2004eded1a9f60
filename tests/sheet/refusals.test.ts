/** What cannot be printed is refused with the figures and what to do; nothing is guessed. */
import { describe, expect, it } from "vitest";
import { libraryOf, refusalFrom, sheetFrom, textsOf } from "./sample-sheets.ts";

const texts = textsOf("library");
const library = libraryOf(texts);
const refused = (recipe: string, more: Parameters<typeof refusalFrom>[2] = {}) => refusalFrom(library, recipe, more);
const weight = (text: string) => ({ inputs: new Map([["weight", text]]) });
const lot = (name: string, ...lots: string[]) => ({ lots: new Map([[name, lots]]) });

describe("a sheet is refused", () => {
  it("for an unknown recipe, with near names", () => {
    expect(refused("magnesium-4q")).toMatch(/No recipe is called "magnesium-4q" here\. Did you mean .*magnesium-4g/);
  });

  it("for a ranged order without its input", () => {
    expect(refused("vancomycin-loading")).toBe(
      "vancomycin-loading is ordered for a body weight of 40 kg to 120 kg in steps of 0.1 kg. Say which: --weight VALUE.",
    );
  });

  it.each([
    ["39.9kg", /body weight of 39\.9 kg lies outside 40 kg to 120 kg/],
    ["120.1kg", /body weight of 120\.1 kg lies outside 40 kg to 120 kg/],
    ["60.05kg", /60\.05 kg is no step of 40 kg to 120 kg in steps of 0\.1 kg/],
    ["60000mL", /Give it in that unit/],
    ["60,5kg", /Write a number with a point and a unit/],
    ["60", /Write a number with a point and a unit/],
    ["-60kg", /Write a number with a point and a unit/],
    ["60 kgs", /Write a number with a point and a unit/],
    ["6e1kg", /Write a number with a point and a unit/],
  ])("for a weight of %s", (text, words) => {
    expect(refused("vancomycin-loading", weight(text))).toMatch(words);
  });

  it("for an input that the order does not know", () => {
    expect(refused("magnesium-4g", weight("60kg"))).toBe(
      "magnesium-4g does not depend on body weight. Leave out --weight.",
    );
  });

  it.each([
    ["2026-11-25", /is not read as a date with time/],
    ["2026-02-30T09:30", /February 2026 ends on the 28th/],
    ["2026-11-25T24:00", /hours run from 00 to 23/],
  ])("for the moment %s", (at, words) => {
    expect(refused("magnesium-4g", { at })).toMatch(words);
  });

  it("for a moment that a zone's clock shows twice, and for an unknown zone", () => {
    // Clocks in London went back at 02:00 on 2026-10-25: 01:30 comes twice.
    expect(refused("magnesium-4g", { at: "2026-10-25T01:30", timeZone: "Europe/London" })).toMatch(/comes twice/);
    expect(refused("magnesium-4g", { timeZone: "Mars/Olympus" })).toMatch(/not known/);
  });

  it("for lots that are unknown, of no material, or out of date on the day", () => {
    expect(refused("magnesium-4g", lot("mag", "KQ-0000"))).toMatch(
      /Lot KQ-0000 of \S+ is not on the shelf\. On the shelf: /,
    );
    expect(refused("magnesium-4g", lot("bottle", "KQ-0000"))).toMatch(/--lot names "bottle", which is no material/);
    // KQ-4692 goes out on 2027-06-22; that day included.
    expect(refused("magnesium-4g", { ...lot("mag", "KQ-4692"), at: "2027-06-22T23:59" })).toBe("(a sheet was made)");
    expect(refused("magnesium-4g", { ...lot("mag", "KQ-4692"), at: "2027-06-23T00:00" })).toMatch(
      /KQ-4692 of \S+ went out of date on 2027-06-22; the preparation is dated 2027-06-23\./,
    );
  });

  it("for counts that are no whole number of runs", () => {
    expect(refused("magnesium-2g-batch", { bags: "6" })).toMatch(/makes 4 at a time; 6 is no whole number of runs/);
    for (const bags of ["0", "-1", "1.5", "many", "101"])
      expect(refused("magnesium-4g", { bags })).toMatch(/--bags is/);
  });

  it("for numbers that a bar code cannot carry", () => {
    expect(refused("magnesium-4g", { number: "KQ 0417" })).toMatch(/a GS1 code cannot carry/);
    expect(refused("magnesium-4g", { number: "KQ(04)17" })).toMatch(/bracket/);
    expect(refused("magnesium-4g", { number: "" })).toMatch(/empty/);
    expect(refused("magnesium-4g", { number: "N".repeat(21), gtin: "09501101530003" })).toMatch(/longer than the 20/);
    // The check digit of GS1's own example number 9501101530003 is 3.
    expect(refused("magnesium-4g", { gtin: "9501101530004" })).toMatch(/its other digits call for 3/);
  });
});

describe("the library is left as it was", () => {
  it("keeps its day", () => {
    sheetFrom(library, "magnesium-4g", { at: "2026-12-24T08:00" });
    expect(library.surroundings().asOf).toEqual({ year: 2026, month: 11, day: 25 });
  });
});
