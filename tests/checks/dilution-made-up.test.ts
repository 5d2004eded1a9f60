/**
 * A dilution is made up to less than the syringe holds already. That is told, and what the dilution was said to give is left out beside
 * it; a draw into a dilution is no dose, however much more than the dose it is. Figures by hand.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

/** 500 mg (1 mL) made up to 10 mL gives 50 mg/mL; a dose of 125 mg is a quarter of it. */
const diluted = (to: string) =>
  example(
    ["    dose            4 g per bag", "    dose            125 mg per bag"],
    ["from 500 mg up", "from 100 mg up"],
    ["magnesium-4g {", "magnesium-125mg {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 125 mg"],
    [
      "    syringe      syringe-10mL",
      "    syringe      syringe-10mL\n    small        syringe-3mL\n    join         syringe-connector",
    ],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 1 g from mag into syringe  = 2 mL"],
    [
      "    replace filter on syringe with needle",
      `    replace filter on syringe with needle
    disinfect bag
    make up syringe to ${to} with bag  giving 100 mg/mL
    expel air from syringe
    mix syringe by inverting 10 times
    label syringe
    remove needle from syringe
    connect syringe to small using join
    draw dose from syringe into small
    expel air from small
    remove join from syringe
    attach needle to small`,
    ],
    ["    inject syringe into bag", "    inject small into bag"],
    ["    concentration  37.04 mg/mL\n", ""],
  );

const errors = (text: string) =>
  findingsOf(text)
    .filter((f) => f.severity === "error")
    .map((f) => f.name);

describe("a dilution", () => {
  it("made up to what it already holds is told", () => {
    for (const to of ["0.01 mL", "1 mL", "2 mL"]) expect(errors(diluted(to))).toContain("volume-below-zero");
  });

  it("is not told again for what it was said to give", () => {
    expect(errors(diluted("0.01 mL"))).not.toContain("held-after-step-differs");
  });

  it("made up to another volume than stated is told by its strength", () => {
    expect(errors(diluted("8 mL"))).toContain("held-after-step-differs");
    expect(errors(diluted("10 mL"))).not.toContain("held-after-step-differs");
    expect(errors(diluted("10 mL"))).not.toContain("volume-below-zero");
  });
});
