/**
 * Figures of titles and label lines that say something only together: a volume and the strength of what it is of, an amount in a volume,
 * and strengths written as ratios. Magnesium sulfate 4 g (8 mL of 500 mg/mL, which is 50 % w/v) in 100 mL: 108 mL of 37.04 mg/mL, by hand. A
 * ratio behind a drug's name is grams in millilitres: 1 in 1,000 is 1 mg/mL (published conversion of ratio strengths).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const title = /title {2}".*"/.exec(example())![0];
const titled = (line: string, ...changes: [string, string][]) =>
  findingsOf(example([title, `title  "${line}"`], ...changes)).map(({ message }) => message);
const labelled = (line: string, ...changes: [string, string][]) =>
  findingsOf(
    example(["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`], ...changes),
  )
    .filter(({ name }) => name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^This line of the label says (.*)\. Correct whichever is wrong\.$/, "$1"));

describe("a title that tells the dose by volume and strength of the product", () => {
  it.each([
    "Magnesium sulfate 8 mL of 500 mg/mL in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 4 g (8 mL of 500 mg/mL) in sodium chloride 0.9 % 100 mL",
    "8 mL magnesium sulfate 500 mg/mL in sodium chloride 0.9 % 100 mL",
    "8 mL of magnesium sulfate 50 % in 100 mL of sodium chloride 0.9 %",
    "Magnesium sulfate 50 % 8 mL in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 500 mg/mL, 8 mL in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 500 mg per mL, 8 mL, in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 8 mL (500 mg/mL) in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 4 g (8 mL) in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL, from 10 mL ampoules of 500 mg/mL",
    "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL at 1 g/h",
    // 500 mg/mL of the heptahydrate (246.47 g/mol) are 2.03 mmol/mL.
    "Magnesium sulfate 8 mL of 2.03 mmol/mL in sodium chloride 0.9 % 100 mL",
  ])("%s is right", (line) => {
    expect(titled(line)).toEqual([]);
  });

  it.each([
    ["Magnesium sulfate 80 mL of 500 mg/mL in", "80 mL of 500 mg/mL", "8 mL of 500 mg/mL"],
    ["Magnesium sulfate 8 mL of 50 mg/mL in", "8 mL of 50 mg/mL", "8 mL of 500 mg/mL"],
    ["Magnesium sulfate 4 g (6 mL of 500 mg/mL) in", "6 mL of 500 mg/mL", "8 mL of 500 mg/mL"],
    ["Magnesium sulfate 8 mL (50 mg/mL) in", "8 mL (50 mg/mL)", "8 mL (500 mg/mL)"],
    ["Magnesium sulfate 4 g (80 mL) in", "4 g (80 mL)", "4 g (8 mL)"],
    [
      "Magnesium sulfate 4 g from 10 mL ampoules of 50 mg/mL in",
      "10 mL ampoules of 50 mg/mL",
      "10 mL ampoules of 500 mg/mL",
    ],
    ["Magnesium sulfate 4 g at 10 g/h in", "10 g/h", "1 g/h"],
    ["Magnesium sulfate 5 % 8 mL in", "5 % 8 mL", "50 % 8 mL"],
    ["8 mL of magnesium sulfate 5 % in", "8 mL of magnesium sulfate 5 %", "8 mL of magnesium sulfate 50 %"],
    // Both are wrong, though their product is 4 g.
    ["Magnesium sulfate 80 mL of 50 mg/mL in", "80 mL of 50 mg/mL", "8 mL of 500 mg/mL"],
  ])("%s is told once, at the pair", (line, said, right) => {
    expect(titled(`${line} sodium chloride 0.9 % 100 mL`)).toEqual([
      `The title says ${said}; the order comes to ${right}. Correct whichever is wrong.`,
    ]);
  });

  it("never speaks for the fluid", () => {
    const found = titled("Magnesium sulfate 4 g in 50 mL of sodium chloride 0.9 %");
    expect(found).toEqual(["The title says 50 mL; the order says 100 mL. Correct whichever is wrong."]);
  });
});

describe("a label line that does so", () => {
  it.each([
    "Magnesium sulfate 4 g (8 mL of 500 mg/mL) in 100 mL",
    "Contains 108 mL of 37 mg/mL",
    "Bolus 2 mL of 37 mg/mL",
    "100 mL of sodium chloride 0.9 %",
  ])("%s is right", (line) => {
    expect(labelled(line)).toEqual([]);
  });

  it.each([
    ["4 g (8 mL of 50 mg/mL) in 100 mL", "8 mL of 50 mg/mL; the recipe says 8 mL of 500 mg/mL"],
    ["Contains 108 mL of 370 mg/mL", "108 mL of 370 mg/mL; the recipe says 108 mL of 37.04 mg/mL"],
    // A bolus is given from the bag.
    ["Bolus 2 mL of 500 mg/mL", "2 mL of 500 mg/mL; the recipe says 2 mL of 37.04 mg/mL"],
  ])("%s is told", (line, told) => {
    expect(labelled(line)).toEqual([told]);
  });
});

describe("an amount in a volume", () => {
  it.each(["37 mg in 1 mL", "370 mg in 10 mL", "Magnesium sulfate 4 g in 108 mL", "37 mg per mL", "37 mg/1 mL"])(
    "%s is right",
    (line) => {
      expect(labelled(line)).toEqual([]);
    },
  );

  it.each([
    ["1 mg in 1 mL", "1 mg in 1 mL; the recipe says 37.04 mg in 1 mL"],
    ["370 mg in 1 mL", "370 mg in 1 mL; the recipe says 37.04 mg in 1 mL"],
    ["Magnesium sulfate 37 mg in 10 mL", "37 mg in 10 mL; the recipe says 370.4 mg in 10 mL"],
    // Of these one figure is the container's, so that the other is the slip.
    ["Magnesium sulfate 40 g in 108 mL", "40 g; the order says 4 g"],
    ["Magnesium sulfate 4 g in 10 mL", "10 mL; the recipe says 100 mL and 108 mL"],
    ["370 mg per mL", "370 mg per mL; the recipe for magnesium-sulfate says 37.04 mg/mL"],
  ])("%s is told once, with the figure that it should be", (line, told) => {
    expect(labelled(line)).toEqual([told]);
  });
});

describe("a strength as a ratio", () => {
  // 1 g in 100 mL of liquid: 2 mL of 500 mg/mL in 98 mL.
  const tenth: [string, string][] = [
    ["dose            4 g per bag", "dose            1 g per bag"],
    ["draw 4 g from mag into syringe  = 8 mL", "draw 1 g from mag into syringe  = 2 mL"],
    ["concentration  37.04 mg/mL", "concentration  9.8 mg/mL"],
  ];

  it.each(["Magnesium sulfate 1 in 1,000", "Magnesium sulfate 1:1000", "1 in 1000", "1 in 10,000 solution"])(
    "%s is told beside its notation",
    (line) => {
      const [told, ...more] = labelled(line);
      expect(told).toContain("mg/mL); the recipe for magnesium-sulfate says 37.04 mg/mL");
      expect(more).toEqual([]);
      if (!line.startsWith("Magnesium")) return;
      const all = findingsOf(
        example(["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`]),
      );
      expect(all.map(({ name }) => name)).toContain("ratio-strength");
    },
  );

  it.each(["Magnesium sulfate 1 in 100", "Magnesium sulfate 1:100 w/v"])("%s is right for 9.8 mg/mL", (line) => {
    expect(labelled(line, ...tenth, ["magnesium-4g", "magnesium-1g"], ["sulfate 4 g in", "sulfate 1 g in"])).toEqual(
      [],
    );
  });

  it.each(["Dilute 1 in 1,000", "Harms 1 in 1,000 patients", "1 in 1000 v/v", "Use within 1 in 24"])(
    "%s is no strength of it",
    (line) => {
      expect(labelled(line)).toEqual([]);
    },
  );

  it("in a title may be that of the product", () => {
    const ratio = (n: string) =>
      titled(`Magnesium sulfate 4 g (40 mL of 1 in ${n}) in sodium chloride 0.9 % 100 mL`).filter(
        (message) => !message.includes("Ratios"),
      );
    expect(ratio("1,000")).toEqual([
      "The title says 40 mL of 1 in 1,000; the order comes to 8 mL of 500 mg/mL. Correct whichever is wrong.",
    ]);
  });
});
