/**
 * Limits and strengths of an ion, over all that brings it. Figures: potassium phosphates injection, prescribing information, table 1
 * (prescriberpoint.com/therapies/potassium-phosphates-f1f26a1): peripheral up to phosphorus 6.8 mmol in 100 mL with potassium 10 mEq in
 * 100 mL, central up to 18 mmol with 26.4 mEq; the product holds 3 mmol of phosphorus and 4.4 mEq of potassium in a mL; 10 mEq of
 * potassium an hour by a peripheral vein, 6.8 mmol of phosphorus (droracle.ai/articles/790205, after the label); 44 mEq in 250 mL are
 * 0.176 mEq/mL (medsafetyofficer.org/node/2270).
 */
import { describe, expect, it } from "vitest";
import { standardAnd } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

interface Bag {
  dose?: string;
  volume?: string;
  access?: "peripheral" | "central";
  hours?: string;
  limits?: string;
  strength?: string;
  chloride?: string;
  ion?: string;
}

function bag({ dose = "15 mmol", volume = "250 mL", access = "peripheral", hours = "4 h", ...more }: Bag): string {
  const amount = Number.parseFloat(dose);
  const also = more.chloride
    ? `
    expel air from syringe
    check by pharmacist
    disinfect bag
    inject syringe into bag
    mix bag by inverting 10 times
    disinfect pot, bag
    attach needle-2 to second
    draw ${more.chloride} from pot into second at equal pressure
    expel air from second
    check by pharmacist
    disinfect bag
    inject second into bag`
    : `
    expel air from syringe
    check by pharmacist
    disinfect bag
    inject syringe into bag`;
  return standardAnd(`
drug phosphates {
  source         guide "phosphates"
  invented       yes
  name           "potassium phosphates"
  ion            phosphate charge 0
  high-alert     yes
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     chlorides
  dose           up to 45 mmol for route intravenous
  concentration  up to 68 mmol/L for route intravenous access peripheral
  concentration  up to 180 mmol/L for route intravenous access central
  rate           up to 20 mmol/h for route intravenous
${more.limits ?? "  concentration  up to 100 mEq/L of potassium for route intravenous access peripheral\n  concentration  up to 264 mEq/L of potassium for route intravenous access central\n  rate           up to 10 mEq/h of potassium for route intravenous access peripheral"}
  stable {
    source         guide "phosphates"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

drug chlorides {
  source         guide "chlorides"
  invented       yes
  name           "potassium chloride"
  formula        "KCl"
  ion            potassium charge 1
  high-alert     yes
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     phosphates
  dose           up to 100 mmol for route intravenous
  concentration  up to 400 mmol/L for route intravenous
  rate           up to 20 mmol/h for route intravenous
  stable {
    source         guide "chlorides"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock phosphate-vial {
  drug       phosphates
  container  vial
  strength   3 mmol/mL
  contains   ${more.ion ?? "potassium"} 4.4 mEq/mL
  fill       15 mL
  doses      single
  storage    room-temperature
}

stock chloride-vial {
  drug       chlorides
  container  vial
  strength   2 mmol/mL
  fill       20 mL
  doses      single
  storage    room-temperature
}

stock bag-of-saline {
  fluid      sodium-chloride-0.9
  container  bag
  fill       ${volume}
  capacity   1 L
  made-of    polyolefin
  doses      single
  storage    room-temperature
}

lots phosphate-vial {
  lot "KQ-8001"  expires 2027-08
}

lots chloride-vial {
  lot "KQ-8002"  expires 2027-08
}

lots bag-of-saline {
  lot "KQ-8003"  expires 2027-08
}

recipe phosphate-bag {
  title  "Potassium phosphates in sodium chloride 0.9 %"

  order {
    additive        phosphates ${dose} of phosphate per bag
${more.chloride ? `    additive        chlorides ${more.chloride} per bag\n` : ""}    diluent         sodium-chloride-0.9
    diluent-volume  ${volume}
    method          add-to-bag
    route           intravenous
    access          ${access}
    infuse-over     ${hours}
  }

  materials {
    phos      phosphate-vial
${more.chloride ? "    pot       chloride-vial\n    second    syringe-10mL\n    needle-2  needle-18-gauge\n" : ""}    bag       bag-of-saline
    syringe   syringe-${amount > 28 ? "20" : "10"}mL
    needle    needle-18-gauge
  }

  steps {
    check label and expiry of phos, bag${more.chloride ? ", pot" : ""}
    disinfect phos
    attach needle to syringe
    draw ${dose} of phosphate from phos into syringe at equal pressure${also}
    mix bag by inverting 10 times
    inspect bag
    seal bag
    label bag
    keep phos, needle, syringe${more.chloride ? ", pot, needle-2, second" : ""} for check
    check by pharmacist
  }

  preparation bag {
    form           solution-for-infusion
${more.strength ? `    concentration  ${more.strength}\n` : ""}    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`);
}

