/** A suspension is drawn just after it was mixed: left standing it settles. Common practice, from memory. */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const told = (text: string) =>
  findingsOf(text)
    .filter((f) => f.name === "suspension-drawn-settled")
    .map((f) => f.message);

const suspended: [string, string] = [
  "  light          not-sensitive\n",
  "  light          not-sensitive\n  nature         suspension\n",
];
const remedy = (vessel: string) => `Add \`mix ${vessel} by inverting 10 times\` before.`;

describe("a suspension as it is bought", () => {
  it("is mixed in its container before the draw, and not only in the bag", () => {
    expect(told(example(suspended))).toEqual([
      `Step 6 draws from mag, and no step before mixes it: magnesium-sulfate is a suspension and settles. ${remedy("mag")}`,
    ]);
  });
  it("is not asked for of a solution", () => {
    expect(told(example())).toEqual([]);
  });

  const opened = (steps: string) => told(example(suspended, ["    open mag\n", `    open mag\n${steps}`]));
  it("settles again while it stands", () => {
    expect(opened("    mix mag by inverting 10 times\n")).toEqual([]);
    expect(opened("    mix mag by inverting 10 times\n    wait 10 min\n")).toEqual([
      `Step 8 draws from mag, and it was mixed last in step 5 and stood while step 6 was done: magnesium-sulfate is a suspension and settles. ${remedy("mag")}`,
    ]);
    expect(opened("    mix mag by inverting 10 times\n    wait 10 min\n    mix mag by inverting 5 times\n")).toEqual(
      [],
    );
  });
  it("does not while a wiped stopper dries", () => {
    expect(opened("    mix mag by inverting 10 times\n    wait until dry\n")).toEqual([]);
  });
});

describe("a suspension made of a powder", () => {
  const drawn = "    draw 500 mg from vial into measure at equal pressure  = 10 mL\n";
  const made = (...changes: [string, string][]) =>
    powderExample(
      ["  mixing         not-shaken\n", "  mixing         not-shaken\n  nature         suspension\n"],
      ["    swirl vial until dissolved\n", "    swirl vial until suspended\n"],
      ...changes,
    );
  it("is drawn as soon as it is suspended", () => {
    expect(told(made())).toEqual([]);
  });
  it("settles while foam settles", () => {
    const text = made([drawn, `    wait until foam has settled\n${drawn}`]);
    expect(told(text)).toHaveLength(1);
    expect(told(made([drawn, `    wait until foam has settled\n    mix vial by rolling 10 times\n${drawn}`]))).toEqual(
      [],
    );
  });
  it("settles in its vial while a first part is injected, and not while one syringe follows the other", () => {
    const twice = (between: string) =>
      made([drawn, `    draw 4 mL from vial into measure\n${between}    draw 6 mL from vial into measure\n`]);
    expect(told(twice("    expel air from measure\n    disinfect sack\n    inject measure into sack\n"))).toHaveLength(
      1,
    );
    expect(told(twice("    expel air from measure\n"))).toEqual([]);
  });
});
