/**
 * What printed words say of the base of a drug that is counted as its salt, and of a volume for each kg. Caffeine citrate 2 mg holds 1 mg of
 * caffeine (product labels, from memory); magnesium sulfate stands in for a drug of the ward: 4 g in 108 mL for 80 kg, 37.04 mg/mL, so
 * that 1 mL holds 0.463 mg/kg.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const titled = "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL";
const label = (line: string): [string, string] => [
  "  preparation bag {",
  `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`,
];
const told = (...changes: [string, string][]) =>
  findingsOf(example(...changes))
    .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

describe("a volume for each kg", () => {
  const order: [string, string][] = [
    ["    dose            4 g per bag\n", "    dose            50 mg/kg per bag\n    weight          80 kg\n"],
  ];

  it.each([
    "1 mL = 0.463 mg/kg",
    "Bolus 4.63 mg/kg (10 mL)",
    "Loading dose 10 mL = 4.63 mg/kg",
    "0.1 mL/kg = 3.7 mg/kg",
  ])("%s is what the bag holds", (line) => {
    expect(told(...order, label(line))).toEqual([]);
  });

  it.each([
    [
      "1 mL = 4.63 mg/kg",
      "1 mL = 4.63 mg/kg (370.4 mg/mL for 80 kg); the recipe for magnesium-sulfate says 37.04 mg/mL",
    ],
    [
      "Bolus 4.63 mg/kg (100 mL)",
      "4.63 mg/kg (100 mL) (3.704 mg/mL for 80 kg); the recipe for magnesium-sulfate says 37.04 mg/mL",
    ],
    ["0.1 mL/kg = 37 mg/kg", "0.1 mL/kg = 37 mg/kg; the recipe for magnesium-sulfate says 37.04 mg/mL"],
  ])("%s is not", (line, expected) => {
    expect(told(...order, label(line))).toEqual([expected]);
  });
});

describe("a flush", () => {
  const isFlush: [string, string] = [titled, `${titled}, flush`];

  it("is another liquid, but on what is itself one", () => {
    expect(told(label("Flush 1 mL = 370 mg"))).toEqual([]);
    expect(told(isFlush, label("Flush 1 mL = 37 mg"))).toEqual([]);
    expect(told(isFlush, label("Flush 1 mL = 370 mg"))).toEqual([
      "1 mL = 370 mg; the recipe for magnesium-sulfate says 37.04 mg/mL",
    ]);
  });
});

describe("the base of a drug that is counted as its salt", () => {
  const citrate: [string, string][] = [
    ['  name           "magnesium sulfate heptahydrate"\n', '  name           "caffeine citrate"\n'],
    [
      '  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n',
      '  counted-as     caffeine-citrate\n  salt           caffeine-base 1 mg for 2 mg  source guide "forms"\n',
    ],
    ["  strength   500 mg/mL\n", "  strength   500 mg/mL as caffeine-citrate\n"],
    [
      "    dose            4 g per bag\n",
      "    dose            50 mg/kg as caffeine-citrate per bag\n    weight          80 kg\n",
    ],
    ["    draw 4 g from", "    draw 4 g as caffeine-citrate from"],
    ["37.04 mg/mL", "37.04 mg/mL as caffeine-citrate"],
  ];
  const right = [
    "citrate 4 g",
    "base 2 g",
    "base 2 g (25 mg/kg)",
    "citrate 50 mg/kg",
    "citrate 50 mg/kg = caffeine base 25 mg/kg",
  ];
  const wrong = [
    "base 4 g",
    "base 40 g",
    "citrate 4 g = caffeine base 4 g",
    "citrate 50 mg/kg = caffeine base 50 mg/kg",
  ];

  it.each([...right, "base 18.5 mg/mL"])("caffeine %s is right", (words) => {
    expect(told(...citrate, [titled, "Caffeine citrate"], label(`Caffeine ${words}`))).toEqual([]);
  });

  it.each([...wrong, "base 37 mg/mL", "base 50 mg/kg"])("caffeine %s is not", (words) => {
    expect(told(...citrate, [titled, "Caffeine citrate"], label(`Caffeine ${words}`))).toHaveLength(1);
  });

  it.each(["base 2 g", "base 2 g (25 mg/kg)", "citrate 4 g (50 mg/kg)"])("a title may say caffeine %s", (words) => {
    expect(told(...citrate, [titled, `Caffeine ${words}`])).toEqual([]);
  });

  it("a title may not give the base the amount of the salt", () => {
    expect(told(...citrate, [titled, "Caffeine base 4 g"])).toHaveLength(1);
  });
});
