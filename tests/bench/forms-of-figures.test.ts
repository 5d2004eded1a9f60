/**
 * Salt or base: wherever a figure of a drug stands, it may say in which form it counts (`as`). 1.2 g of hydrate are 1 g of remedy (invented),
 * so that each line below may be written either way and means the same, and the same figure in the other form does not.
 */
import { describe, expect, test } from "vitest";
import { completionsAt } from "../../language/answers/completion.ts";
import { claimForms } from "../../language/bench/plan.ts";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { expectedOf } from "../../language/checks/units/expected.ts";
import { fingerprintOf } from "../../language/compare/fingerprint.ts";
import { Library } from "../../language/library.ts";
import { drugFacts, fluidFacts, stableFacts } from "../../language/model/declarations/drug.ts";
import {
  exampleFacts,
  intermediateFacts,
  orderFacts,
  preparationFacts,
} from "../../language/model/declarations/recipe.ts";
import { siteFacts } from "../../language/model/declarations/site.ts";
import { deviceFacts, reconstituteFacts, stockFacts } from "../../language/model/declarations/stock.ts";
import type { FactTable } from "../../language/model/facts.ts";
import { readPages } from "../spec/pages.ts";

const { given, text } = readPages()
  .flatMap(({ cases }) => cases)
  .find(({ title }) => title.includes("The form that is counted"))!;

type Change = readonly [from: string, to: string];

const bottled: readonly Change[] = [
  [
    "stock remedy-vial-10 {\n  drug       remedy\n  container  vial\n  strength   60 mg/mL as remedy-hydrate\n  fill       10 mL\n",
    powder("50 mg/mL as remedy"),
  ],
  [
    "    attach needle to syringe\n    draw",
    "    disinfect water\n    attach needle to syringe\n    reconstitute vial with 9.8 mL from water using syringe at equal pressure\n    swirl vial until dissolved\n    disinfect vial\n    draw",
  ],
  ["    bag          saline-bag-100\n", "    bag          saline-bag-100\n    water        water-vial-10\n"],
  ["expiry of vial, bag", "expiry of vial, water, bag"],
  ["    vial         remedy-vial-10\n", "    vial         remedy-powder\n"],
  ["lots remedy-vial-10 {", "lots remedy-powder {"],
  ["keep vial, needle", "keep vial, water, needle"],
];

function powder(gives: string): string {
  return `fluid water {
  source       guide "fluids"
  name         "water for injections"
  use          injection
  osmolarity   0 mOsm/L
  never-alone  yes
}

stock water-vial-10 {
  fluid      water
  container  vial
  fill       10 mL
  doses      single
  storage    room-temperature
}

lots water-vial-10 {
  lot "KQ-7209"  expires 2027-06
}

stock remedy-powder {
  drug       remedy
  container  powder-vial
  content    600 mg as remedy-hydrate
  reconstitute {
    source        guide "remedy"
    with          9.8 mL of water
    gives         ${gives}
    withdrawable  10 mL
  }
`;
}

interface Place {
  /** Block and line, or verb. */
  place: string;
  /** What else stands otherwise, so that the figure may stand. */
  besides?: readonly Change[];
  /** What is replaced by each of the three. */
  at: string;
  base: string;
  hydrate: string;
  wrong: string;
  /** Findings that the wrong one has at least: one figure, and the other form. */
  told: readonly string[];
}

const dose = "    dose            500 mg as remedy per bag\n";
const drawn = "    draw 600 mg as remedy-hydrate from vial into syringe at equal pressure  = 10 mL\n";
const injected = "    inject 500 mg as remedy from syringe into bag\n";
const limitOfDose = "  dose           up to 5 g for any route\n";
const limitOfStrength = "  concentration  up to 50 mg/mL for any route\n";
const limitOfRate = "  rate           up to 5 g/h for any route\n";
const stated = "    concentration   4.55 mg/mL\n";
const prepared = "  preparation bag {\n";
const byWeight: readonly Change[] = [
  [dose, "    weight          100 kg\n    dose            5 mg/kg as remedy per bag\n"],
  ["    draw 600 mg as remedy-hydrate", "    draw dose"],
  ["recipe remedy-500mg {", "recipe remedy-by-weight {"],
  ["Remedy 500 mg in", "Remedy by weight in"],
];
const each: readonly Change[] = [
  [drawn, ""],
  ["    expel air from syringe\n", ""],
  ["    attach needle to syringe\n", ""],
  ["    disinfect bag\n", "    disinfect bag\n    attach needle to syringe\n"],
];
const added = (figure: string) => `    add ${figure} from vial to bag using syringe at equal pressure\n`;
const drawnAs = (figure: string) => `    draw ${figure} from vial into syringe at equal pressure\n`;
const injectedAs = (figure: string) => `    inject ${figure} from syringe into bag\n`;
const inTwo = (left: string) =>
  `    draw 5 mL from vial into syringe at equal pressure  leaving ${left}
    expel air from syringe
    disinfect vial
    draw 5 mL from vial into syringe at equal pressure
`;

