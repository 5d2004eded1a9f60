/** Pump rates, dose rates and drops: refusals and the way back. Published figures stand in tests/worked. */
import { describe, expect, it } from "vitest";
import { isRefusal, measure, type Quantity, type Refusal, showQuantity } from "../../language/quantities/quantity.ts";
import {
  asPumpSets,
  doseRate,
  dripRate,
  dripToPump,
  evenly,
  pumpRate,
  wholeDrops,
} from "../../language/quantities/rates.ts";
import { findUnit } from "../../language/quantities/unit.ts";

const shown = (q: Quantity | Refusal) => (isRefusal(q) ? q.reason : showQuantity(q));
const unit = (text: string) => findUnit(text).unit!;

describe("rates", () => {
  // Pharmacology for Nurses (OpenStax), sec. 2.4: 5 mcg/kg/min at 80 kg from 800 mg in 500 mL is 15 mL/h (WE-06-001).
  const mixture = measure("1.6 mg/mL");
  it("go to the pump and back", () => {
    const pump = pumpRate(measure("5 mcg/kg/min"), mixture, measure("80 kg"));
    expect(shown(pump)).toBe("15 mL/h");
    expect(shown(doseRate(pump as Quantity, mixture, unit("mcg/kg/min"), measure("80 kg")))).toBe("5 mcg/kg/min");
  });
  it("ask for the weight with a figure per kg", () => {
    expect(shown(pumpRate(measure("5 mcg/kg/min"), mixture))).toBe(
      "mcg/kg/min needs the weight. Give the weight in kg.",
    );
    expect(shown(doseRate(measure("15 mL/h"), mixture, unit("mcg/kg/min")))).toMatch(/needs the weight/);
    expect(shown(pumpRate(measure("5 mcg/kg/min"), mixture, measure("80 mL")))).toMatch(/not a body weight/);
  });
  it("refuse another kind of amount and a zero, instead of dividing", () => {
    expect(isRefusal(pumpRate(measure("5 units/h"), mixture))).toBe(true);
    expect(shown(pumpRate(measure("5 mg/h"), measure("0 mg/mL")))).toMatch(/concentration is 0/);
    expect(shown(dripRate(measure("1 L"), measure("0 h"), measure("20 drops/mL")))).toMatch(/time is 0/);
    expect(shown(doseRate(measure("15 mL/h"), mixture, unit("mcg/kg/min"), measure("0 kg")))).toMatch(/weight is 0/);
    expect(shown(evenly(measure("40 mmol"), measure("0 h")))).toMatch(/time is 0/);
    expect(shown(dripToPump(measure("20 drops/min"), measure("0 drops/mL")))).toMatch(/0/);
  });
  it("round only by name", () => {
    // US nursing forum thread (WE-06-049): 1000 mL in 6 h on a set of 20 drops/mL is 55.56, counted as 56.
    const exact = dripRate(measure("1000 mL"), measure("6 h"), measure("20 drops/mL")) as Quantity;
    expect(shown(exact)).toBe("55.56 drops/min");
    expect(shown(wholeDrops(exact))).toBe("56 drops/min");
    expect(shown(asPumpSets(measure("9.675 mL/h"), measure("0.1 mL/h")))).toBe("9.7 mL/h");
    expect(shown(asPumpSets(measure("9.675 mL/h"), measure("0 mL/h")))).toMatch(/step of the pump is 0/);
  });
});