/** What is found of limits and strengths, with its text. */
const told = (parts: Bag) =>
  findingsOf(bag(parts))
    .filter(({ name }) => /^(?:concentration|rate|limit-not)/.test(name))
    .map(({ name, message }) => `${name}: ${message}`);

describe("a limit of an ion", () => {
  it("is kept by 15 mmol of phosphate in 250 mL over 4 h, 86 mEq of potassium in a litre", () => {
    expect(findingsOf(bag({})).map(({ name, message }) => `${name}: ${message}`)).toEqual([]);
  });

  it("is not kept by 30 mmol: 44 mEq of potassium in 260 mL, by a peripheral vein", () => {
    const found = told({ dose: "30 mmol", hours: "6 h" });
    expect(found.some((t) => /concentration-above-limit: potassium is 169\.2 mEq\/L in bag/.test(t))).toBe(true);
    // The phosphate is too strong by its own limit too: 115 mmol/L beside 68 mmol/L.
    expect(found.some((t) => /concentration-above-limit: phosphates is 115\.4 mmol\/L/.test(t))).toBe(true);
    expect(found.length).toBe(2);
  });

  it("is another by a central vein", () => {
    expect(told({ dose: "30 mmol", access: "central", hours: "6 h" })).toEqual([]);
  });

  it("holds for the rate: 22 mEq in 2 h are 11 mEq/h", () => {
    expect(told({ hours: "2 h" })).toEqual([
      expect.stringMatching(/rate-above-limit: potassium runs from bag at 11 mEq\/h; allowed is up to 10 mEq\/h/),
    ]);
    expect(told({ hours: "2.2 h" })).toEqual([]);
  });

  it("is laid against all that brings the ion", () => {
    // 22 mEq by the phosphates and 10 mmol by the chloride are 32 mEq in 260 mL, 123.1 mEq/L; 8 mEq/h over 4 h.
    expect(told({ chloride: "10 mmol" })).toEqual([
      expect.stringMatching(/concentration-above-limit: potassium is 123\.1 mEq\/L in bag/),
    ]);
    expect(told({ chloride: "10 mmol", access: "central" })).toEqual([]);
  });

  it("may be stated in mmol of an ion whose label says mEq", () => {
    const limits = "  concentration  up to 80 mmol/L of potassium for route intravenous";
    expect(told({ limits })).toEqual([expect.stringMatching(/potassium is 86\.27 mmol\/L in bag/)]);
  });

  it("is told as not checked where nothing is known to bring the ion", () => {
    expect(told({ ion: "sodium", limits: "  rate  up to 10 mmol/h of potassium for route intravenous" })).toEqual([
      expect.stringMatching(/limit-not-compared: The rate of potassium from phosphates .*how much potassium bag holds/),
    ]);
  });
});

