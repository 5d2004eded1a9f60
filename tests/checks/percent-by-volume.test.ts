/**
 * Ethanol 9.6 mL (10 mL of 96 % v/v) in glucose 5 % 100 mL: 9.6 mL in 110 mL are 8.727 % v/v, and with 0.789 g/mL 7.574 g or 6.886 % w/v.
 * The density is that of ethanol at 20 C (from memory); limits and doses are invented.
 */
import { describe, expect, it } from "vitest";
import { standardAnd } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const library = standardAnd(`
fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  contains    glucose 50 g/L
  osmolarity  278 mOsm/L
  use         injection
}

drug ethanol {
  source         guide "ethanol"
  invented       yes
  name           "ethanol"
  density        0.789 g/mL
  high-alert     yes
  hazard         not-hazardous
  light          not-sensitive
  compatible     glucose-5
  dose           from 1 mL up to 60 mL for route intravenous
  concentration  up to 10 % v/v for route intravenous
  rate           any for any route
  stable {
    source         guide "ethanol"
    in             any
    at             room-temperature
    concentration  up to 20 % v/v
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock ethanol-ampoule {
  drug       ethanol
  container  ampoule
  strength   96 % v/v
  fill       10 mL
  doses      single
  storage    room-temperature
}

stock glucose-bag-100 {
  fluid      glucose-5
  container  bag
  fill       100 mL
  capacity   150 mL
  made-of    polyolefin
  doses      single
  storage    room-temperature
}

lots ethanol-ampoule {
  lot "KQ-7410"  expires 2027-08
}

lots glucose-bag-100 {
  lot "KQ-7411"  expires 2027-08
}

recipe ethanol-infusion {
  title  "Ethanol 9.6 mL in glucose 5 % 100 mL"

  order {
    drug            ethanol
    dose            9.6 mL per bag
    diluent         glucose-5
    diluent-volume  100 mL
    method          add-to-bag
    route           intravenous
    access          central
    infuse-over     4 h
  }

  materials {
    eth          ethanol-ampoule
    bag          glucose-bag-100
    syringe      syringe-10mL
    filter       filter-needle-5um
    needle       needle-18-gauge
  }

  steps {
    check label and expiry of eth, bag
    tap eth
    disinfect eth
    open eth
    attach filter to syringe
    draw 10 mL from eth into syringe
    expel air from syringe
    check by pharmacist
    replace filter on syringe with needle
    disinfect bag
    inject syringe into bag
    mix bag by inverting 10 times
    inspect bag
    seal bag
    label bag
    keep eth, filter, needle, syringe for check
    check by pharmacist
  }

  label-text {
    line  "For one patient."
  }

  preparation bag {
    form           solution-for-infusion
    concentration  8.727 % v/v
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`);

const namesWith = (from: string, to: string) => findingsOf(library.replace(from, to)).map(({ name }) => name);
const title = "Ethanol 9.6 mL in glucose 5 % 100 mL";

it("is in order as it stands", () => {
  expect(findingsOf(library)).toEqual([]);
});

describe("an amount or a limit in % v/v", () => {
  it.each([
    ["dose            9.6 mL per", "dose            7.5744 g per"],
    ["draw 10 mL", "draw 7.5744 g"],
    ["8.727 % v/v", "6.886 % w/v"],
    ["up to 10 % v/v", "up to 80 mg/mL"],
  ])("%s is %s", (from, to) => {
    expect(namesWith(from, to)).toEqual([]);
  });

  it.each([
    ["8.727 % v/v", "8.727 % w/v", "concentration-differs"],
    ["up to 10 % v/v", "up to 8 % v/v", "concentration-above-limit"],
    ["up to 20 % v/v", "up to 5 % v/v", "stability-not-covered"],
    ["96 % v/v", "70 % v/v", "dose-not-delivered"],
    ["up to 60 mL", "up to 5 mL", "dose-outside-window"],
  ])("%s is not %s", (from, to, name) => {
    expect(namesWith(from, to)).toContain(name);
  });
});

describe("printed words", () => {
  const right = ["8.7 % v/v", "8.7 %", "6.9 % w/v", "96 % v/v 10 mL", "96 % 10 mL"].map((words) => `Ethanol ${words}`);
  it.each([...right, "10 mL of ethanol 96 %", "Ethanol 9.6 mL"])("%s is what the bag holds", (words) => {
    expect(namesWith("For one patient.", words)).toEqual([]);
    expect(namesWith(title, `${words} in glucose 5 % 100 mL`)).toEqual([]);
  });

  const wrong = ["87 % v/v", "8.7 % w/v", "70 % v/v 10 mL"].map((words) => `Ethanol ${words}`);
  it.each([...wrong, "10 mL of ethanol 70 %", "Ethanol 96 mL"])("%s is not", (words) => {
    expect(namesWith("For one patient.", words)).toContain("label-text-contradicts-order");
    expect(namesWith(title, `${words} in glucose 5 % 100 mL`)).toContain("title-contradicts-order");
  });
});

/** Calcium gluconate and the like: a drug whose name a fluid of the library shares. Glucose 12.5 g in 100 mL, in water from a vial of 50 %. */
describe("glucose as a drug beside glucose as a fluid", () => {
  const glucose = library
    .replaceAll("9.6 mL", "5 g")
    .replace('title  "Ethanol 5 g in glucose 5 % 100 mL"', 'title  "Glucose 4.545 %"')
    .replaceAll("96 % v/v", "50 % w/v")
    .replace("8.727 % v/v", "45.45 mg/mL")
    .replace('  name           "ethanol"\n  density        0.789 g/mL\n', '  name           "glucose"\n')
    .replaceAll("glucose-5", "water-for-injection")
    .replace(
      '"glucose 5 % w/v"\n  contains    glucose 50 g/L\n  osmolarity  278',
      '"water for injection"\n  osmolarity  0',
    )
    .replace("up to 20 % v/v", "any")
    .replace("up to 10 % v/v", "up to 500 mg/mL")
    .replace("from 1 mL up to 60 mL", "from 1 g up to 60 g")
    .concat(
      '\nfluid glucose-5 {\n  source      guide "fluids"\n  name        "glucose 5 % w/v"\n  osmolarity  278 mOsm/L\n  use         injection\n}\n',
    );
  const told = (from: string, to: string) =>
    findingsOf(glucose.replace(from, to)).filter(({ name }) => /contradicts-order/.test(name)).length;

  it.each(["Glucose 4.5 %", "Glucose 4.545 % from 50 %", "Compatible with glucose 5 %"])("%s is in order", (words) => {
    expect(told("For one patient.", words)).toBe(0);
  });

  it.each(["Glucose 12.5 %", "Glucose 45 %"])("%s is another strength", (words) => {
    expect(told("For one patient.", words)).toBe(1);
    expect(told("Glucose 4.545 %", words)).toBe(1);
  });
});
