/**
 * Amounts of an ion or of a base in titles and on labels, beside those of the whole drug. Calcium gluconate 1 g holds 93.1 mg of calcium
 * (40.078 of 430.37 g/mol), magnesium sulfate heptahydrate 4 g 394 mg of magnesium; that caffeine citrate holds half its weight of caffeine is
 * customary (from memory). An electrolyte by its ion or its salt is a tenfold matter, which is why its name says which (common practice).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

describe("the ion for the salt", () => {
  const inSaline = "in sodium chloride 0.9 %, syringe of 50 mL";
  areTold("calcium-1g-syringe", [
    [`title: Calcium 1 g ${inSaline}`, "1 g of calcium", "order comes to 93.12 mg"],
    [`title: Elemental calcium 1 g ${inSaline}`, "1 g of calcium"],
    [`title: Calcium gluconate 1 g (930 mg calcium) ${inSaline}`, "930 mg of calcium"],
    [`title: Calcium gluconate 1 g (elemental calcium 930 mg) ${inSaline}`, "930 mg of calcium"],
    ["Calcium 1 g", "1 g of calcium"],
  ]);
  areTold("magnesium-4g", [["Magnesium 4 g", "4 g of magnesium", "order says 394.5 mg"]]);
  areTold("potassium-40meq", [["Potassium 2.98 g", "2.98 g of potassium"]]);
  areSilent("calcium-1g-syringe", [
    `title: Calcium gluconate 1 g (calcium 93 mg) ${inSaline}`,
    `title: Calcium gluconate 1 g (elemental calcium 93 mg) ${inSaline}`,
    `title: Calcium gluconate 1 g (93 mg calcium) ${inSaline}`,
    `title: Calcium gluconate 1 g (calcium 2.3 mmol) ${inSaline}`,
    "Contains calcium 93 mg",
  ]);
  areSilent("magnesium-4g", [
    "title: Magnesium (as sulfate) 4 g in sodium chloride 0.9 % 100 mL",
    "title: Magnesium, 4 g of the sulfate, in sodium chloride 0.9 % 100 mL",
    "Magnesium 16.2 mmol",
    "Magnesium 394 mg",
  ]);
  areSilent("calcium-2.3mmol", ["title: Calcium 2.3 mmol in glucose 5 % 100 mL"]);
  areSilent("potassium-20mmol", ["title: Potassium 20 mmol in glucose 5 % 1 L", "Potassium chloride 1.49 g"]);
});

const title = "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL";
const named = (from: string, to: string, text: string) => text.replaceAll(from, () => to);
const told = (text: string) =>
  findingsOf(text)
    .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

describe("a dose for each kg", () => {
  const weighed = (dose: string, words: string, ...more: [string, string][]) =>
    example(
      ["    dose            4 g per bag\n", `    weight          4 kg\n    dose            ${dose} per bag\n`],
      ["dose           from 500 mg up to 10 g", "dose           up to 100 mg/kg"],
      ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
      [title, words],
      ["    concentration  37.04 mg/mL\n", ""],
      ...more,
    );
  const calcium = (words: string) =>
    [
      ["magnesium-sulfate", "calcium-gluconate"],
      ["magnesium sulfate heptahydrate", "calcium gluconate"],
      ["MgSO4.7H2O", "C12H22CaO14"],
      ["ion            magnesium", "ion            calcium"],
    ].reduce((text, [from, to]) => named(from!, to!, text), weighed("50 mg/kg", words));
  const caffeine = (words: string) =>
    named(
      "magnesium-sulfate",
      "caffeine-citrate",
      weighed(
        "5 mg/kg as caffeine-citrate",
        words,
        [
          '  name           "magnesium sulfate heptahydrate"\n  formula        "MgSO4.7H2O"\n',
          '  name           "caffeine citrate"\n',
        ],
        [
          "  ion            magnesium charge 2\n",
          '  counted-as     caffeine-citrate\n  salt           caffeine-base 10 mg for 20 mg  source guide "x"\n',
        ],
        ["strength   500 mg/mL", "strength   20 mg/mL as caffeine-citrate"],
      ),
    );

  it.each([
    ["Calcium 50 mg/kg", "50 mg/kg of calcium; the order comes to 4.656 mg/kg"],
    ["Calcium gluconate 50 mg/kg (elemental calcium 50 mg/kg)", "50 mg/kg of calcium; the order comes to 4.656 mg/kg"],
    ["50 mg/kg of calcium", "50 mg/kg of calcium; the order comes to 4.656 mg/kg"],
  ])("of %s is told", (words, said) => expect(told(calcium(words))).toEqual([said]));
  it.each([
    "Calcium 4.65 mg/kg",
    "Calcium gluconate 50 mg/kg",
    "50 mg/kg of calcium gluconate",
    "Calcium gluconate 50 mg/kg (elemental calcium 4.65 mg/kg)",
    "Calcium gluconate 50 mg/kg (4.65 mg/kg elemental calcium)",
  ])("of %s is right", (words) => expect(told(calcium(words))).toEqual([]));

  it.each(["Caffeine citrate 5 mg/kg (base 5 mg/kg)", "Caffeine base 5 mg/kg", "Caffeine 5 mg/kg"])(
    "of %s is told",
    (words) => expect(told(caffeine(words))).toEqual(["5 mg/kg of caffeine-base; the order comes to 2.5 mg/kg"]),
  );
  it.each([
    "Caffeine citrate 5 mg/kg",
    "Caffeine citrate 5 mg/kg (base 2.5 mg/kg)",
    "Caffeine citrate 5 mg/kg (2.5 mg/kg of caffeine base)",
    "Caffeine base 2.5 mg/kg",
  ])("of %s is right", (words) => expect(told(caffeine(words))).toEqual([]));
});

describe("an order that counts the ion", () => {
  // 395 mg of magnesium are in 4 g of the sulfate.
  const of = (words: string) =>
    told(
      example(
        ["    dose            4 g per bag", "    dose            394.5 mg of magnesium per bag"],
        ["    concentration  37.04 mg/mL\n", ""],
        ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
        ["Magnesium sulfate 4 g in", `${words} in`],
      ),
    );
  it("is not told by the name of the salt", () => {
    const [message, ...more] = of("Magnesium sulfate 394.5 mg");
    expect(message).toContain("394.5 mg; the order counts it as magnesium, which the title does not say");
    expect(message).toContain('Write "394.5 mg as magnesium".');
    expect(more).toEqual([]);
  });
  it.each(["Magnesium 394.5 mg", "Magnesium sulfate, 394.5 mg of magnesium,", "Magnesium sulfate 4 g"])(
    "is told by %s",
    (words) => expect(of(words)).toEqual([]),
  );
});
