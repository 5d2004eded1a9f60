/**
 * One slip is told once or twice, however far its figures reach; and all of it is told again where the finding that stands for it is
 * kept quiet. What a careful colleague would say of each slip: common practice.
 */
import { expect, test } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

function names(text: string): string[] {
  return findingsOf(text)
    .map((f) => f.name)
    .sort();
}

const giving: [string, string] = [
  "from wfi using measure at equal pressure\n",
  "from wfi using measure at equal pressure  giving 50 mg/mL\n",
];
const halfTheWater: [string, string] = ["reconstitute vial with 10 mL", "reconstitute vial with 5 mL"];
const graded = (check: string): [string, string] => [
  "  role           pharmacist\n",
  `  role           pharmacist\n  severity       ${check} note\n    because "told on paper"\n`,
];

test("a wrong reconstitution is told at the vial, not at each draw, claim and strength behind it", () => {
  expect(names(powderExample(giving, halfTheWater))).toEqual(["held-after-step-differs", "reconstituted-otherwise"]);
});

test("where the site keeps that quiet, the draw behind it is told", () => {
  const found = names(powderExample(giving, halfTheWater, graded("held-after-step-differs")));
  expect(found).toContain("held-after-step-differs");
  expect(found).toContain("claim-differs");
});

test("the claim kept quiet too, the strength of the bag is told", () => {
  const quiet: [string, string] = [
    "  role           pharmacist\n",
    `  role           pharmacist\n  severity       held-after-step-differs note\n    because "told on paper"\n  severity       claim-differs note\n    because "told on paper"\n`,
  ];
  expect(names(powderExample(giving, halfTheWater, quiet))).toContain("concentration-differs");
});

test("mcg for mg in a draw: nothing reaches the bag, and the figure beside the step differs", () => {
  expect(names(example(["draw 4 g from mag", "draw 4 mcg from mag"]))).toEqual(["claim-differs", "dose-not-delivered"]);
});

test("ten times the strength on the label: the volume beside the draw, and what is read wrong of a tenth of it", () => {
  expect(names(example(["  strength   500 mg/mL", "  strength   5,000 mg/mL"]))).toEqual([
    "claim-differs",
    "label-figure-unlikely",
  ]);
});

test("ten times the dose, drawn as ordered: the dose, and the words that say otherwise", () => {
  const found = names(
    example(
      ["    dose            4 g per bag", "    dose            40 g per bag"],
      ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe  = 8 mL"],
    ),
  );
  expect(found).toContain("dose-outside-window");
  for (const echo of ["claim-differs", "draw-beyond-syringe", "rate-above-limit", "concentration-differs"])
    expect(found).not.toContain(echo);
});

test("of an order with a range nothing is left out for some patients and told for others", () => {
  const ranged = example(
    [
      "    dose            4 g per bag\n",
      "    weight          40 kg to 120 kg in steps of 10 kg\n    dose            100 mg/kg per bag\n",
    ],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe  = 8 mL to 12 mL"],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
  );
  // Above 100 kg the window of 10 g is left; up to 50 kg the syringe holds the dose.
  const found = names(ranged);
  expect(found).toContain("dose-outside-window");
  expect(found).toContain("draw-beyond-syringe");
});

test("a fluid that nobody ordered is told as that, not as what it meets; an incompatible one all the same", () => {
  const fluid = `fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  contains    glucose 50 g/L
  osmolarity  278 mOsm/L
  use         injection
}

stock magnesium-ampoule {`;
  const other: [string, string][] = [
    ["stock magnesium-ampoule {", fluid],
    ["  fluid      sodium-chloride-0.9\n", "  fluid      glucose-5\n"],
  ];
  const stock: [string, string] = ["stock saline-bag-100 {", "stock saline-bag-100 {"];
  expect(names(example(...other, stock)).filter((n) => !n.startsWith("name"))).toEqual(["fluid-not-ordered"]);
  const forbidden: [string, string] = [
    "  compatible     sodium-chloride-0.9\n",
    "  compatible     sodium-chloride-0.9\n  incompatible   glucose-5\n",
  ];
  expect(names(example(...other, forbidden))).toContain("diluent-incompatible");
});

test("all of a reconstituted vial is drawn to the last drop: no mark is looked for, no second vial is called for", () => {
  const text = powderExample(
    ["    gives         50 mg/mL\n    withdrawable  10 mL\n", "    gives         45 mg/mL\n"],
    [
      "draw 500 mg from vial into measure at equal pressure  = 10 mL",
      "draw all from vial into measure at equal pressure",
    ],
    ["    measure      syringe-10mL", "    measure      syringe-20mL"],
    ["    concentration  4.55 mg/mL", "    concentration  4.5 mg/mL"],
  );
  // 500 mg ÷ 45 mg/mL = 11.11 mL, between two marks.
  for (const name of ["not-on-graduation", "not-each-of", "draw-beyond-syringe", "dose-not-delivered"])
    expect(names(text)).not.toContain(name);
});

