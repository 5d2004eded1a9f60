/** Rates on the sheet. Outside figures: worked-examples/06-bag-concentration-and-infusion-rate.json, each with its row and source. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { libraryOf, sheetFrom, textsOf } from "./sample-sheets.ts";

interface Bag {
  strength: string;
  dose: string;
  volume: string;
  fill: string;
  give: string;
  more?: Record<string, unknown>;
}

/** The bag made up by withdrawing first, so that amount over label volume is the true concentration. */
function ratesOf({ strength, dose, volume, fill, give, more = {} }: Bag) {
  const library = new Library({ asOf: "2026-11-25" });
  const text = example(
    ["  strength   500 mg/mL", `  strength   ${strength}`],
    ["    dose            4 g per bag", `    dose            ${dose} per bag`],
    ["    draw 4 g from mag into syringe  = 8 mL", `    draw ${dose} from mag into syringe`],
    ["    method          add-to-bag", "    method          withdraw-first"],
    ["    infuse-over     4 h", `    ${give}`],
    ["  fill       100 mL", `  fill       ${fill}`],
    ["    tap mag", `    withdraw ${volume} from bag using syringe and discard\n    tap mag`],
  );
  library.open("library.misce", text);
  return sheetFrom(library, "magnesium-4g", more).rates!;
}

const cells = (bag: Bag) => ratesOf(bag).rows.map((row) => row.map((c) => c.text));

describe("a rate ordered by weight", () => {
  it("WE-06-001: 5 mcg/kg/min at 80 kg, 800 mg in 500 mL: 15 mL/h (Pharmacology for Nurses, OpenStax, sec. 2.4)", () => {
    const bag = {
      strength: "80 mg/mL",
      dose: "800 mg",
      volume: "10 mL",
      fill: "500 mL",
      give: "infuse-at 5 mcg/kg/min\n    weight 80 kg",
    };
    expect(cells(bag)).toEqual([["80 kg", "5 mcg/kg/min", "15 mL/h"]]);
  });

  it("WE-06-024: 0.1 mcg/kg/min at 20 kg, 50 mcg/mL: 2.4 mL/h (Essential drugs: epinephrine injectable, 2025)", () => {
    const bag = {
      strength: "5 mg/mL",
      dose: "5 mg",
      volume: "1 mL",
      fill: "100 mL",
      give: "infuse-at 0.1 mcg/kg/min\n    weight 20 kg",
    };
    const rates = ratesOf(bag);
    expect(rates.rows.map((row) => row.map((c) => c.text))).toEqual([["20 kg", "0.1 mcg/kg/min", "2.4 mL/h"]]);
    expect(rates.working.map((w) => w.text)).toEqual(["0.1 mcg/kg/min × 20 kg ÷ 0.05 mg/mL = 2.4 mL/h"]);
  });

  it("of a batch shows the range, with the pump's rounding named", () => {
    const bag = {
      strength: "80 mg/mL",
      dose: "800 mg",
      volume: "10 mL",
      fill: "500 mL",
      give: "infuse-at 5 mcg/kg/min\n    weight 45 kg to 70 kg",
      more: { batch: true },
    };
    // 15 mL/h at 80 kg (WE-06-001), in proportion: 8.4375, 9.375, 11.25 and 13.125 mL/h.
    expect(cells(bag).map(([weight, , rate]) => [weight, rate])).toEqual([
      ["45 kg", "8.4 mL/h"],
      ["50 kg", "9.4 mL/h"],
      ["60 kg", "11.3 mL/h"],
      ["70 kg", "13.1 mL/h"],
    ]);
    expect(ratesOf(bag).working.map((w) => w.text)).toContain(
      "pump set half up to the nearest 0.1 mL/h: 8.4375 mL/h becomes 8.4 mL/h",
    );
  });
});

describe("other rates", () => {
  it("WE-06-009: 2 mcg/min at 1 mcg/mL: 120 mL/h (Quick epinephrine drip, 2009)", () => {
    const bag = {
      strength: "100 mcg/mL",
      dose: "100 mcg",
      volume: "1 mL",
      fill: "100 mL",
      give: "infuse-at 2 mcg/min",
    };
    expect(cells(bag)).toEqual([["any weight", "2 mcg/min", "120 mL/h"]]);
  });

  it("ordered as a time: volume and drug per hour", () => {
    const bag = { strength: "500 mg/mL", dose: "4 g", volume: "8 mL", fill: "100 mL", give: "infuse-over 4 h" };
    expect(cells(bag)).toEqual([["magnesium sulfate heptahydrate", "1 g/h", "25 mL/h"]]);
  });

  it("ordered as a pump rate", () => {
    const bag = { strength: "500 mg/mL", dose: "4 g", volume: "8 mL", fill: "100 mL", give: "infuse-at 50 mL/h" };
    expect(cells(bag)).toEqual([["magnesium sulfate heptahydrate", "2 g/h", "50 mL/h"]]);
  });
});

it("a drug ordered in mmol runs in mmol an hour, by hand: 20 mmol over 4 h are 5 mmol/h", () => {
  const library = libraryOf(textsOf("library"));
  const perHour = (recipe: string) => sheetFrom(library, recipe).rates!.rows.map((row) => row[1]!.text);
  expect(perHour("potassium-20mmol")).toEqual(["5 mmol/h"]);
  expect(perHour("potassium-calcium")).toEqual(["5 mmol/h", "0.5 g/h"]);
  // 4 mL of 500 mg/mL are 2 g of 246.47 g/mol, 8.115 mmol: what is in the bag, not what was ordered.
  expect(perHour("magnesium-8mmol")).toEqual(["8.115 mmol/h"]);
});
