/**
 * An order by totals counts all that brings an ion. A drug that is called after it and states neither formula nor ions brings it all the same:
 * 4 g of magnesium sulfate heptahydrate are 16.23 mmol of magnesium (246.47 g/mol), besides what the fluid brings. Glucose 12.5 % from 50 %
 * and 10 % is such an order too (by alligation, by hand). Figures of the fluid are invented.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const formula = '  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n';
const fluid = '  name        "sodium chloride 0.9 % w/v"\n';
const order = (target: string): [string, string] => [
  "    diluent         sodium-chloride-0.9\n",
  `    target          magnesium ${target} per bag\n    diluent         sodium-chloride-0.9\n`,
];
/** 16 mmol in the 100 mL of the bag. */
const holds: [string, string] = [fluid, `${fluid}  contains    magnesium 160 mmol/L\n`];
const told = (text: string) =>
  findingsOf(text)
    .filter(({ name }) => name === "target-not-met")
    .map(({ message }) => message);

describe("a total of an ion that the drug is called after", () => {
  it("counts the drug where it states its ions", () => {
    expect(told(example(order("32.23 mmol"), holds))).toEqual([]);
    expect(told(example(order("16 mmol"), holds))).toHaveLength(1);
  });

  it("is not known where neither the drug nor its stock says how much, and never met without it", () => {
    expect(told(example(order("16 mmol"), holds, [formula, ""]))).toEqual([
      "The order wants 16 mmol of magnesium in bag; what it holds cannot be summed: magnesium-sulfate is called after it, and neither the drug nor its stock says how much it brings. State the contents in the unit of the target, or the formula and ions of the drug.",
    ]);
  });

  it("is known where the stock says it", () => {
    const stated: [string, string] = ["  fill       10 mL\n", "  fill       10 mL\n  contains   magnesium 2 mmol/mL\n"];
    expect(told(example(order("32 mmol"), holds, [formula, ""], stated))).toEqual([]);
  });
});
