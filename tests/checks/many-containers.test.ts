/**
 * A slip of the shelf shows in how many containers a dose takes, and in what a bag is said to hold. Six ampoules of 150 mg for 900 mg of
 * amiodarone are usual; that more than a few are to be questioned is from memory (ISMP).
 */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const fill = (volume: string) =>
  ["  fill       10 mL\n", `  fill       ${volume}\n  one-filter-for  20  source guide\n`] as [string, string];
const told = (...changes: [string, string][]) =>
  findingsOf(example(...changes)).map(({ name, message }) => `${name}: ${message}`);

// 8 mL are drawn.
test.each([
  [
    "1 mL",
    [
      "many-containers: The steps take 8 of mag. Look at the dose, and at strength and fill of magnesium-ampoule; where so many are meant, write `8 x` in `materials`.",
    ],
  ],
  ["1.2 mL", ["many-containers: The steps take 7 of mag."]],
  ["1.4 mL", []],
  ["2 mL", []],
])("ampoules of %s", (volume, said) => {
  expect(told(fill(volume))).toEqual(said.map((text) => expect.stringContaining(text)));
});

test("a stated number is meant", () => {
  expect(told(fill("1 mL"), ["    mag          magnesium-ampoule", "    mag          8 x magnesium-ampoule"])).toEqual(
    [],
  );
});

test.each([
  ["150 L", "150 L is no capacity of a container"],
  ["1.5 L", "A capacity of 1.5 L is more than ten times the fill, 100 mL"],
])("a bag of 100 mL with a capacity of %s", (capacity, said) => {
  expect(told(["  capacity   150 mL\n", `  capacity   ${capacity}\n`])).toEqual([
    expect.stringContaining(`label-figure-unlikely: ${said}`),
  ]);
});
