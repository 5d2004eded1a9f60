/** What is shown as 1 has its unit in the singular, rounded figures too: common practice of print. */
import { expect, it } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { showQuantity } from "../../language/quantities/quantity.ts";
import { findUnit } from "../../language/quantities/unit.ts";

const shown = (value: string, unit: string, digits?: number) =>
  showQuantity({ value: Exact.of(value), unit: findUnit(unit).unit! }, digits);

it.each([
  ["1", "units/mL", undefined, "1 unit/mL"],
  ["0.9996", "units/mL", 3, "1 unit/mL"],
  ["1.004", "drops/min", 3, "1 drop/min"],
  ["1", "units", undefined, "1 unit"],
  ["1.1", "units/mL", 2, "1.1 units/mL"],
  ["10", "units/mL", 2, "10 units/mL"],
  ["0.9996", "units/mL", undefined, "0.9996 units/mL"],
])("%s %s in %s figures is %s", (value, unit, digits, text) => {
  expect(shown(value, unit, digits)).toBe(text);
});

it("also where the decimal does not end", () => {
  expect(showQuantity({ value: Exact.ratio(30001, 30000), unit: findUnit("units/mL").unit! })).toBe("1 unit/mL");
});