const places: readonly Place[] = [
  {
    place: "stock strength",
    at: "60 mg/mL as remedy-hydrate",
    base: "50 mg/mL as remedy",
    hydrate: "60 mg/mL as remedy-hydrate",
    wrong: "60 mg/mL as remedy",
    told: ["claim-differs"],
  },
  {
    place: "stock content",
    besides: bottled,
    at: "600 mg as remedy-hydrate\n",
    base: "500 mg as remedy\n",
    hydrate: "600 mg as remedy-hydrate\n",
    wrong: "600 mg as remedy\n",
    told: ["powder-figures-do-not-fit"],
  },
  {
    place: "reconstitute gives",
    besides: bottled,
    at: "gives         50 mg/mL as remedy\n",
    base: "gives         50 mg/mL as remedy\n",
    hydrate: "gives         60 mg/mL as remedy-hydrate\n",
    wrong: "gives         60 mg/mL as remedy\n",
    told: ["claim-differs"],
  },
  {
    place: "drug dose",
    at: limitOfDose,
    base: "  dose           up to 500 mg as remedy for any route\n",
    hydrate: "  dose           up to 600 mg as remedy-hydrate for any route\n",
    wrong: "  dose           up to 500 mg as remedy-hydrate for any route\n",
    told: ["dose-outside-window"],
  },
  {
    place: "drug concentration",
    at: limitOfStrength,
    base: "  concentration  up to 4.6 mg/mL as remedy for any route\n",
    hydrate: "  concentration  up to 5.5 mg/mL as remedy-hydrate for any route\n",
    wrong: "  concentration  up to 4.6 mg/mL as remedy-hydrate for any route\n",
    told: ["concentration-above-limit"],
  },
  {
    place: "drug usual-concentration",
    at: limitOfStrength,
    base: `${limitOfStrength}  usual-concentration  up to 4.6 mg/mL as remedy for any route\n`,
    hydrate: `${limitOfStrength}  usual-concentration  up to 5.5 mg/mL as remedy-hydrate for any route\n`,
    wrong: `${limitOfStrength}  usual-concentration  up to 4.6 mg/mL as remedy-hydrate for any route\n`,
    told: ["concentration-unusual"],
  },
  {
    place: "drug rate",
    at: limitOfRate,
    base: "  rate           up to 1 g/h as remedy for any route\n",
    hydrate: "  rate           up to 1.2 g/h as remedy-hydrate for any route\n",
    wrong: "  rate           up to 1 g/h as remedy-hydrate for any route\n",
    told: ["rate-above-limit"],
  },
  {
    place: "stable concentration",
    at: "    concentration  any\n",
    base: "    concentration  up to 4.6 mg/mL as remedy\n",
    hydrate: "    concentration  up to 5.5 mg/mL as remedy-hydrate\n",
    wrong: "    concentration  up to 4.6 mg/mL as remedy-hydrate\n",
    told: ["stability-not-covered"],
  },
  {
    place: "order dose",
    at: dose,
    base: dose,
    hydrate: "    dose            600 mg as remedy-hydrate per bag\n",
    wrong: "    dose            500 mg as remedy-hydrate per bag\n",
    told: ["dose-not-delivered"],
  },
  {
    place: "order additive",
    at: `    drug            remedy\n${dose}`,
    base: "    additive        remedy 500 mg as remedy per bag\n",
    hydrate: "    additive        remedy 600 mg as remedy-hydrate per bag\n",
    wrong: "    additive        remedy 500 mg as remedy-hydrate per bag\n",
    told: ["dose-not-delivered"],
  },
  {
    place: "order concentration",
    at: dose,
    base: "    concentration   4.55 mg/mL as remedy\n    final-volume    110 mL\n",
    hydrate: "    concentration   5.45 mg/mL as remedy-hydrate\n    final-volume    110 mL\n",
    wrong: "    concentration   4.55 mg/mL as remedy-hydrate\n    final-volume    110 mL\n",
    told: ["dose-not-delivered"],
  },
  {
    place: "order infuse-at",
    besides: [[limitOfRate, "  rate           from 1 g/h up to 1.1 g/h for any route\n"]],
    at: "    infuse-over     30 min\n",
    base: "    infuse-at       1 g/h as remedy\n",
    hydrate: "    infuse-at       1.2 g/h as remedy-hydrate\n",
    wrong: "    infuse-at       1.2 g/h as remedy\n",
    told: ["rate-above-limit"],
  },
  {
    place: "order maximum",
    besides: byWeight,
    at: "    diluent         sodium",
    base: "    maximum         dose 500 mg as remedy\n    diluent         sodium",
    hydrate: "    maximum         dose 600 mg as remedy-hydrate\n    diluent         sodium",
    wrong: "    maximum         dose 500 mg as remedy-hydrate\n    diluent         sodium",
    told: ["claim-differs"],
  },
  {
    place: "order minimum",
    besides: byWeight,
    at: "    diluent         sodium",
    base: "    minimum         dose 500 mg as remedy\n    diluent         sodium",
    hydrate: "    minimum         dose 600 mg as remedy-hydrate\n    diluent         sodium",
    wrong: "    minimum         dose 600 mg as remedy\n    diluent         sodium",
    told: ["dose-not-delivered"],
  },
  {
    place: "order round",
    besides: byWeight,
    at: "    diluent         sodium",
    base: "    round           dose to nearest 500 mg as remedy\n    diluent         sodium",
    hydrate: "    round           dose to nearest 600 mg as remedy-hydrate\n    diluent         sodium",
    wrong: "    round           dose to nearest 500 mg as remedy-hydrate\n    diluent         sodium",
    told: ["rounding-moves-dose"],
  },
  {
    place: "preparation concentration",
    at: stated,
    base: "    concentration   4.55 mg/mL as remedy\n",
    hydrate: "    concentration   5.45 mg/mL as remedy-hydrate\n",
    wrong: "    concentration   4.55 mg/mL as remedy-hydrate\n",
    told: ["concentration-differs"],
  },
  {
    place: "preparation nominal-concentration",
    at: stated,
    base: `${stated}    nominal-concentration  4.5 mg/mL as remedy\n`,
    hydrate: `${stated}    nominal-concentration  5.5 mg/mL as remedy-hydrate\n`,
    wrong: `${stated}    nominal-concentration  4.5 mg/mL as remedy-hydrate\n`,
    told: ["nominal-concentration-differs"],
  },
  {
    place: "intermediate at",
    besides: [["    expel air from syringe\n", "    expel air from syringe\n    label syringe\n"]],
    at: prepared,
    base: `  intermediate remedy-50 {\n    in   syringe\n    at   50 mg/mL as remedy\n    use  at-once\n  }\n\n${prepared}`,
    hydrate: `  intermediate remedy-50 {\n    in   syringe\n    at   60 mg/mL as remedy-hydrate\n    use  at-once\n  }\n\n${prepared}`,
    wrong: `  intermediate remedy-50 {\n    in   syringe\n    at   60 mg/mL as remedy\n    use  at-once\n  }\n\n${prepared}`,
    told: ["intermediate-strength-differs"],
  },
  {
    place: "example expect amount",
    at: prepared,
    base: `  example "one bag" {\n    expect  dose 500 mg as remedy\n  }\n\n${prepared}`,
    hydrate: `  example "one bag" {\n    expect  dose 600 mg as remedy-hydrate\n  }\n\n${prepared}`,
    wrong: `  example "one bag" {\n    expect  dose 600 mg as remedy\n  }\n\n${prepared}`,
    told: ["example-differs"],
  },
  {
    place: "example expect strength",
    at: prepared,
    base: `  example "one bag" {\n    expect  concentration 4.55 mg/mL as remedy\n  }\n\n${prepared}`,
    hydrate: `  example "one bag" {\n    expect  concentration 5.45 mg/mL as remedy-hydrate\n  }\n\n${prepared}`,
    wrong: `  example "one bag" {\n    expect  concentration 5.45 mg/mL as remedy\n  }\n\n${prepared}`,
    told: ["example-differs"],
  },
  {
    place: "draw",
    at: drawn,
    base: drawnAs("500 mg as remedy"),
    hydrate: drawnAs("600 mg as remedy-hydrate"),
    wrong: drawnAs("500 mg as remedy-hydrate"),
    told: ["dose-not-delivered"],
  },
  {
    place: "inject",
    at: injected,
    base: injectedAs("500 mg as remedy"),
    hydrate: injectedAs("600 mg as remedy-hydrate"),
    wrong: injectedAs("500 mg as remedy-hydrate"),
    told: ["dose-not-delivered"],
  },
  {
    place: "add",
    besides: each,
    at: injected,
    base: added("500 mg as remedy"),
    hydrate: added("600 mg as remedy-hydrate"),
    wrong: added("500 mg as remedy-hydrate"),
    told: ["dose-not-delivered"],
  },
  {
    place: "giving",
    at: injected,
    base: injected.replace("\n", "  giving 4.55 mg/mL as remedy\n"),
    hydrate: injected.replace("\n", "  giving 5.45 mg/mL as remedy-hydrate\n"),
    wrong: injected.replace("\n", "  giving 5.45 mg/mL as remedy\n"),
    told: ["held-after-step-differs"],
  },
  {
    place: "leaving",
    at: drawn,
    base: inTwo("250 mg as remedy"),
    hydrate: inTwo("300 mg as remedy-hydrate"),
    wrong: inTwo("300 mg as remedy"),
    told: ["held-after-step-differs"],
  },
  {
    place: "transfer",
    besides: [
      ...each,
      ["    needle       needle-18-gauge\n", "    needle       needle-18-gauge\n    tube         transfer-tubing\n"],
    ],
    at: injected,
    base: "    transfer 500 mg as remedy from vial to bag using tube\n",
    hydrate: "    transfer 600 mg as remedy-hydrate from vial to bag using tube\n",
    wrong: "    transfer 500 mg as remedy-hydrate from vial to bag using tube\n",
    told: ["dose-not-delivered"],
  },
  {
    place: "fill",
    besides: each,
    at: injected,
    base: "    fill bag with 500 mg as remedy from vial using syringe at equal pressure\n",
    hydrate: "    fill bag with 600 mg as remedy-hydrate from vial using syringe at equal pressure\n",
    wrong: "    fill bag with 500 mg as remedy-hydrate from vial using syringe at equal pressure\n",
    told: ["dose-not-delivered"],
  },
];

