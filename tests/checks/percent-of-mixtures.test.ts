/**
 * A solution made stronger with a concentrate of the same substance is called by the percentage that comes of both. By alligation, by hand:
 * sodium chloride 3 % from 23.4 % (4 mmol/mL) and 0.9 % takes (3 - 0.9) / (23.4 - 0.9) of 500 mL, that is 46.7 mL, and 47 mL bring it to 3.01 %;
 * glucose 12.5 % from 50 % and 10 % takes (12.5 - 10) / (50 - 10) of 100 mL, that is 6.25 mL. Strengths of the concentrates are those
 * of their labels (Sodium chloride products, handbook of injectable drugs, tl3; glucose from memory). All else is invented.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

interface Mixture {
  drug: string;
  printed: string;
  formula: string;
  strength: string;
  fluid: string;
  fluidPrinted: string;
  dose: string;
  volume: string;
}

const salt: Mixture = {
  drug: "sodium-chloride-23.4",
  printed: "sodium chloride 23.4 % w/v concentrate",
  formula: "NaCl",
  strength: "4 mmol/mL",
  fluid: "sodium-chloride-0.9",
  fluidPrinted: "sodium chloride 0.9 % w/v",
  dose: "37.6 mmol",
  volume: "9.4 mL",
};

const glucose: Mixture = {
  drug: "glucose-50",
  printed: "glucose 50 % w/v",
  formula: "C6H12O6",
  strength: "500 mg/mL",
  fluid: "glucose-10",
  fluidPrinted: "glucose 10 % w/v",
  dose: "3.2 g",
  volume: "6.4 mL",
};

const mixtures: Readonly<Record<string, Mixture>> = { salt, glucose };

/** The sample bag of 100 mL, from which as much is withdrawn as goes in. */
function made(of: Mixture, title: string, line?: string): string {
  const text = example(
    ["    draw 4 g from mag into syringe  = 8 mL", `    draw ${of.dose} from mag into syringe  = ${of.volume}`],
    ["  strength   500 mg/mL", `  strength   ${of.strength}`],
    ["    dose            4 g per bag", `    dose            ${of.dose} per bag`],
    ["    diluent-volume  100 mL", "    final-volume    100 mL"],
    ["    method          add-to-bag", "    method          withdraw-first"],
    ["    concentration  37.04 mg/mL\n", ""],
    [
      "    filter       filter-needle-5um\n",
      "    filter       filter-needle-5um\n    waste        syringe-10mL\n    needle-2     needle-18-gauge\n",
    ],
    [
      "    disinfect bag\n",
      `    attach needle-2 to waste\n    disinfect bag\n    withdraw ${of.volume} from bag using waste and discard\n    disinfect bag\n`,
    ],
  )
    .replaceAll("sodium-chloride-0.9", "THE-FLUID")
    .replaceAll("magnesium-sulfate", of.drug)
    .replaceAll("THE-FLUID", of.fluid)
    .replace(/formula( +)"[^"]*"/, `formula$1"${of.formula}"`)
    .replace('"magnesium sulfate heptahydrate"', `"${of.printed}"`)
    .replace('"sodium chloride 0.9 % w/v"', `"${of.fluidPrinted}"`)
    .replace("recipe magnesium-4g", "recipe stronger-bag")
    .replace(/title {2}"[^"]*sodium chloride[^"]*"/, `title  "${title}"`);
  return line === undefined
    ? text
    : text.replace("  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`);
}

const told = (...words: [Mixture, string, string?]) =>
  findingsOf(made(...words))
    .filter(({ name }) => name.endsWith("-contradicts-order") || name === "title-without-drug")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

describe("a mixture of two strengths of one substance", () => {
  // 9.4 mL of 4 mmol/mL are 2.1973 g, 90.6 mL of 0.9 % are 0.8154 g; 6.4 mL of 50 % are 3.2 g, 93.6 mL of 10 % are 9.36 g.
  it.each([
    ["salt", "Sodium chloride 3 % w/v, 100 mL"],
    ["salt", "Hypertonic saline 3 %, 100 mL"],
    ["salt", "Sodium chloride 23.4 % 9.4 mL in sodium chloride 0.9 %, 100 mL"],
    ["salt", "Sodium chloride 37.6 mmol in sodium chloride 0.9 % 100 mL"],
    ["glucose", "Glucose 12.5 % w/v, 100 mL"],
    ["glucose", "Glucose 12.5 % from glucose 50 % and glucose 10 %"],
    ["glucose", "Glucose 50 % 6.4 mL in glucose 10 %, 100 mL"],
  ])("%s may be called %s", (mixture, title) => {
    expect(told(mixtures[mixture]!, title)).toEqual([]);
  });

  it.each([
    ["salt", "Sodium chloride 30 % w/v, 100 mL", "30 % w/v; the order comes to 3.013 % w/v"],
    ["salt", "Sodium chloride 0.3 %, 100 mL", "0.3 %; the order comes to 3.013 % w/v"],
    ["salt", "Sodium chloride 0.9 %, 100 mL", "0.9 %; the order comes to 3.013 % w/v"],
    ["salt", "Hypertonic saline 5 %, 100 mL", "5 %; the order comes to 3.013 % w/v"],
    ["glucose", "Glucose 125 % w/v, 100 mL", "125 % w/v; the order comes to 12.56 % w/v"],
    ["glucose", "Glucose 15 %, 100 mL", "15 %; the order comes to 12.56 % w/v"],
    ["glucose", "Glucose 3.2 %, 100 mL", "3.2 %; the order comes to 12.56 % w/v"],
  ])("%s is not %s", (mixture, title, said) => {
    expect(told(mixtures[mixture]!, title)).toEqual([said]);
  });

  it("is told so on a label line too, where the fluid may stand by itself", () => {
    const title = "Glucose 12.5 % w/v, 100 mL";
    expect(told(glucose, title, "Glucose 12.5 %")).toEqual([]);
    expect(told(glucose, title, "Glucose 10 % 93.6 mL")).toEqual([]);
    expect(told(glucose, title, "Glucose 125 %")).toEqual(["125 %; the recipe says 12.56 % w/v"]);
  });
});

it("a salt of another metal shares but the acid of the fluid", () => {
  const potassium: Mixture = {
    ...salt,
    drug: "potassium-chloride",
    printed: "potassium chloride",
    formula: "KCl",
    strength: "150 mg/mL",
    dose: "1.2 g",
    volume: "8 mL",
  };
  expect(told(potassium, "Potassium chloride 1.2 % in sodium chloride 0.9 % 100 mL")).toEqual([]);
  expect(told(potassium, "Potassium chloride 12 % in sodium chloride 0.9 % 100 mL")).toEqual([
    "12 %; the order comes to 1.2 % w/v",
  ]);
});
