/** One slip with a whole set is one finding; a slip with some of the set names them. */
import { expect, test } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

function messages(text: string, name: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  return library
    .findings("a.misce")
    .filter((f) => f.name === name)
    .map((f) => f.message);
}

const twoAmpoules: [string, string][] = [
  ["    mag          magnesium-ampoule", "    mag          2 x magnesium-ampoule"],
  ["    dose            4 g per bag", "    dose            6 g per bag"],
  ["draw 4 g from mag into syringe  = 8 mL", "draw 6 g from mag into syringe  = 12 mL"],
  ["    syringe      syringe-10mL", "    syringe      syringe-20mL"],
];

test("two ampoules not opened are one finding", () => {
  const [only, ...more] = messages(example(...twoAmpoules, ["    open mag\n", ""]), "ampoule-not-opened");
  expect(more).toEqual([]);
  expect(only).toContain("draws from mag, an ampoule that is still closed");
});

test("a single one keeps its name, and additions to each of a set are still told apart", () => {
  expect(messages(example(["    open mag\n", ""]), "ampoule-not-opened")).toHaveLength(1);
  const bags = example(
    ["    bag          saline-bag-100", "    bag          2 x saline-bag-100"],
    ["    dose            4 g per bag\n", "    dose            2 g per bag\n    makes           2 x bag\n"],
    ["inject syringe into bag", "inject 2 g from syringe into each of bag"],
    ["    mix bag by inverting 10 times\n", ""],
  );
  expect(messages(bags, "left-unmixed")).toHaveLength(1);
});

test("a missing `each of` is the one thing that is said of the vials", () => {
  const text = powderExample(
    ["    vial         vancomycin-vial-500", "    vial         2 x vancomycin-vial-500"],
    ["dose            500 mg per sack", "dose            1 g per sack"],
    [
      "draw 500 mg from vial into measure at equal pressure  = 10 mL",
      "draw 1 g from vial into measure at equal pressure  = 20 mL",
    ],
  );
  expect(messages(text, "not-each-of")).toHaveLength(1);
  for (const name of ["amount-not-computable", "drawn-before-dissolved"]) expect(messages(text, name)).toEqual([]);
});
