/**
 * Figures of a label line or a title beside which no drug is named: 4 g in 108 mL are 37.04 mg/mL, by hand. A label whose strength is
 * that of the ampoule has led to overdoses (common practice).
 */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const labelled = (...lines: string[]) =>
  findingsOf(
    example([
      "  preparation bag {",
      `  label-text {\n${lines.map((line) => `    line  "${line}"`).join("\n")}\n  }\n\n  preparation bag {`,
    ]),
  );
const titled = (title: string) =>
  findingsOf(example(["Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL", title])).map((f) => f.message);

describe("a line of the label", () => {
  it.each([
    ["500 mg/mL", "37.04 mg/mL"],
    ["Final concentration: 3.7 mg/mL", "37.04 mg/mL"],
    ["4 g in 100 mL (4 mg/mL)", "37.04 mg/mL"],
    ["4 g in 50 mL", "100 mL and 108 mL"],
    ["Magnesium sulfate 4 g in sodium chloride 0.9 % 50 mL", "100 mL and 108 mL"],
    ["50 mL bag", "100 mL and 108 mL"],
    ["Contains 40 g", "4 g"],
    ["40 g magnesium sulfate", "4 g"],
  ])("%j contradicts %s", (line, ordered) => {
    const [found, ...others] = labelled(line);
    expect(found?.name).toBe("label-text-contradicts-order");
    expect(found?.message).toContain(`says ${ordered}. Correct`);
    expect(others).toEqual([]);
  });

  it("tells which of two strengths is wrong", () => {
    const found = labelled("37 mg/mL", "Strength 3.7 mg/mL");
    expect(found.map((f) => f.message)).toEqual([expect.stringContaining("says 3.7 mg/mL")]);
  });

  it.each([
    "37 mg/mL",
    "4 g in 100 mL bag (37 mg/mL)",
    "Contains 4 g in 108 mL",
    "37 mg in 1 mL",
    "Each mL contains 37 mg",
    "30 mg/mL to 40 mg/mL",
    "Magnesium 0.15 mmol/mL",
    "Contains 0.9 g sodium chloride",
    "Sodium 154 mmol/L",
    "Made from 500 mg/mL ampoules",
    "Give in 10 mL portions",
    "Flush with 10 mL",
    "Antidote: calcium gluconate 1 g",
    "Target level 2 mmol/L",
  ])("%j is left alone", (line) => {
    expect(labelled(line)).toEqual([]);
  });

  it("is laid against what the bench made of a powder", () => {
    const line = (text: string) =>
      findingsOf(
        powderExample(["  preparation sack {", `  label-text {\n    line  "${text}"\n  }\n\n  preparation sack {`]),
      ).map((f) => f.name);
    expect(line("4.5 mg/mL")).toEqual([]);
    expect(line("50 mg/mL")).toEqual(["label-text-contradicts-order"]);
  });
});

describe("a strength in the title", () => {
  it.each(["Magnesium sulfate 4 g (4 mg/mL)", "Magnesium sulfate 0.4 mg/mL"])("of %j is told", (title) => {
    expect(titled(title)).toEqual([expect.stringContaining("comes to 37.04 mg/mL")]);
  });

  // 4 g / 100 mL is how the bag is spoken of.
  it.each(["Magnesium sulfate 4 g (40 mg/mL)", "Magnesium sulfate 37 mg/mL", "Magnesium sulfate 4 g (500 mg/mL)"])(
    "of %j is left alone",
    (title) => {
      expect(titled(title)).toEqual([]);
    },
  );
});

describe("a figure of the label", () => {
  const bag = "  preparation bag {";
  const use = (how: string, line: string) =>
    findingsOf(
      example(
        ["    infuse-over     4 h\n", `    infuse-over     4 h\n    use             ${how}\n`],
        [bag, `  label-text {\n    line  "${line}"\n  }\n\n${bag}`],
      ),
    ).map((f) => f.name);

  it("on a container of which parts are given tells what is in all of it", () => {
    expect(use("titrated", "Total 40 g in 100 mL")).toContain("label-text-contradicts-order");
    expect(use("titrated", "4 g in 100 mL")).not.toContain("label-text-contradicts-order");
    expect(use("titrated", "Dose 1 g")).not.toContain("label-text-contradicts-order");
  });

  it("that repeats the stated concentration follows it", () => {
    // 2 g for 4 g: the dose is told, and not the strength that was right for it.
    const found = findingsOf(
      example(
        ["draw 4 g from mag into syringe  = 8 mL", "draw 2 g from mag into syringe  = 4 mL"],
        [bag, `  label-text {\n    line  "37.04 mg/mL"\n  }\n\n${bag}`],
      ),
    );
    expect(found.map((f) => f.name)).toEqual(["dose-not-delivered"]);
  });
});