function findings(changes: readonly Change[]): string[] {
  let [first, second] = [given, text.replace("    filled-weight   120 g\n", "")];
  for (const [from, to] of changes) {
    // The drug's own limits and rows are those of `drug remedy {`; the last in the page.
    const [inFirst, inSecond] = [first.split(from).length - 1, second.split(from).length - 1];
    if (inFirst + inSecond === 0) throw new Error(`nothing to change: ${from}`);
    const last = first.lastIndexOf(from);
    if (inSecond > 0) second = second.replace(from, () => to);
    else first = first.slice(0, last) + to + first.slice(last + from.length);
  }
  const library = new Library({ asOf: "2026-11-25" });
  library.open("given.misce", first);
  library.open("case.misce", second);
  return [...library.findings("given.misce"), ...library.findings("case.misce")].map((f) => `${f.name}: ${f.message}`);
}

describe("a figure says in which form it counts", () => {
  for (const { place, besides = [], at, base, hydrate, wrong, told } of places) {
    test(place, () => {
      expect(namesOf(findings([...besides, [at, base]]))).toEqual([]);
      expect(namesOf(findings([...besides, [at, hydrate]]))).toEqual([]);
      expect(namesOf(findings([...besides, [at, wrong]]))).toEqual(expect.arrayContaining([...told]));
      // A form that the drug does not declare is none, and is told by its name.
      const strange = findings([...besides, [at, hydrate.replace("remedy-hydrate", "remedy-hydrat")]]);
      expect(strange.filter((text) => /\bremedy-hydrat\b/.test(text)).length).toBeGreaterThan(0);
    });
  }
});

