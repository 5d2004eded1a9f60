/**
 * How fast a finished container is given, by the bench: mL/h, as the pump is set, in drops, and by weight and dose rate. Printed
 * figures are rows of tests/reference/worked-examples/06, named beside them with their sources.
 */
import { describe, expect, it } from "vitest";
import { doseRateTable, givingRate } from "../../language/bench/rates.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { measure, showQuantity } from "../../language/quantities/quantity.ts";
import { type Parts, run, vessel } from "../worked/recipe.ts";

const policy = defaultPolicy();
const rate = (parts: Parts, own = policy) => {
  const result = run(parts);
  return givingRate(result, vessel(result, "flask"), own);
};
const bag = (amount: string, to: string, order: string, more: Partial<Parts> = {}): Parts => ({
  stock: "container  bottle\n  strength  100 mg/mL\n  fill  2 L\n  capacity  3 L",
  steps: `draw ${amount} from source into syringe\n    inject syringe into flask\n    make up flask to ${to} with tank using spare`,
  order: `dose  ${amount} per flask\n    ${order}`,
  ...more,
});
const set20: Partial<Parts> = {
  more: "device drip-set {\n  kind  tubing\n  drop-factor  20 drops/mL\n}",
  materials: "set  drip-set",
};

describe("the rate of a container", () => {
  it("follows from the ordered time, and is named where the pump rounds it", () => {
    const found = rate(bag("1 g", "250 mL", "infuse-over  7 h"))!;
    expect(showQuantity(found.pump)).toBe("35.7 mL/h");
    expect(found.working).toEqual([
      "250 mL ÷ 7 h = 35.71 mL/h",
      "pump set to the nearest 0.1 mL/h: 35.71 mL/h becomes 35.7 mL/h",
    ]);
    const coarse = rate(bag("1 g", "250 mL", "infuse-over  7 h"), { ...policy, pumpStep: Exact.one })!;
    expect(showQuantity(coarse.pump)).toBe("36 mL/h");
  });

  it("is 15 mL/h for 5 mcg/kg/min at 80 kg from 800 mg in 500 mL (Pharmacology for Nurses, OpenStax, sec. 2.4: WE-06-001)", () => {
    const found = rate(bag("800 mg", "500 mL", "infuse-at  5 mcg/kg/min\n    weight  80 kg"))!;
    expect(showQuantity(found.rate)).toBe("15 mL/h");
    expect(found.working).toEqual(["5 mcg/kg/min × 80 kg ÷ 1.6 mg/mL = 15 mL/h"]);
    // 500 mL at 15 mL/h last 33 1/3 h.
    expect(found.hours.equals(Exact.ratio(100, 3))).toBe(true);
  });

  it("is counted in drops: 1000 mL in 6 h on a set of 20 drops/mL are 56 drops/min (US nursing forum thread, WE-06-049)", () => {
    const found = rate(bag("1 g", "1000 mL", "infuse-over  6 h", set20))!;
    expect(found.drops?.set).toBe("set");
    expect([showQuantity(found.drops!.exact, 4), showQuantity(found.drops!.counted)]).toEqual([
      "55.56 drops/min",
      "56 drops/min",
    ]);
  });

  it("comes back from ordered drops, and is not known without a set", () => {
    const found = rate(bag("1 g", "1000 mL", "infuse-at  60 drops/min", set20))!;
    expect(showQuantity(found.rate)).toBe("180 mL/h");
    expect(rate(bag("1 g", "1000 mL", "infuse-at  60 drops/min"))).toBeUndefined();
  });

  it("is of the part that holds the dose, where only that is given", () => {
    const half = bag("1 g", "1000 mL", "infuse-over  5 h\n    use  part-of-container");
    const found = rate({ ...half, order: half.order!.replace("1 g per flask", "500 mg per flask") })!;
    expect([found.volume.toText(), showQuantity(found.rate)]).toEqual(["500", "100 mL/h"]);
  });

  it("is not that of the whole, where the order states the strength and a part is given", () => {
    // Aminophylline 5 mg/mL in a syringe (a neonatal drug formulary, scribd.com/document/447125161): 8 mg/kg over 30 min are 16 mg/kg/h,
    // for 2 kg 6.4 mL/h; the syringe emptied in 30 min would be three times as fast.
    const syringe = (given: string) =>
      rate({
        stock: "container  bottle\n  strength  25 mg/mL\n  fill  2 L\n  capacity  3 L",
        order: `weight  2 kg\n    concentration  5 mg/mL\n    final-volume  10 mL\n    use  part-of-container\n    ${given}`,
        steps:
          "draw 2 mL from source into syringe\n    inject syringe into flask\n    make up flask to 10 mL with tank using spare",
        preparation: "form  solution-for-infusion",
      });
    expect(syringe("infuse-over  30 min")).toBeUndefined();
    expect(showQuantity(syringe("infuse-at  16 mg/kg/h")!.rate)).toBe("6.4 mL/h");
  });

  it("is for this patient, by weight of the liquid and by surface of the drug", () => {
    // 0.5 mL/kg/h × 60 kg; 500 mg/m2/day × 1.8 m2 ÷ 4 mg/mL ÷ 24 h: by hand.
    const liquid = rate(bag("1 g", "250 mL", "infuse-at  0.5 mL/kg/h\n    weight  60 kg"))!;
    expect([showQuantity(liquid.rate), liquid.working[0]]).toEqual(["30 mL/h", "0.5 mL/kg/h × 60 kg = 30 mL/h"]);
    const surface = rate(bag("1 g", "250 mL", "infuse-at  500 mg/m2/day\n    body-surface  1.8 m2"))!;
    expect([showQuantity(surface.rate), surface.working[0]]).toEqual([
      "9.375 mL/h",
      "500 mg/m2/day × 1.8 m2 = 900 mg/day",
    ]);
    expect(rate(bag("1 g", "250 mL", "infuse-at  500 mg/m2/day"))).toBeUndefined();
  });

  it("is none for a bolus", () => {
    expect(rate(bag("1 g", "10 mL", "infuse-over  5 min\n    use  bolus"))).toBeUndefined();
  });
});

