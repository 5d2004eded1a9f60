/**
 * What authors write where the language wants something else, and what they are told to write: figures beside steps, times of two units,
 * rates with a product below the line, blocks in the wrong place. Forms of worksheets and charts: common practice, from memory.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import type { Finding } from "../../shared/finding.ts";
import { findingsOf } from "./findings-of.ts";

const beside = (claim: string) => example(["syringe  = 8 mL", `syringe  ${claim}`]);
const over = (time: string) => example(["    infuse-over     4 h", `    infuse-over     ${time}`]);
const at = (rate: string) => example(["    infuse-over     4 h", `    infuse-at       ${rate}`]);
const inPreparation = (line: string) => example(["    appearance ", `    ${line}\n    appearance `]);

/** The text with the first fix of its one finding. */
function mended(text: string): string {
  const [finding, ...others] = findingsOf(text);
  expect(others.map((f) => f.message)).toEqual([]);
  const fix = finding?.fixes[0];
  return [...(fix?.edits ?? [])]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((t, e) => t.slice(0, e.span.start) + e.text + t.slice(e.span.end), text);
}
const only = (text: string): Finding => {
  const found = findingsOf(text);
  expect(found.map((f) => f.name)).toHaveLength(1);
  return found[0]!;
};

describe("a figure beside a step", () => {
  it.each([
    "= ~8 mL",
    "≈ 8 mL",
    "~ 8 mL",
    "= about 8 mL",
    "= approx. 8 mL",
    "= ca 8 mL",
    "== 8 mL",
    "8 mL",
    "(8 mL)",
    "is 8 mL",
    ": 8 mL",
    "+/- 8 mL",
  ])("%j is told with the one that it means", (claim) => {
    expect(only(beside(claim)).message).toContain("Write `= 8 mL`, if it is just that.");
    expect(findingsOf(mended(beside(claim)))).toEqual([]);
  });

  it.each(["= 8 mL (4 g)", "= 8 mL exactly", "= 8 mL of 500 mg/mL", "= 8 mL ± 5 %", "= 8 mL +/- 0.1 mL"])(
    "%j says too much",
    (claim) => {
      expect(only(beside(claim)).message).toContain("Leave out `");
      expect(findingsOf(mended(beside(claim)))).toEqual([]);
    },
  );

  it("without unit, as a limit or in words gets no guess", () => {
    expect(only(beside("= 8")).message).toContain("Write the unit behind 8, such as mL.");
    expect(only(beside("= <8 mL")).message).toContain("no limit");
    expect(only(beside("= eight mL")).message).toContain("Write the number in figures.");
    for (const claim of ["= 8", "= <8 mL", "= eight mL"]) expect(only(beside(claim)).fixes).toEqual([]);
  });

  it("that is no volume is not said to move none", () => {
    expect(only(beside("= 4 g")).message).toBe(
      "Beside step 6 stands 4 g, which is no volume; the step moves 8 mL. Write the volume, or take the figure out.",
    );
  });

  it("leaves another fault of the step to the form of the step", () => {
    expect(only(example(["    expel air from syringe", "    expel air out syringe"])).message).toContain(
      "The step is written: expel air from SYRINGE",
    );
  });
});

describe("a time of hours and minutes", () => {
  it.each([
    ["4h30", "4.5 h"],
    ["4h30m", "4.5 h"],
    ["1h15min", "1.25 h"],
    ["4 h 30", "4.5 h"],
    ["4 h 30 m", "4.5 h"],
    ["4 h 20 min", "260 min"],
    ["1h20", "80 min"],
  ])("%j is %s", (time, one) => {
    const finding = only(over(time));
    expect(finding.message).toContain(`Write ${one}.`);
    expect(finding.fixes[0]?.edits[0]?.text).toBe(one);
  });

  it.each(["4h75", "4h30x"])("%j is none", (time) => {
    expect(only(over(time)).fixes).toEqual([]);
  });
});

describe("a product below the line", () => {
  it.each([
    ["mcg/kg·min", "mcg/kg/min"],
    ["mg/kg.h", "mg/kg/h"],
    ["mg/kg*h", "mg/kg/h"],
    ["mcg/(kg.min)", "mcg/kg/min"],
    ["mg/m2·h", "mg/m2/h"],
  ])("%s is %s", (unit, meant) => {
    expect(only(at(`10 ${unit}`)).fixes.map((f) => f.title)).toEqual([`Write ${meant}`]);
  });

  it("above it is no rate", () => {
    expect(only(at("10 mg.kg/h")).fixes).toEqual([]);
  });
});