function namesOf(found: readonly string[]): string[] {
  return found.map((text) => text.split(":")[0]!);
}

/** Slots for a figure that may be one of a drug's mass, or a mass of it in a volume or a time. */
const ofDrug = ["mass", "mass/volume", "mass/time", "mass/bodyWeight"];

/** What stands in such a slot and counts no form, with the reason. */
const counted: Readonly<Record<string, string>> = {
  "drug salt": "declares the forms themselves",
  "drug density": "g/mL of a whole liquid",
  "fluid density": "g/mL of a whole liquid",
  "stock density": "g/mL of a whole liquid",
  "fluid contains": "a substance of a fluid by its own name, which is no form of a drug",
  "stock contains": "a substance of a product by its own name, which is no form of a drug",
  "stock empty-weight": "the weight of a container",
  "preparation filled-weight": "the weight of a container",
  "order target": "an ion, which is the same in every form",
  "order weight": "the weight of a patient",
  "example weight": "the weight of a patient",
  "condition dose": "the dose as it is ordered",
};

const tables: Readonly<Record<string, FactTable>> = {
  site: siteFacts,
  drug: drugFacts,
  stable: stableFacts,
  fluid: fluidFacts,
  stock: stockFacts,
  reconstitute: reconstituteFacts,
  device: deviceFacts,
  order: orderFacts,
  preparation: preparationFacts,
  intermediate: intermediateFacts,
  example: exampleFacts,
};

