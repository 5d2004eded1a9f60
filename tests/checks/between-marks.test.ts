/**
 * A draw that lies between two marks of a syringe is told once, as that. The calculated figures of a published example stand beside it
 * without a further finding; a figure that is neither calculated nor moved is told.
 *
 * Esmolol: 500 mcg/kg for 70 kg of 10 mg/mL is 3.5 mL (critical care infusions, accessworldmed.mhmedical.com, section 285661115).
 * Carboplatin: AUC 5 with a GFR of 90 mL/min is 575 mg (page on the Calvert formula, tools.gera.services); of 10 mg/mL 57.5 mL.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string) => findingsOf(text).map((f) => f.name);

/** 4.05 g of 500 mg/mL are 8.1 mL, between the marks 8 mL and 8.2 mL; in 100 mL 37.465 mg/mL, by the marks 37.89 mg/mL. */
const between = (claim: string, concentration: string) =>
  example(
    ["    dose            4 g per bag", "    dose            4.05 g per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", `    draw 4.05 g from mag into syringe  = ${claim}`],
    ["    concentration  37.04 mg/mL", `    concentration  ${concentration}`],
    ["magnesium-4g {", "magnesium-sulfate-bag {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate"],
  );

describe("a draw between two marks", () => {
  it.each([
    ["calculated", "8.1 mL", "37.47 mg/mL"],
    ["as the marks give it", "8.2 mL", "37.89 mg/mL"],
  ])("is told once where the figures are %s", (_, claim, concentration) => {
    expect(names(between(claim, concentration))).toEqual(["not-on-graduation"]);
  });

  it("does not cover a figure that is neither", () => {
    expect(names(between("8 mL", "37.89 mg/mL"))).toContain("claim-differs");
    expect(names(between("8.1 mL", "36 mg/mL"))).toContain("concentration-differs");
    expect(names(between("81 mL", "37.47 mg/mL"))).toContain("claim-differs");
  });

  it("covers the calculated final volume, and no other", () => {
    const ordered = (volume: string) =>
      between("8.1 mL", "37.47 mg/mL").replace(
        "    diluent-volume  100 mL\n",
        `    diluent-volume  100 mL\n    final-volume    ${volume}\n`,
      );
    expect(names(ordered("108.1 mL"))).toEqual(["not-on-graduation"]);
    expect(names(ordered("108.2 mL"))).toEqual(["not-on-graduation"]);
    expect(names(ordered("107.9 mL"))).toContain("final-volume-differs");
  });

  it("does not cover a claim beside a draw that is on a mark", () => {
    expect(names(example(["= 8 mL", "= 8.02 mL"]))).toEqual(["claim-differs"]);
  });
});
