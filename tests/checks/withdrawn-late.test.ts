/**
 * Room is made in a bag before the drug goes in. So infliximab by its label, as much of 250 mL as is added
 * (medlibrary.org, infliximab, section 2.11), and abatacept, 20 mL, 30 mL or 40 mL of 100 mL (medinfogalway.ie, node 2939). Who withdraws after adding discards a share of the drug: 8 mL of the 108 mL of
 * the sample bag are 7.4 % of 4 g, and 4 mL of 104 mL are 3.85 % of 2 g, which a tolerance of 5 % lets pass. Arithmetic by hand.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

type Change = [string, string];

const withdrawal = "    withdraw 4 mL from bag using waste and discard\n";
const devices: Change = [
  "    filter       filter-needle-5um\n",
  "    filter       filter-needle-5um\n    waste        syringe-5mL\n    needle-2     needle-18-gauge\n",
];
const half: Change[] = [
  ["magnesium-4g {", "magnesium-2g {"],
  ["Magnesium sulfate 4 g", "Magnesium sulfate 2 g"],
  ["    dose            4 g per bag", "    dose            2 g per bag"],
  ["    draw 4 g from mag into syringe  = 8 mL", "    draw 2 g from mag into syringe  = 4 mL"],
  ["    syringe      syringe-10mL", "    syringe      syringe-5mL"],
  ["    method          add-to-bag", "    method          withdraw-first"],
];
const concentration = (figure: string): Change => ["    concentration  37.04 mg/mL", `    concentration  ${figure}`];

const first = example(
  devices,
  ...half,
  ["    disinfect bag\n", `    attach needle-2 to waste\n    disinfect bag\n${withdrawal}    disinfect bag\n`],
  concentration("20 mg/mL"),
);
const late = (bags = withdrawal) =>
  example(
    devices,
    ...half,
    [
      "    mix bag by inverting 10 times\n",
      `    mix bag by inverting 10 times\n    attach needle-2 to waste\n    disinfect bag\n${bags}`,
    ],
    concentration("19.23 mg/mL"),
  );

const told = (text: string) =>
  findingsOf(text)
    .filter(({ name }) => name === "method-not-followed")
    .map(({ message }) => message);

describe("what makes room for the drug is withdrawn", () => {
  it("before the drug goes in", () => {
    expect(findingsOf(first).filter(({ severity }) => severity !== "note")).toEqual([]);
  });

  it.each([withdrawal, withdrawal.replace("4 mL", "added-volume")])("and not after: %s", (step) => {
    expect(told(late(step))).toEqual([
      "The method is withdraw-first, but step 14 withdraws 4 mL from bag after step 10 has added magnesium-sulfate, which goes with it. Withdraw before the drug goes in.",
    ]);
  });

  it("told at the step that withdraws", () => {
    const [found] = findingsOf(late()).filter(({ name }) => name === "method-not-followed");
    expect(late().slice(found!.span.start, found!.span.end)).toBe("4 mL");
  });

  it("is no slip of a method that does not ask for it first", () => {
    const text = late().replace("withdraw-first", "add-to-bag");
    expect(told(text)).toEqual([
      "The method is add-to-bag, but the steps withdraw 4 mL from bag. Mend the steps or the method.",
    ]);
  });
});