test("the label's own volume between two marks is one finding, and what it gives is the label's strength", () => {
  const text = powderExample(
    ["    with          10 mL of", "    with          9.7 mL of"],
    ["reconstitute vial with 10 mL", "reconstitute vial with 9.7 mL"],
    giving,
  );
  expect(names(text)).toEqual(["not-on-graduation"]);
});

test("a bare syringe is told once until something goes on", () => {
  const text = example(
    ["    attach filter to syringe\n", ""],
    ["    replace filter on syringe with needle\n", ""],
    ["    filter       filter-needle-5um\n    needle       needle-18-gauge\n", ""],
    ["    keep mag, filter, needle, syringe for check", "    keep mag, syringe for check"],
  );
  expect(names(text).filter((n) => n === "no-needle-attached")).toHaveLength(1);
});

test("ampoules thrown away before a check has seen them are told, after it they are not", () => {
  const seen = example(
    ["    disinfect bag\n", "    check by pharmacist\n    discard mag\n    disinfect bag\n"],
    ["    keep mag, filter,", "    keep filter,"],
  );
  expect(names(seen)).toEqual([]);
  const early = example(
    ["    tap mag\n", "    check by pharmacist\n    tap mag\n"],
    ["    inspect bag\n", "    discard mag\n    inspect bag\n"],
    ["    keep mag, filter,", "    keep filter,"],
  );
  expect(names(early)).toEqual(["discarded-before-check"]);
});

/** Ten times too much or too little in a draw beside which no figure stands; with the other words that say the dose. */
const undosed: [string, string] = ["draw 4 g from mag into syringe  = 8 mL", "draw 40 g from mag into syringe"];

test("ten times the amount drawn, nothing stated beside it: the dose that arrives, once", () => {
  expect(names(example(undosed))).toEqual(["dose-not-delivered"]);
  expect(names(example([undosed[0], "draw 0.4 g from mag into syringe"]))).toEqual(["dose-not-delivered"]);
});

test("where the dose that arrives is kept quiet, what comes of it is told", () => {
  const found = names(example(undosed, graded("dose-not-delivered")));
  for (const told of ["draw-beyond-syringe", "concentration-differs"]) expect(found).toContain(told);
  const deviation = example(undosed, [
    "  preparation bag {",
    '  deviation dose-not-delivered\n    because "measured"\n    by pharmacist\n    until 2027-01-31\n\n  preparation bag {',
  ]);
  expect(names(deviation)).toContain("draw-beyond-syringe");
});

test("the amount drawn being right, a syringe too small is told beside a wrong order", () => {
  const found = names(
    example(
      ["    syringe      syringe-10mL", "    syringe      syringe-5mL"],
      ["dose            4 g per bag", "dose            40 g per bag"],
    ),
  );
  expect(found).toContain("dose-not-delivered");
  expect(found).toContain("draw-beyond-syringe");
});

test("a drug ordered by two lines for the same container: nobody knows whether one amount or both are meant", () => {
  const twice = example([
    "    drug            magnesium-sulfate\n    dose            4 g per bag\n",
    "    additive        magnesium-sulfate  4 g per bag\n    additive        magnesium-sulfate  4 g per bag\n",
  ]);
  expect(names(twice)).toEqual(["fact-stated-twice"]);
});

test("a figure in the title and in the name that the order does not bear out is told at the title", () => {
  const other: [string, string] = ["    dose            4 g per bag", "    dose            5 g per bag"];
  expect(names(example(other))).toEqual(["dose-not-delivered", "title-contradicts-order"]);
  expect(names(example(other, graded("title-contradicts-order")))).toContain("name-contradicts-facts");
});

test("a range that runs backwards is told as that: nobody is in it for whom a claim could be wrong", () => {
  const text = example(
    [
      "    dose            4 g per bag\n",
      "    weight          120 kg to 40 kg in steps of 10 kg\n    dose            50 mg/kg per bag\n",
    ],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe  = 4 mL to 12 mL"],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
  );
  expect(names(text)).toContain("range-backwards");
  expect(names(text)).not.toContain("claim-differs");
});

test("the mass of an ion in the order is no mass of the salt, by which the name counts", () => {
  const text = example(
    ["    dose            4 g per bag", "    dose            394 mg of magnesium per bag"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
  );
  expect(names(text)).not.toContain("name-contradicts-facts");
});

test("a stated strength ten times off is told beside a wrong volume before it, and a right one is not", () => {
  const volume: [string, string] = ["= 8 mL", "= 80 mL"];
  expect(names(example(volume))).toEqual(["claim-differs"]);
  const both = names(example(volume, ["concentration  37.04 mg/mL", "concentration  370.4 mg/mL"]));
  expect(both).toEqual(["claim-differs", "concentration-differs"]);
});
