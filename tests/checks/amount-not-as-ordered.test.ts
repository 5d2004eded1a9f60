/** A dose of the order and the amount that a step states, a little apart. Common practice. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

type Changes = [string, string][];
const named: Changes = [
  ["magnesium-4g {", "magnesium-bag {"],
  ["Magnesium sulfate 4 g", "Magnesium sulfate"],
];
const dose = "    dose            4 g per bag";
const draw = "    draw 4 g from mag into syringe  = 8 mL";
const told = (...changes: Changes) =>
  findingsOf(example(...named, ...changes))
    .filter(({ name }) => name === "amount-not-as-ordered")
    .map(({ message }) => message);

test.each([
  [
    "    dose            4.1 g per bag",
    "Step 6 takes 4 g of magnesium-sulfate (2.44 % too little); the order asks for 4.1 g.",
  ],
  [
    "    dose            3,900 mg per bag",
    "Step 6 takes 4 g of magnesium-sulfate (2.56 % too much); the order asks for 3,900 mg.",
  ],
  ["    dose            4.02 g per bag", "(0.498 % too little); the order asks for 4.02 g."],
])("%s", (ordered, said) => {
  expect(told([dose, ordered])).toEqual([expect.stringContaining(said)]);
});

test.each<[string, Changes]>([
  ["the same figure", []],
  ["what is rounded as it is written", [[dose, "    dose            4.001 g per bag"]]],
  // The author measures by volume, and rounds to what the scale shows.
  [
    "a volume",
    [
      [dose, "    dose            4.1 g per bag"],
      [draw, "    draw 8 mL from mag into syringe  = 8 mL"],
    ],
  ],
  // 16.2 mmol: another unit rests on the molar mass.
  ["another unit", [[dose, "    dose            16 mmol per bag"]]],
  ["more than the tolerance, told as a dose that does not arrive", [[dose, "    dose            5 g per bag"]]],
])("not told of %s", (_, changes) => {
  expect(told(...changes)).toEqual([]);
});

test("what two steps take together is laid against the order", () => {
  const [message, ...more] = told(
    [dose, "    dose            4.1 g per bag"],
    [draw, "    draw 3 g from mag into syringe  = 6 mL\n    draw 1 g from mag into syringe  = 2 mL"],
  );
  expect(more).toEqual([]);
  expect(message).toContain(
    "Steps 6 and 7 take together 4 g of magnesium-sulfate (2.44 % too little); the order asks for 4.1 g.",
  );
});
