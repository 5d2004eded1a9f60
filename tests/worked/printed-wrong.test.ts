/**
 * Printed figures that are wrong: the engine finds the right one, and a recipe that states the printed one gets a finding.
 * From the rows `source-differs` of the worked examples, the rows of the label tables that do not close, and
 * tests/reference/units/published-errors.json.
 */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { alligate } from "../../language/quantities/alligation.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { minus, over, type Quantity, type Refusal, times } from "../../language/quantities/quantity.ts";
import { pumpRate } from "../../language/quantities/rates.ts";
import { convert } from "../../language/quantities/substance.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import { amountIn, movedBy } from "./recipe.ts";
import { agrees, byId, given, inUnit, known, measure, type Row, rows, text } from "./rows.ts";
import { drawn, perKilogram } from "./shapes/drawing.ts";
import { dissolved, written } from "./shapes/powder.ts";

const salt = {
  name: "the row's salt",
  ions: [
    { name: "cation", charge: 1, perFormula: 1 },
    { name: "anion", charge: -1, perFormula: 1 },
  ],
  salts: [],
};
const parts = (row: Row) =>
  known(
    alligate(measure("70 % v/v"), measure("0 % v/v"), measure(`${row.given.target!.value} % v/v`), given(row, "total")),
  );

/** What the engine finds; the exact figure is the row's own check (`own_fraction`), computed by its collector from the row's figures. */
const found: Readonly<Record<string, (row: Row) => Quantity | Refusal>> = {
  "WE-04-010": (row) => over(amountIn(drawn(text(row, "C1"), text(row, "V1")), "syringe"), given(row, "C2")),
  "WE-04-031": (row) => parts(row).high,
  "WE-04-032": (row) => parts(row).low,
  "WE-05-035": (row) =>
    convert(given(row, "mass_concentration"), findUnit("mOsm/L").unit!, {
      name: "dextrose",
      ions: [],
      salts: [],
      molarMass: given(row, "molar_mass").value,
    }),
  "WE-05-053": (row) =>
    times(
      over(known(convert(given(row, "amount"), findUnit("mmol").unit!, salt, "cation")), given(row, "volume")),
      over(known(convert(measure("1 mmol"), findUnit("mOsm").unit!, salt)), measure("1 mmol")),
    ),
  "WE-06-003": (row) =>
    pumpRate(given(row, "dose_rate"), over(given(row, "bag_mass"), given(row, "bag_volume")), given(row, "weight")),
  "WE-06-039": (row) => pumpRate(given(row, "dose_rate"), given(row, "concentration"), given(row, "weight")),
  // The source's rule: up to the whole mL, of which each holds 10 mg.
  "WE-07-010": (row) =>
    movedBy(
      drawn(text(row, "concentration"), "dose", {
        order: `${perKilogram(row)}\n    round  dose upward to ${written(times(given(row, "concentration"), measure("1 mL")))}`,
      }),
      1,
    ),
};

describe("rows whose printed answer is wrong", () => {
  const wrong = rows.filter((row) => row.status === "source-differs" && row.verified === "read");
  it("are all here", () => expect(wrong.map((row) => row.id).sort()).toEqual(Object.keys(found).sort()));
  for (const row of wrong) {
    it(`${row.id}: not ${row.answer.value} ${row.answer.unit}`, () => {
      const own = (row as unknown as { check: { own_fraction: string } }).check.own_fraction.split("/");
      const value = inUnit(found[row.id]!(row), row.answer.unit).value;
      expect(value.equals(Exact.ratio(BigInt(own[0]!), BigInt(own[1]!))), value.toText()).toBe(true);
      expect(agrees(row, found[row.id]!(row))).toBe(false);
    });
  }
});

function findings(library: string): string[] {
  const shelf = new Library({ asOf: "2026-11-25" });
  shelf.open("worked.misce", library);
  return shelf.findings("worked.misce").map((f) => f.name);
}

