/** What a label says in % w/w, in mEq, in two strengths or in a figure that cannot be true, and what of it is told, once. */
import { describe, expect, it } from "vitest";
import { example, powderExample, standardAnd } from "../../language/checks/example.ts";
import { withThirdMaterial } from "../../language/checks/stock/third-material.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string) => findingsOf(text).map((f) => f.name);

describe("a strength by weight", () => {
  // Hydrochloric acid 36 % w/w, 1.18 g/mL: 0.425 g in 1 mL and not 0.36 g (tables of concentrated acids, from memory).
  it("says what 1 mL holds only by its density", () => {
    const [finding, ...others] = findingsOf(example(["  strength   500 mg/mL", "  strength   50 % w/w"]));
    expect(finding?.name).toBe("amount-not-computable");
    expect(finding?.message).toContain("50 % w/w, cannot be used");
    expect(finding?.message).toContain("Declare `density`");
    expect(others).toEqual([]);
  });

  it("is worked out with it", () => {
    const dense = '  strength   40 % w/w\n  density    1.25 g/mL  source guide "magnesium"';
    expect(names(example(["  strength   500 mg/mL", dense]))).toEqual([]);
    const light = '  strength   40 % w/w\n  density    1 g/mL  source guide "magnesium"';
    expect(names(example(["  strength   500 mg/mL", light]))).toContain("claim-differs");
  });
});

describe("a strength in mEq", () => {
  const label = (mEq: string) =>
    example(
      [
        "  ion            magnesium charge 2",
        "  ion            magnesium charge 2\n  ion            sulfate charge -2",
      ],
      ["  strength   500 mg/mL", `  strength   ${mEq}`],
    );

  it("needs no ion where all ions make the same", () => {
    // 500 mg/mL of the heptahydrate are 4.0573 mEq/mL, printed as 4.06 mEq/mL on labels.
    expect(names(label("4.0573 mEq/mL"))).not.toContain("amount-not-computable");
    expect(names(label("40.573 mEq/mL"))).toContain("claim-differs");
  });

  it("names the ions where they differ", () => {
    const two = example(
      [
        "  ion            magnesium charge 2",
        "  ion            magnesium charge 2\n  ion            potassium charge 1",
      ],
      ["  strength   500 mg/mL", "  strength   4.0573 mEq/mL"],
    );
    expect(
      findingsOf(two)
        .map((f) => f.message)
        .join(" "),
    ).toContain("does not say which ion is counted");
  });
});

describe("an amount of an ion", () => {
  const ordered = (dose: string) =>
    findingsOf(
      example(
        ["    dose            4 g per bag", `    dose            ${dose} per bag`],
        ["magnesium-4g {", "magnesium-sulfate-bag {"],
        ["Magnesium sulfate 4 g", "Magnesium sulfate"],
      ),
    );

  // 1 g of the heptahydrate holds 98.6 mg, 4.06 mmol or 8.12 mEq of magnesium (published equivalents; atomic weight 24.305 of 246.47).
  it.each(["394.4 mg of magnesium", "16.23 mmol of magnesium", "32.46 mEq of magnesium"])("%s are 4 g", (dose) => {
    expect(ordered(dose).map((f) => f.message)).toEqual([]);
  });

  it("is no amount of the drug", () => {
    const messages = ordered("4 g of magnesium").map((f) => f.message);
    expect(messages[0]).toContain("The order asks for 40.56 g of magnesium-sulfate; the steps bring 4 g");
    expect(messages.join(" ")).toContain("40.56 g (4 g) of magnesium-sulfate lies outside");
  });

  it("is of an ion that the drug has", () => {
    const [finding, ...others] = ordered("16.23 mmol of potassium");
    expect(finding?.message).toContain("has no ion potassium among its facts");
    expect(others).toEqual([]);
  });

  it("counts the ions of a formula unit where the drug is kept in mmol", () => {
    // Two potassium for one salt: 20 mmol of potassium are 10 mmol, at 1 mmol/mL 10 mL.
    const dibasic = (claim: string) =>
      example(
        ['  formula        "MgSO4.7H2O"\n', ""],
        ["  ion            magnesium charge 2", "  ion            potassium charge 1 count 2"],
        ["  strength   500 mg/mL", "  strength   1 mmol/mL"],
        ["    dose            4 g per bag", "    dose            16 mmol of potassium per bag"],
        [
          "    draw 4 g from mag into syringe  = 8 mL",
          `    draw 16 mmol of potassium from mag into syringe  = ${claim}`,
        ],
        ["    concentration  37.04 mg/mL", "    concentration  74.07 mmol/L"],
        ["magnesium-4g {", "magnesium-sulfate-bag {"],
        ["Magnesium sulfate 4 g", "Magnesium sulfate"],
      );
    const told = ["dose-not-delivered", "claim-differs", "concentration-differs", "not-on-graduation"];
    const of = (claim: string) => names(dibasic(claim)).filter((name) => told.includes(name));
    expect(of("8 mL")).toEqual([]);
    expect(of("16 mL")).toEqual(["claim-differs"]);
  });
});