describe("a dose window of an ion", () => {
  // 15 mmol of phosphate bring 22 mEq of potassium; 10 mmol of the chloride bring 10 mEq more.
  const doses = (row: string, parts: Bag = {}) =>
    findingsOf(bag({ limits: `  dose           ${row}`, ...parts }))
      .filter(({ name }) => name.startsWith("dose"))
      .map(({ name, message }) => `${name}: ${message}`);

  it("is kept, and told where it is not", () => {
    expect(doses("up to 25 mEq of potassium for route intravenous")).toEqual([]);
    expect(doses("up to 25 mmol of potassium for any route")).toEqual([]);
    expect(doses("up to 20 mEq of potassium for route intravenous")).toEqual([
      "dose-outside-window: 22 mEq of potassium lies outside the doses in which it is ever given (up to 20 mEq). Correct the dose, or the window if the source allows more.",
    ]);
    expect(doses("from 40 mEq up to 60 mEq of potassium for route intravenous")).toEqual([
      expect.stringContaining("dose-outside-window: 22 mEq of potassium lies outside"),
    ]);
  });

  it("is laid against all that brings the ion", () => {
    expect(doses("up to 25 mEq of potassium for route intravenous", { chloride: "10 mmol" })).toEqual([
      expect.stringMatching(
        /^dose-outside-window: 32 mEq of potassium \((?:stated contents 22 mEq and chlorides 10 mEq|chlorides 10 mEq and stated contents 22 mEq)\) lies outside .* \(up to 25 mEq\)/,
      ),
    ]);
    expect(doses("up to 35 mEq of potassium for route intravenous", { chloride: "10 mmol" })).toEqual([]);
    // 250 mL of sodium chloride 0.9 % hold 38.5 mmol of sodium.
    expect(doses("up to 30 mmol of sodium for route intravenous")).toEqual([
      expect.stringContaining("38.5 mmol of sodium lies outside"),
    ]);
  });

  it("of the route goes before that of any, and another route's does not hold", () => {
    expect(
      doses("up to 20 mEq of potassium for any route\n  dose up to 30 mEq of potassium for route intravenous"),
    ).toEqual([]);
    expect(doses("up to 20 mEq of potassium for route oral")).toEqual([]);
  });

  it("leaves the drug's own window as it is", () => {
    for (const most of ["200 mEq", "25 mEq"]) {
      expect(doses(`up to ${most} of potassium for route intravenous`, { dose: "60 mmol", hours: "12 h" })).toEqual([
        expect.stringContaining(
          "60 mmol of phosphates lies outside the doses in which it is ever given (up to 45 mmol)",
        ),
      ]);
    }
  });

  it("is told as not compared where nobody knows how much there is, or the patient's weight", () => {
    expect(doses("up to 20 mmol of zinc for route intravenous")).toEqual([
      expect.stringMatching(/^dose-not-compared: How much zinc bag gives was not compared with its dose window/),
    ]);
    expect(doses("up to 1 mmol/kg of potassium for route intravenous")).toEqual([
      expect.stringMatching(/^dose-not-compared: 22 mmol of potassium was not compared .* \(up to 1 mmol\/kg\)/),
    ]);
  });
});

describe("a stated strength of an ion", () => {
  it("is checked over all its sources, by the digits that are written", () => {
    expect(told({ strength: "86.3 mEq/L of potassium" })).toEqual([]);
    expect(told({ strength: "86.27 mmol/L of potassium" })).toEqual([]);
    expect(told({ strength: "58.8 mmol/L of phosphate" })).toEqual([]);
  });

  it("is told where it is another", () => {
    expect(told({ strength: "58.8 mmol/L of potassium" })).toEqual([
      expect.stringMatching(/concentration-differs: States 58\.8 mmol\/L; the steps give 86\.27 mmol\/L of potassium/),
    ]);
    expect(told({ strength: "86.3 mmol/L of zinc" })).toEqual([
      expect.stringMatching(/concentration-differs: .*no known amount of zinc/),
    ]);
  });
});

describe("a nominal strength of an ion", () => {
  // 22 mEq of potassium in 255 mL are 86.27 mEq/L.
  const nominal = (figure: string) =>
    findingsOf(bag({ strength: `86.3 mEq/L of potassium\n    nominal-concentration  ${figure}` }))
      .filter(({ name }) => name.startsWith("nominal"))
      .map(({ message }) => message);

  it("is what the true one rounds to, over all its sources", () => {
    for (const figure of ["86 mEq/L of potassium", "90 mEq/L of potassium", "90 mmol/L of potassium"])
      expect(nominal(figure)).toEqual([]);
  });

  it("is told where it is another, or nobody knows", () => {
    expect(nominal("60 mEq/L of potassium")).toEqual([
      "bag is called 60 mEq/L of potassium nominal; the true concentration is 86.27 mEq/L, which does not round to it. Mend the nominal figure or the steps.",
    ]);
    expect(nominal("60 mmol/L of zinc")).toEqual([expect.stringContaining("it holds no known amount of zinc")]);
  });
});