describe("a recipe that states a wrong figure gets a finding", () => {
  it("a volume beside a draw: 8 mL hold the 4 g, not 7.97 mL (the figure of WE-06-003, whose problem and answer are of two patients)", () => {
    expect(findings(example(["= 8 mL", "= 8 mL"]))).toEqual([]);
    expect(findings(example(["= 8 mL", "= 7.97 mL"]))).toContain("claim-differs");
  });
  it("a concentration ten times as large, as WE-05-053 prints one", () => {
    expect(findings(example(["concentration  37.04 mg/mL", "concentration  370.4 mg/mL"]))).toContain(
      "concentration-differs",
    );
  });
  it("a concentration as if the drug's volume were nothing, as WE-06-047 warns: 40 mg/mL beside 37.04", () => {
    expect(findings(example(["concentration  37.04 mg/mL", "concentration  40 mg/mL"]))).toContain(
      "concentration-differs",
    );
  });
  it("a volume rounded on the way, as WE-06-039 does: 9.5 mL beside 10 mL", () => {
    expect(findings(powderExample(["= 10 mL", "= 9.5 mL"]))).toContain("claim-differs");
  });
  it("10 mL of calcium gluconate 10 % taken for 0.465 mEq (published-errors pe-01), not 4.65", () => {
    const calcium = (dose: string) =>
      findings(
        example(
          ['formula        "MgSO4.7H2O"', 'formula        "C12H22CaO14.H2O"'],
          ["ion            magnesium charge 2", "ion            calcium charge 2"],
          ["strength   500 mg/mL", "strength   100 mg/mL"],
          ["dose            4 g per bag", `dose            ${dose} of calcium per bag`],
          ["draw 4 g from mag into syringe  = 8 mL", "draw 10 mL from mag into syringe  = 10 mL"],
        ),
      );
    expect(calcium("4.65 mEq")).not.toContain("dose-not-delivered");
    expect(calcium("0.465 mEq")).toContain("dose-not-delivered");
  });
});

describe("label tables that do not close", () => {
  it("09-009: more goes in than comes out, so the powder would take up less than nothing: said, and not used", () => {
    const row = byId.get("WE-09-009")!;
    const facts = `reconstitute {\n    with  ${text(row, "diluent_added")} of vehicle\n    gives  125 mg/mL\n    withdrawable  1 mL\n  }`;
    const vial = dissolved(text(row, "powder_amount"), facts, text(row, "diluent_added"));
    expect(vial.happenings.map((h) => h.kind)).toContain("displacement-negative");
    const implied = known(minus(over(given(row, "powder_amount"), measure("125 mg/mL")), given(row, "diluent_added")));
    expect(implied.value.toText()).toBe("-0.2");
  });
  for (const id of ["WE-09-002", "WE-09-003"]) {
    it(`${id}: the printed concentration is not what powder over available volume gives`, () => {
      const row = byId.get(id)!;
      const value = inUnit(
        over(given(row, "powder_amount"), given(row, "approx_available_volume")),
        row.answer.unit,
      ).value;
      expect(value.equals(Exact.of(row.answer.value))).toBe(false);
      // Both are printed as "approximately"; beyond 2 % off the row would be something else.
      const off = value.minus(Exact.of(row.answer.value)).abs().over(value);
      expect(off.isAtMost(Exact.ratio(2, 100)), off.toText()).toBe(true);
    });
  }
  // A label's 350 mg/mL from 1 g or 2 g is printed with the volume rounded to two decimals.
  for (const id of ["WE-09-022", "WE-09-023"]) {
    it(`${id}: the volume that the printed concentration implies has no end as a decimal`, () => {
      const row = byId.get(id)!;
      const value = inUnit(
        over(given(row, "powder_amount"), given(row, "printed_concentration")),
        row.answer.unit,
      ).value;
      expect(value.terminates()).toBe(false);
      expect(value.roundedTo(2).equals(Exact.of(row.answer.value))).toBe(true);
    });
  }
});