test("every figure of a drug may name its form, and stands in the table above", () => {
  const lacking: string[] = [];
  const known = new Set(places.map(({ place }) => place));
  for (const [block, table] of Object.entries(tables))
    for (const [word, { form }] of Object.entries(table))
      for (const [, slot, type] of form.text.matchAll(/<(\w+)\??:(measure|strength|bound|range)>/g)) {
        const fits = expectedOf({ block, word, slot: slot! })?.fits;
        if (!ofDrug.some((key) => fits?.has(key)) || counted[`${block} ${word}`]) continue;
        const place = [`${block} ${word}`, `${block} ${word} ${slot}`].find((each) => known.has(each));
        const after = form.text.slice(form.text.indexOf(`<${slot}`));
        if (!place || !/^<[^>]*>[^<]*(?:of <ion\?:name>[^<]*)?as <salt\?:name>/.test(after))
          lacking.push(`${block} ${word} ${slot} ${type}`);
      }
  for (const verb of [...verbsByWord.values()].flat())
    if (verb.form.text.includes("<amount?:measure>") && !verb.form.text.includes("[of <ion?:name>] [as <as?:name>]"))
      lacking.push(verb.word);
  for (const [word, { text: form }] of Object.entries(claimForms))
    if (word !== "moves" && !form.includes("[as <as?:name>]")) lacking.push(word);
  expect(lacking).toEqual([]);
});

test("mmol of a form that is declared by its mass are not known", () => {
  const told = findings([
    ["  counted-as     remedy\n", '  formula        "C6H12O6"\n  counted-as     remedy\n'],
    ["    dose            500 mg as remedy per bag\n", "    dose            2 mmol as remedy-hydrate per bag\n"],
  ]);
  expect(told.find((each) => each.startsWith("amount-not-computable"))).toContain("leave `as remedy-hydrate` out");
});

/** What is offered at `|`, which stands in the recipe or in what is given with it. */
function offered(from: string, to: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  const [first, second] = [given, text].map((each) => each.replace(from, () => to));
  library.open("given.misce", first!.replace("|", ""));
  library.open("case.misce", second!.replace("|", ""));
  const [file, at] = second!.includes("|")
    ? (["case.misce", second!.indexOf("|")] as const)
    : (["given.misce", first!.indexOf("|")] as const);
  return completionsAt(library, file, at, "case").map(({ label }) => label);
}

test.each([
  ["    infuse-over     30 min\n", "    infuse-at       1 g/h as |\n"],
  ["inject 500 mg as remedy from syringe into bag", "inject syringe into bag  giving 4.55 mg/mL as |"],
  ["draw 600 mg as remedy-hydrate from", "draw 600 mg as | from"],
  ["strength   60 mg/mL as remedy-hydrate", "strength   60 mg/mL as |"],
  [
    "  dose           up to 5 g for any route\n  concentration  up to 50",
    "  dose  up to 5 g as |\n  concentration  up to 50",
  ],
])("the forms of the drug are offered behind `as`: %s", (from, to) => {
  expect(offered(from, to)).toEqual(["remedy", "remedy-hydrate"]);
});

test("another form beside a step is another meaning", () => {
  const fingerprint = (as: string) => {
    const library = new Library({ asOf: "2026-11-25" });
    library.open("given.misce", given);
    library.open(
      "case.misce",
      text.replace("syringe into bag", () => `syringe into bag  giving 5 mg/mL${as}`),
    );
    return fingerprintOf(library.declared("remedy-500mg").find((d) => d.kind === "recipe")!, library);
  };
  expect(new Set(["", " as remedy", " as remedy-hydrate"].map(fingerprint)).size).toBe(3);
});
