/** How fast and in what way a container is given, where the monograph limits it: a part that is given at once, and a rate that a mark of the syringe makes. */
import { describe, expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const rate = "  rate           up to 9 g/h for route intravenous\n";
const over = "    infuse-over     4 h\n";
const ofUse = (use: string, limit: string) => `  rate           up to ${limit} for route intravenous use ${use}\n`;
const form: [string, string] = ["form           solution-for-infusion", "form           solution-for-injection"];

/** Findings of the standard bag from which a part is given; that its bag states no overfill is left aside. */
function givenAs(use: string, rows: string, time = "") {
  const lines = `    use             ${use}\n${time && `    infuse-over     ${time}\n`}`;
  return findingsOf(example([rate, rows], form, [over, lines])).filter((f) => f.name !== "overfill-not-stated");
}

describe("a part of a container that is given at once", () => {
  test("is not held against a limit for infusions, and the finding names the words that say so", () => {
    const rows = ofUse("infusion", "9 g/h");
    const [found] = givenAs("part-of-container", rows);
    expect(found?.name).toBe("limit-not-compared");
    expect(found?.message).toContain("`use part-of-container as bolus` where the part is given at once");
    expect(givenAs("part-of-container as bolus", rows)).toEqual([]);
  });

  test("is held against the limit for boluses, once its time is stated", () => {
    const rows = ofUse("infusion", "9 g/h") + ofUse("bolus", "60 g/h");
    const [open, ...more] = givenAs("part-of-container as bolus", rows);
    expect(more).toEqual([]);
    expect(open?.message).toContain("(up to 60 g/h) was not checked: the order does not say how fast it is given.");
    expect(open?.message).toContain("State `infuse-over` or `infuse-at`.");
    expect(givenAs("part-of-container as bolus", rows, "10 min")).toEqual([]);
    expect(givenAs("part-of-container as bolus", rows, "3 min").map((f) => f.name)).toEqual(["rate-above-limit"]);
  });

  test("`as bolus` behind another use is told", () => {
    const found = givenAs("titrated as bolus", rate);
    expect(found.map((f) => f.name)).toContain("form-contradicts-use");
    expect(found.find((f) => f.name === "form-contradicts-use")?.message).toContain("the order says `use titrated`");
  });
});

test.each([
  ["6 mL/h", true],
  ["10 mL/min", false],
])("a bolus at %s contradicts itself: %s", (at, isTold) => {
  const found = findingsOf(example(form, [over, `    use             bolus\n    infuse-at       ${at}\n`]));
  const told = found.filter((f) => f.name === "form-contradicts-use");
  expect(told.map((f) => f.message.includes(`given as a bolus, and at ${at}`))).toEqual(isTold ? [true] : []);
});

test("a part of several strengths of which nobody says how much is given is told once", () => {
  const strength: [string, string] = ["    dose            4 g per bag\n", "    concentration   40 mg/mL per bag\n"];
  const rows = ofUse("infusion", "9 g/h") + rate;
  const found = findingsOf(example([rate, rows], form, strength, [over, "    use             part-of-container\n"]));
  expect(found.filter((f) => f.name === "limit-not-compared")).toHaveLength(1);
});

test("a rate that only the mark of a syringe takes above its limit names the rounding", () => {
  const [found, ...more] = findingsOf(
    example(
      [rate, "  rate           up to 4.05 g/h for route intravenous\n"],
      ["    dose            4 g per bag", "    dose            4.05 g per bag"],
      ["    draw 4 g from mag into syringe  = 8 mL", "    draw dose from mag into syringe"],
      ["    concentration  37.04 mg/mL\n", ""],
      [over, "    infuse-over     1 h\n"],
    ),
  ).filter((f) => f.name === "rate-above-limit");
  expect(more).toEqual([]);
  expect(found?.message).toContain("at 4.1 g/h; allowed is up to 4.05 g/h. As ordered it is 4.05 g/h");
  expect(found?.message).toContain("8.1 mL is drawn as 8.2 mL, because syringe is marked every 0.2 mL");
});

test("a rate that is too high as ordered names no rounding", () => {
  const [found] = findingsOf(example([over, "    infuse-over     20 min\n"]));
  expect(found?.message).toMatch(/Give it over 27 min or longer\.$/);
  expect(found?.message).not.toContain("As ordered");
});

describe("a part of a bag of several drugs", () => {
  const potassium = (window: string) => `drug potassium-chloride {
  source         guide "potassium"
  name           "potassium chloride"
  formula        "KCl"
  ion            potassium charge 1
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     magnesium-sulfate
  dose           from 5 mmol up to 100 mmol for any route
${window}  concentration  up to 400 mmol/L for route intravenous
  rate           up to 10 mmol/h for route intravenous
  stable {
    source         guide "table 7"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock potassium-vial {
  drug       potassium-chloride
  container  vial
  strength   2 mmol/mL
  fill       10 mL
  doses      single
  storage    room-temperature
}

lots potassium-vial {
  lot "KQ-7301"  expires 2027-06
}

recipe magnesium-4g {`;
  const both = (window = "", time = "    infuse-over     4 h\n") =>
    findingsOf(
      example(
        ["recipe magnesium-4g {", potassium(window)],
        ['"Magnesium sulfate 4 g in', '"Magnesium sulfate 4 g and potassium chloride 20 mmol in'],
        ["    drug            magnesium-sulfate\n", "    additive        magnesium-sulfate 4 g per bag\n"],
        ["    dose            4 g per bag\n", "    additive        potassium-chloride 20 mmol per bag\n"],
        ["    access          peripheral\n", "    access          central\n    use             part-of-container\n"],
        [over, time],
        [
          "    filter       filter",
          "    pot          potassium-vial\n    second       syringe-10mL\n    thin         needle-21-gauge\n    filter       filter",
        ],
        ["expiry of mag, bag", "expiry of mag, pot, bag"],
        [
          "    inspect bag\n",
          "    disinfect pot\n    attach thin to second\n    draw 20 mmol from pot into second at equal pressure\n    expel air from second\n    disinfect bag\n    inject second into bag\n    mix bag by inverting 10 times\n    inspect bag\n",
        ],
        ["keep mag, filter", "keep mag, pot, second, filter"],
        ["concentration  37.04 mg/mL", "concentration  magnesium-sulfate 33.9 mg/mL"],
      ),
    )
      .filter((f) => f.name !== "overfill-not-stated" && f.name !== "additive-over-share")
      .map((f) => f.message);

  test("is held against the window of an ion: each dose is what the bag holds", () => {
    expect(both("  dose           up to 30 mmol of potassium for any route\n")).toEqual([]);
    const [told, ...more] = both("  dose           up to 10 mmol of potassium for any route\n");
    expect(more).toEqual([]);
    expect(told).toContain("20 mmol of potassium lies outside");
  });

  test("that does not say how fast it is given is told once for all limits of all drugs", () => {
    const [told, ...more] = both("", "");
    expect(more).toEqual([]);
    expect(told).toContain(
      "The rate of magnesium-sulfate (up to 9 g/h) and potassium-chloride (up to 10 mmol/h) was not checked",
    );
  });
});

test.each([
  ["infuse-over     20 min", "Give it over 27 min or longer."],
  ["infuse-at       400 mL/h", "Give it more slowly."],
])("a rate above its limit by `%s` is mended in the words of the order", (line, remedy) => {
  const told = findingsOf(example([over, `    ${line}\n`])).filter((f) => f.name === "rate-above-limit");
  expect(told.map(({ message }) => message.slice(message.indexOf("Give")))).toEqual([remedy]);
});
