/**
 * What a pharmacist meets who writes down published preparations and then slips: each slip told once and at its place, what is in order
 * left alone, and nothing given for known that is not. Figures by hand, or of the source named beside them; the library is the invented
 * one of the other checks.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string) => findingsOf(text).map((f) => f.name);
const told = (text: string, name: string) => findingsOf(text).filter((f) => f.name === name);

const overfill: [string, string] = [
  "  fill       100 mL\n",
  '  fill       100 mL\n  overfill   2 mL to 8 mL  source guide "bags"\n',
];

describe("a bag whose overfill is stated", () => {
  it("holds a fluid that nobody ordered: told once", () => {
    const text = example(overfill, ["    diluent         sodium-chloride-0.9\n", ""]);
    expect(told(text, "fluid-not-ordered").map((f) => f.message.slice(0, 28))).toEqual([
      "100 mL of sodium-chloride-0.",
    ]);
  });

  it("holds another volume than ordered by its label already: told once, with the label's volume", () => {
    const ordered = ["    diluent-volume  100 mL\n", "    diluent-volume  100 mL\n    final-volume    1 L\n"] as [
      string,
      string,
    ];
    const found = told(example(overfill, ordered), "final-volume-differs");
    expect(found.map((f) => f.message.includes("holds 108 mL"))).toEqual([true]);
  });

  it("is covered by no study at any of its strengths: told once", () => {
    const fridge: [string, string] = ["    at             room-temperature\n", "    at             refrigerator\n"];
    expect(told(example(overfill, fridge), "stability-not-covered").length).toBe(1);
  });
});

describe("a part of a container", () => {
  // 108 mL of 37.04 mg/mL: nobody knows how much of it one patient gets, so that it has no rate of its own.
  const part = (more = "") =>
    example(
      ["    dose            4 g per bag\n", "    concentration   40 mg/mL\n    final-volume    100 mL\n"],
      ["    diluent-volume  100 mL\n", ""],
      ["    infuse-over     4 h\n", `    use             part-of-container\n${more}`],
      overfill,
    );
  it("ordered by its strength is not given as if it were the whole", () => {
    const found = told(part("    infuse-over     10 min\n"), "limit-not-compared");
    expect(found.map((f) => f.message.includes("not how much of it one patient gets"))).toEqual([true]);
    expect(names(part("    infuse-over     10 min\n"))).not.toContain("rate-above-limit");
  });

  it("with its rate stated is held against the limit", () => {
    expect(names(part("    infuse-at       10 g/h\n"))).toContain("rate-above-limit");
    expect(names(part("    infuse-at       8 g/h\n"))).not.toContain("limit-not-compared");
  });
});

describe("a volume that no eye tells from a mark", () => {
  // 4.0004 g of 500 mg/mL are 8.0008 mL; 4.01 g are 8.02 mL, a tenth of a mark of 0.2 mL.
  const drawn = (grams: string) =>
    example(
      ["    dose            4 g per bag", `    dose            ${grams} per bag`],
      ["    draw 4 g from mag into syringe  = 8 mL", `    draw ${grams} from mag into syringe`],
      ["    concentration  37.04 mg/mL\n", ""],
      ["magnesium-4g {", "magnesium-sulfate-bag {"],
      ["Magnesium sulfate 4 g", "Magnesium sulfate"],
    );
  it.each([
    ["4.003 g", false],
    ["4.01 g", true],
    ["3.97 g", true],
  ])("%s: told %s", (grams, isTold) => {
    expect(names(drawn(grams)).includes("not-on-graduation")).toBe(isTold);
  });
});

describe("a number of containers that is worked out", () => {
  it("names the step that it comes from", () => {
    const text = example(
      ["  container  ampoule", "  container  vial"],
      [
        "    draw 4 g from mag into syringe  = 8 mL",
        "    draw 2 mL from mag into syringe\n    draw 16 mL from mag into syringe on top",
      ],
      ["    syringe      syringe-10mL", "    syringe      syringe-30mL\n    other        syringe-10mL"],
      ["    tap mag\n", ""],
      ["    open mag\n", "    attach needle to other\n    inject other into mag\n"],
    );
    expect(told(text, "not-each-of").map((f) => f.message)).toEqual([
      "mag stands for 2 containers, since step 7 asks for 16 mL of it, and step 4 needs one. Write `each of mag`, or name one container, or correct step 7.",
    ]);
    const stated = findingsOf(
      example(
        ["    bag          saline-bag-100", "    bag          2 x saline-bag-100"],
        ["    concentration  37.04 mg/mL\n", ""],
      ),
    ).filter((f) => f.name === "not-each-of");
    expect(stated.map((f) => f.message.startsWith("bag stands for 2 containers and step"))).toEqual([true]);
  });
});

describe("several bottles behind one name", () => {
  it("are not poured over in one step, for which no `each of` is read", () => {
    const text = example(
      ["  container  ampoule", "  container  bottle"],
      [
        "    mag          magnesium-ampoule",
        "    mag          3 x magnesium-ampoule\n    tube         transfer-tubing",
      ],
      ["    draw 4 g from mag into syringe  = 8 mL", "    transfer 8 mL from mag to bag using tube"],
    );
    const found = told(text, "not-each-of");
    expect(found.map((f) => f.message.includes("Give each a line of its own in `materials`"))).toEqual([true]);
  });
});

describe("what a step cannot say", () => {
  const saline = `
stock saline-vial {
  fluid      sodium-chloride-0.9
  container  vial
  fill       50 mL
  doses      single
  storage    room-temperature
}

lots saline-vial {
  lot "KQ-7102"  expires 2027-08
}
`;
  const madeUp = (step: string) =>
    `${example(
      [
        "    syringe      syringe-10mL\n",
        "    syringe      syringe-10mL\n    big          syringe-20mL\n    more         saline-vial\n    thick        needle-18-gauge\n",
      ],
      [
        "    mix bag by inverting 10 times\n",
        `    attach thick to big\n    disinfect more, bag\n    ${step}\n    mix bag by inverting 10 times\n`,
      ],
    )}${saline}`;

  it("is not what it is told to say: no pressure is read beside `sample`", () => {
    const found = told(madeUp("sample 12 mL from more using big"), "no-equal-air");
    expect(found.map((f) => f.message.includes("`draw` it in a step of its own, `at equal pressure`"))).toEqual([true]);
    for (const step of ["add 12 mL from more to bag using big", "make up bag to 120 mL with more using big"]) {
      const added = told(madeUp(step), "no-equal-air");
      expect(added.map((f) => f.message.includes("Add `at equal pressure`"))).toEqual([true]);
    }
  });

  it("is told as its unit alone: 3 mL for each kg is no amount that a container lacks", () => {
    const found = names(madeUp("add 3 mL/kg from more to bag using big"));
    expect(found).toContain("wrong-dimension");
    expect(found).not.toContain("amount-not-computable");
  });
});

describe("a container that is empty", () => {
  it("is said to be empty, and not of unknown strength", () => {
    const text = example(
      ["    mag          magnesium-ampoule", "    mag          1 x magnesium-ampoule"],
      [
        "    draw 4 g from mag into syringe  = 8 mL",
        "    draw 10 mL from mag into syringe\n    draw 500 mg from mag into syringe on top",
      ],
    );
    const found = told(text, "amount-not-computable");
    expect(found.map((f) => f.message.includes("mag has been emptied by the steps before"))).toEqual([true]);
  });
});

describe("lots of one product under two names", () => {
  it("are told as expired once", () => {
    const text = example(
      [
        "    mag          magnesium-ampoule\n",
        "    mag          magnesium-ampoule\n    mag-2        magnesium-ampoule\n",
      ],
      ['lot "KQ-2291"  expires 2027-04', 'lot "KQ-2291"  expires 2026-10'],
    );
    expect(told(text, "every-lot-expired").length).toBe(1);
  });
});

describe("ions that a formula without carbon sets free", () => {
  const salt = (formula: string, ...ions: string[]) =>
    `reference guide {\n  title     "Invented"\n  year      "2026"\n  invented  yes\n}\n\ndrug salt {\n  source   guide "salt"\n  name     "salt"\n  formula  "${formula}"\n${ions.map((ion) => `  ion      ${ion}\n`).join("")}}\n`;
  it.each([
    ["CaCl2.2H2O", ["calcium charge 2", "chloride charge 1"], 1],
    ["CaCl2.2H2O", ["calcium charge 2", "chloride charge 1 count 2"], 0],
    ["KCl", ["potassium charge 1", "chloride charge 1"], 0],
    // Chlorine in the molecule beside one chloride: clonidine hydrochloride.
    ["C9H10Cl3N3", ["chloride charge 1"], 0],
  ])("%s with %j: %i", (formula, ions, count) => {
    expect(told(salt(formula, ...ions), "ion-contradicts-formula").length).toBe(count);
  });
});