describe("two strengths of one drug", () => {
  it("are accepted where a note names both", () => {
    const text = withThirdMaterial("magnesium-ampoule-10");
    expect(names(text)).toContain("two-strengths-confused");
    const [finding] = findingsOf(text).filter((f) => f.name === "two-strengths-confused");
    const [edit] = finding?.fixes[0]?.edits ?? [];
    const mended = text.slice(0, edit!.span.start) + edit!.text + text.slice(edit!.span.end);
    expect(names(mended)).not.toContain("two-strengths-confused");
    const other = text.replace("  steps {\n", '  steps {\n    note "Two strengths: 100 mg/mL and 200 mg/mL."\n');
    expect(names(other)).toContain("two-strengths-confused");
  });
});

describe("a powder whose label cannot be true", () => {
  it("is told at the label, and not of each vial again", () => {
    // 500 mcg in place of 500 mg: 20 vials for a dose of 10 mg, and 10 mL into each of which nothing can be left.
    const text = powderExample(
      ["  content    500 mg", "  content    500 mcg"],
      ["    draw 500 mg from vial", "    draw 10 mg from vial"],
    );
    const found = names(text);
    expect(found).toContain("powder-figures-do-not-fit");
    for (const name of ["displacement-negative", "not-each-of", "amount-not-computable"])
      expect(found).not.toContain(name);
  });
});

describe("a preservative for a newborn", () => {
  const vial = (preservative: string) =>
    example(
      ["    access          peripheral\n", "    access          peripheral\n    population      neonate\n"],
      ["  strength   500 mg/mL\n", `  strength   500 mg/mL\n  preservative  ${preservative}\n`],
    );

  it("is told of benzyl alcohol, and not of what insulin is preserved with", () => {
    expect(names(vial("benzyl-alcohol"))).toEqual(["preservative-by-route"]);
    expect(names(vial("metacresol"))).toEqual([]);
  });
});

describe("nothing withdrawn where the method withdraws first", () => {
  it("is told once, and the figures of the method are left alone", () => {
    const text = example(
      ["    method          add-to-bag", "    method          withdraw-first"],
      ["    concentration  37.04 mg/mL", "    concentration  40 mg/mL"],
    );
    expect(names(text)).toEqual(["method-not-followed"]);
  });
});

describe("a connector between two syringes", () => {
  const joined = (remove: string) =>
    standardAnd("device red-cap {\n  kind  cap\n}\n")
      .replace(
        "    needle       needle-18-gauge\n",
        "    needle       needle-18-gauge\n    second       syringe-10mL\n    join         syringe-connector\n",
      )
      .replace(
        "    replace filter on syringe with needle\n",
        `    remove filter from syringe\n    connect syringe to second using join\n    inject syringe into second\n    ${remove}\n    attach needle to second\n`,
      )
      .replace("    inject syringe into bag\n", "    inject second into bag\n");

  it.each(["remove join from syringe", "remove join from second"])("is taken off either by `%s`", (remove) => {
    expect(names(joined(remove))).not.toContain("not-attached");
    expect(names(joined(remove))).not.toContain("tip-occupied");
  });

  it("still blocks the tip while it is there", () => {
    expect(names(joined('note "Leave it."'))).toContain("tip-occupied");
  });
});