describe("a block in the wrong place", () => {
  it.each(['label "x"', 'label-text "x"', 'label {\n      line "x"\n    }', 'label-text {\n      line "x"\n    }'])(
    "%j in a preparation is told where it belongs",
    (line) => {
      expect(only(inPreparation(line)).message).toContain("write `label-text { … }` beside `preparation`, not in it");
    },
  );

  it("is told in the recipe too", () => {
    const text = example(["  preparation bag {", '  label "x"\n\n  preparation bag {']);
    expect(only(text).message).toContain('with each line of the label as `line "TEXT"`.');
  });
});

describe("a head of a block that says more than is read", () => {
  it.each([
    ["  order {", "  order intravenous {", "intravenous"],
    ["  preparation bag {", "  preparation bag syringe {", "syringe"],
    ["  steps {", "  steps for bag {", "for bag"],
    ["  stable {", "  stable saline {", "saline"],
    ["site {", "site kestrel {", "kestrel"],
  ])("%j as %j is told", (head, longer, beyond) => {
    expect(only(example([head, longer])).message).toContain(`belongs the brace, and \`${beyond}\` is not used`);
  });

  it("with two names is told so", () => {
    expect(only(example(["stock magnesium-ampoule {", "stock magnesium-ampoule vial {"])).message).toContain(
      "here stand several words",
    );
  });
});

it("a line that begins with no word is told what it lacks", () => {
  expect(only(inPreparation('"clear"')).message).toBe(
    'A line of `preparation` begins with a word that says what it is, such as `form`. This one begins with `"clear"` and is not used. Put its word in front.',
  );
});

it("a dose by time is told with the time that the container is given", () => {
  const found = only(example(["    dose            4 g per bag", "    dose            4 g per 24 h"]));
  // 4 g × 4 h / 24 h
  expect(found.message).toContain(
    "4 g per 24 h, which is 666.7 mg of magnesium-sulfate for the time that bag is given",
  );
  expect(found.message).toContain("in place of `per 24 h`");
});

describe("the concentration of a preparation counted as a salt", () => {
  const salted = (line: string) =>
    example(
      [
        "  light          not-sensitive",
        '  light          not-sensitive\n  counted-as     anhydrous\n  salt           heptahydrate 2 g for 1 g  source guide "magnesium"',
      ],
      ["strength   500 mg/mL", "strength   500 mg/mL as anhydrous"],
      ["dose            4 g per bag", "dose            8 g as heptahydrate per bag"],
      ["Magnesium sulfate 4 g in", "Magnesium sulfate 8 g as heptahydrate in"],
      ["magnesium-4g {", "magnesium-bag {"],
      ["concentration  37.04 mg/mL", `concentration  ${line}`],
    );

  // 4 g anhydrous are 8 g of a salt of which 2 g hold 1 g: 8 g in 108 mL are 74.07 mg/mL.
  it("is laid against the bench in that form", () => {
    expect(findingsOf(salted("37.04 mg/mL")).map((f) => f.message)).toEqual([]);
    expect(findingsOf(salted("74.07 mg/mL as heptahydrate")).map((f) => f.message)).toEqual([]);
    expect(only(salted("37.04 mg/mL as heptahydrate")).message).toContain(
      "States 37.04 mg/mL as heptahydrate; the steps give 74.07 mg/mL as heptahydrate",
    );
    expect(only(salted("74.07 mg/mL")).name).toBe("concentration-differs");
  });

  it("that the drug does not declare is told once", () => {
    expect(only(salted("74.07 mg/mL as monohydrate")).name).toBe("salt-not-known");
  });

  it("may be nominal", () => {
    const nominal = (figure: string) => salted(`37.04 mg/mL\n    nominal-concentration  ${figure}`);
    expect(findingsOf(nominal("74 mg/mL as heptahydrate"))).toEqual([]);
    expect(only(nominal("37 mg/mL as heptahydrate")).name).toBe("nominal-concentration-differs");
  });
});
