/**
 * Words and rates of a label line that are another recipe's: another drug or fluid, another vein, a rate. 108 mL over 4 h are 27 mL/h, by
 * hand. A label copied from another recipe sends the dose the wrong way (common practice).
 */
import { expect, it } from "vitest";
import { example, standardAnd } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const others = `
drug cytarabine {
  source       guide "cytarabine"
  name         "cytarabine"
  high-alert   no
  hazard       not-hazardous
  light        not-sensitive
  compatible   sodium-chloride-0.9
  dose         up to 1 g for any route
}

fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  osmolarity  278 mOsm/L
  use         injection
}
`;
const labelled = (line: string) =>
  findingsOf(
    example(["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`]) +
      standardAnd(others).slice(standardAnd("").length),
  );

it.each([
  ["Cytarabine 100 mg", "says cytarabine; the recipe says magnesium-sulfate"],
  ["Contains cytarabine 10 mg/mL", "says cytarabine"],
  ["In glucose 5 %", "says glucose-5; the recipe says sodium-chloride-0.9"],
  ["Magnesium sulfate 4 g in glucose 5 % 100 mL", "says glucose-5"],
  ["For central line only", "says central line; the order says peripheral"],
  ["Run at 270 mL/h", "says 270 mL/h; the order says 27 mL/h"],
  ["Magnesium sulfate 40 g/100 mL", "says 40 g; the order says 4 g"],
  ["Magnesium sulfate 37 %", "says 37 %"],
])("%j is told", (line, words) => {
  const [found, ...more] = labelled(line).filter((f) => f.name === "label-text-contradicts-order");
  expect(found?.message).toContain(words);
  expect(more).toEqual([]);
});

it.each([
  "Do not mix with cytarabine",
  "Give cytarabine 100 mg separately",
  "Flush with glucose 5 % 10 mL",
  "In sodium chloride 0.9 %",
  "For a peripheral or central line",
  "Not for a central line",
  "Run at 27 mL/h",
  "Rate 25 mL/h to 30 mL/h",
  "Start at 10 mL/h",
  "Do not exceed 150 mL/h",
  "Magnesium sulfate 4 g/100 mL",
  "Magnesium sulfate 3.7 %",
  "Grade IV units only",
])("%j is left alone", (line) => {
  expect(labelled(line).filter((f) => f.name === "label-text-contradicts-order")).toEqual([]);
});

it("IV beside its use is a route", () => {
  const spine = findingsOf(
    example(
      [
        "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
        "    route           intrathecal\n",
      ],
      ["  preparation bag {", '  label-text {\n    line  "For IV use only"\n  }\n\n  preparation bag {'],
    ),
  );
  expect(spine.map((f) => f.message).join(" ")).toContain("says For IV use; the order says intrathecal");
});
