/**
 * A label that tells the ion beside the salt, and an order of the ion in another unit: charge and mass of the ion are known of the salt.
 * Figures: calcium gluconate 10 % holds 0.223 mmol/mL, 0.446 mEq/mL and 8.9 mg/mL of calcium, reckoned from atomic masses
 * (C12H24CaO15, with its water, is 448.4 g/mol; calcium is 40.08 g/mol, with two charges). The stock is invented.
 */
import { describe, expect, it } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { findingsOf } from "../checks/findings-of.ts";

const declared = `
drug calcium-gluconate {
  source     guide "calcium"
  name       "calcium gluconate"
  formula    "C12H24CaO15"
  ion        calcium charge 2
}

stock calcium-ampoule {
  drug       calcium-gluconate
  container  ampoule
  strength   100 mg/mL
  contains   calcium 0.223 mmol/mL
  fill       10 mL
  doses      single
}
`;

/** What is told of the figures of a bag to which the dose is added from such an ampoule. */
function told(dose: string, draw: string, claim: string): string[] {
  const text = standardLibrary
    .replace("drug            magnesium-sulfate", "drug            calcium-gluconate")
    .replace("dose            4 g per bag", `dose            ${dose} per bag`)
    .replace("magnesium-ampoule\n", "calcium-ampoule\n")
    .replace("draw 4 g from mag into syringe  = 8 mL", `draw ${draw} from mag into syringe  = ${claim}`);
  expect(text).toContain(`= ${claim}`);
  const ofFigures = new Set(["claim-differs", "amount-not-computable", "figure-not-known", "dose-not-delivered"]);
  return findingsOf(text + declared)
    .map((f) => f.name)
    .filter((name) => ofFigures.has(name));
}

describe("an ion that the label tells beside the salt", () => {
  it.each([
    ["1 mmol of calcium", "4.484 mL"],
    ["2 mEq of calcium", "4.484 mL"],
  ])("%s is drawn, by the dose and by the amount", (dose, claim) => {
    expect(told(dose, "dose", claim)).not.toContain("amount-not-computable");
    expect(told(dose, "dose", "40 mL")).toContain("claim-differs");
    expect(told(dose, dose, "40 mL")).toContain("claim-differs");
  });

  it("a dose in mEq where mmol was meant does not pass", () => {
    expect(told("2 mmol of calcium", "dose", "4.484 mL")).toContain("claim-differs");
    expect(told("1 mEq of calcium", "dose", "4.484 mL")).toContain("claim-differs");
  });

  it("a dose that cannot be counted is told", () => {
    expect(told("100 units of calcium", "dose", "4.484 mL")).toContain("amount-not-computable");
  });
});
