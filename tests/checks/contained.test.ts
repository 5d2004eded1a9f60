/**
 * Figures of a title or label that belong to what a preparation holds beside its drugs, and those that only look like it. Figures of
 * products are invented; sodium chloride 0.9 % holds 154 mmol/L of each ion (its usual label), 500 g/L of glucose 50 % is its name.
 */
import { describe, expect, it } from "vitest";
import { standardAnd } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

interface Parts {
  /** Facts of the drug beside what every drug here has. */
  drug: string;
  /** Facts of its vial. */
  vial: string;
  dose: string;
  title: string;
  line: string;
  /** mL of glucose 50 % that the order names beside the saline. */
  glucose?: number;
}

const text = ({ drug, vial, dose, title, line, glucose }: Parts) =>
  standardAnd(`drug ${drug.split("\n")[0]} {
  source         guide "salts"
  name           "${drug.split("\n")[0]!.replaceAll("-", " ")}"
${drug.split("\n").slice(1).join("\n")}
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     glucose-50
  dose           from 1 mmol up to 100 mmol for any route
  concentration  any for any route
  rate           any for any route
  stable {
    source         guide "table 7"
    in             any
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

fluid glucose-50 {
  source      guide "fluids"
  name        "glucose 50 % w/v"
  contains    glucose 500 g/L
  osmolarity  2,775 mOsm/L
  use         injection
}

stock glucose-vial {
  fluid      glucose-50
  container  vial
  fill       50 mL
  doses      single
  storage    room-temperature
}

lots glucose-vial {
  lot "KQ-8001"  expires 2027-04
}

stock salt-vial {
  drug       ${drug.split("\n")[0]}
  container  vial
${vial}
  fill       10 mL
  doses      single
  storage    room-temperature
}

lots salt-vial {
  lot "KQ-8002"  expires 2027-04
}

recipe salt {
  title  "${title}"

  order {
    drug            ${drug.split("\n")[0]}
    dose            ${dose} per bag
    diluent         sodium-chloride-0.9 100 mL
${glucose ? `    diluent         glucose-50 ${glucose} mL\n` : ""}    method          add-to-bag
    route           intravenous
    access          central
    infuse-over     4 h
  }

  materials {
    salt         salt-vial
    glucose      glucose-vial
    bag          saline-bag-100
    syringe      syringe-10mL
    big          syringe-50mL
    needle       needle-18-gauge
    needle-2     needle-18-gauge
  }

  steps {
    check label and expiry of salt, glucose, bag
    disinfect salt, glucose
    attach needle-2 to big
    disinfect bag
    add ${glucose ?? 10} mL from glucose to bag using big at equal pressure
    mix bag by inverting 10 times
    attach needle to syringe
    draw dose from salt into syringe at equal pressure
    expel air from syringe
    disinfect bag
    inject syringe into bag
    mix bag by inverting 10 times
    inspect bag
    seal bag
    label bag
    keep salt, glucose, needle, needle-2, big, syringe for check
    check by pharmacist
  }

  preparation bag {
    form           solution-for-infusion
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }

  label-text {
    line  "${line}"
  }
}
`);

const told = (parts: Parts) =>
  findingsOf(text(parts))
    .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

const chloride = {
  drug: 'potassium-chloride\n  formula        "KCl"\n  ion            potassium charge 1',
  vial: "  strength   2 mmol/mL",
  dose: "20 mmol",
  title: "Potassium chloride 20 mmol in sodium chloride 0.9 % 100 mL",
};

describe("a drug whose name ends in an ion of the fluid", () => {
  it.each([
    "Potassium chloride 20 mmol",
    "Contains potassium chloride 20 mmol in 120 mL",
    // What the drug itself brings of it is not declared, so that nobody can say.
    "Potassium 20 mmol, chloride 35.4 mmol",
    "Sodium 15.4 mmol, potassium 20 mmol",
    "Potassium 20 mmol and sodium 15.4 mmol",
  ])("%s is in order", (line) => {
    expect(told({ ...chloride, line })).toEqual([]);
  });

  it.each([
    ["Potassium chloride 200 mmol", ["200 mmol; the order says 20 mmol"]],
    ["Potassium 20 mmol, sodium 154 mmol", ["sodium 154 mmol; the recipe says 15.4 mmol"]],
  ])("%s is not", (line, expected) => {
    expect(told({ ...chloride, line })).toEqual(expected);
  });
});

const phosphate = {
  drug: "potassium-phosphate\n  ion            phosphate charge 0",
  vial: "  strength   3 mmol/mL\n  contains   potassium 4.4 mmol/mL",
  dose: "15 mmol",
  title: "Potassium phosphate 15 mmol (22 mmol of potassium) in sodium chloride 0.9 % 100 mL",
};

describe("an ion that the product brings beside what is counted", () => {
  // 15 mmol of phosphate are 5 mL, and 5 mL of 4.4 mmol/mL bring 22 mmol of potassium.
  it.each([
    "Phosphate 15 mmol with potassium 22 mmol",
    "Potassium phosphate 15 mmol (potassium 22 mmol)",
    "Potassium 22 mmol, phosphate 15 mmol",
  ])("%s is in order", (line) => {
    expect(told({ ...phosphate, line })).toEqual([]);
  });

  it.each([
    ["Phosphate 15 mmol with potassium 15 mmol", ["potassium 15 mmol; the recipe says 22 mmol"]],
    ["Potassium phosphate 22 mmol", ["22 mmol; the order says 15 mmol"]],
  ])("%s is not", (line, expected) => {
    expect(told({ ...phosphate, line })).toEqual(expected);
  });

  it("is told in the title", () => {
    const title = phosphate.title.replace("22 mmol", "15 mmol");
    expect(told({ ...phosphate, title, line: "Phosphate" })).toEqual([
      "15 mmol of potassium; the order comes to 22 mmol",
    ]);
  });
});

describe("what a fluid holds by mass", () => {
  const titled = (glucose: string) => `Glucose ${glucose}, potassium chloride 20 mmol, in sodium chloride 0.9 % 100 mL`;

  it("is laid against the fluid and not against the drug that is named next", () => {
    expect(
      told({ ...chloride, glucose: 20, title: titled("10 g"), line: "Glucose 10 g and potassium 20 mmol" }),
    ).toEqual([]);
    expect(told({ ...chloride, glucose: 20, title: titled("100 g"), line: "Glucose 1 g, potassium 20 mmol" })).toEqual([
      "100 g of glucose; the order comes to 10 g",
      "glucose 1 g; the recipe says 10 g",
    ]);
  });

  it("may be told in percent of all that there is", () => {
    // 20 mL of 50 % in 100 mL of saline and 10 mL of the salt: 10 g in 130 mL.
    const line = (percent: string) =>
      told({ ...chloride, glucose: 20, title: titled("10 g"), line: `Glucose ${percent}` });
    expect(line("7.7 %")).toEqual([]);
    expect(line("50 %")).toEqual([]);
    expect(line("5 %")).toEqual(["glucose 5 %; the recipe says glucose 50 % w/v"]);
  });
});

describe("an ion in brackets behind the dose", () => {
  it("is the next figure's, and does not make an ion of the dose", () => {
    expect(told({ ...chloride, line: "Potassium chloride 1.49 g (potassium 20 mmol)" })).toEqual([]);
    expect(told({ ...chloride, line: "Potassium chloride 14.9 g (potassium 20 mmol)" })).toEqual([
      "14.9 g; the order says 1.491 g",
    ]);
  });
});
