/** Amounts that a line of the label repeats, and a strength that no volume can be multiplied by: common practice. */
import { expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const labelled = (...lines: string[]) =>
  findingsOf(
    example([
      "  preparation bag {",
      `  label-text {\n${lines.map((line) => `    line  "${line}"`).join("\n")}\n  }\n\n  preparation bag {`,
    ]),
  );

it.each([
  [["Magnesium sulfate 2 g"]],
  [["Give over 4 h", "Contains magnesium sulfate 40 g"]],
  [["Magnesium sulfate 1.62 mmol"]],
])("%j is another amount than the 4 g ordered", (lines) => {
  expect(labelled(...lines).map((f) => f.name)).toEqual(["label-text-contradicts-order"]);
});

// 1 g of the heptahydrate (246.47 g/mol) is 4.06 mmol.
it.each([
  "Magnesium sulfate 4 g in 108 mL",
  "Magnesium sulfate heptahydrate 4,000 mg",
  "Magnesium sulfate 16.2 mmol",
  "Magnesium sulfate 1 g per hour",
  "Do not exceed magnesium sulfate 10 g a day",
])("%s is in order", (line) => {
  expect(labelled(line)).toEqual([]);
});

it("an ordered strength by weight of the liquid gives no dose for a volume, and is never passed over", () => {
  const found = findingsOf(
    example(
      ["    dose            4 g per bag\n", "    concentration   3.7 % w/w\n    final-volume    108 mL\n"],
      ["magnesium-4g {", "magnesium-bag {"],
      ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
    ),
  );
  expect(found.map((f) => f.name)).toEqual(["amount-not-computable"]);
});