describe("a table of pump rates", () => {
  it("has a row a weight and a column a dose rate", () => {
    const result = run(bag("800 mg", "500 mL", "weight  40 kg to 80 kg"));
    const rates = ["2.5 mcg/kg/min", "5 mcg/kg/min"].map(measure);
    const table = doseRateTable(
      result,
      vessel(result, "flask"),
      "remedy",
      rates,
      ["40 kg", "63 kg", "80 kg"].map(measure),
      policy,
    );
    if (typeof table === "string") throw new Error(table);
    // 5 mcg/kg/min × 63 kg × 60 ÷ 1600 mcg/mL = 11.8125 mL/h; half the rate 5.90625 mL/h.
    expect(table.rows.map((r) => r.cells.map((c) => showQuantity(c.pump)))).toEqual([
      ["3.8 mL/h", "7.5 mL/h"],
      ["5.9 mL/h", "11.8 mL/h"],
      ["7.5 mL/h", "15 mL/h"],
    ]);
  });
  it("says what is missing", () => {
    const result = run(bag("800 mg", "500 mL", "weight  40 kg"));
    const flask = vessel(result, "flask");
    expect(doseRateTable(result, flask, "remedy", [measure("5 mcg/kg/min")], [], policy)).toBe(
      "a rate per kg needs a weight",
    );
    expect(doseRateTable(result, flask, "remedy", [measure("5 mmol/h")], [], policy)).toMatch(/molar mass|formula/);
  });
  it("turns mmol/h through the drug's formula: 40 mmol in 1 L at 10 mmol/h are 250 mL/h", () => {
    const found = rate({
      drug: 'formula  "KCl"\n  ion  potassium charge 1',
      stock: "container  bottle\n  strength  2 mmol/mL\n  fill  1 L\n  capacity  3 L",
      steps:
        "draw 40 mmol from source into syringe\n    inject syringe into flask\n    make up flask to 1 L with tank using spare",
      order: "dose  40 mmol per flask\n    infuse-at  10 mmol/h",
    })!;
    expect(showQuantity(found.rate)).toBe("250 mL/h");
  });
});
