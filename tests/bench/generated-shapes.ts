/**
 * Shapes of generated recipes, about 80 lines each: ampoule, vial, powder, two drugs, serial dilution, syringe, batch, dose by
 * weight. Each is right under all checks (tested), so that what the faulty ones show is known.
 */
import { amount, type GeneratedDrug } from "./generated-library.ts";

/** What a shape is made from; every choice comes from the seeded generator. */
export interface Choices {
  name: string;
  drug: GeneratedDrug;
  /** A drug declared compatible with the first. */
  partner: GeneratedDrug;
  /** A whole number from `low` to `high`. */
  between(low: number, high: number): number;
  pick<T>(from: readonly T[]): T;
}

interface Parts {
  title: string;
  order: string[];
  materials: [name: string, item: string][];
  steps: string[];
  more?: string[];
  preparation: { of: string; concentration: string[]; form?: string };
}

export type Shape = (choices: Choices) => string;

const route = ["route           intravenous", "access          peripheral"];

function fluidOf({ pick }: Choices) {
  return pick([
    { fluid: "sodium-chloride-0.9", short: "saline", words: "sodium chloride 0.9 %" },
    { fluid: "glucose-5", short: "glucose", words: "glucose 5 %" },
  ]);
}

/** Half up at two decimals, trailing zeros left off; whole numbers in, so the rounding is exact enough for a sample. */
function strength(mg: number, mL: number): string {
  return String(Math.floor((mg * 200 + mL) / (mL * 2)) / 100);
}

function written(choices: Choices, parts: Parts): string {
  const { name, drug, pick } = choices;
  const { of, concentration, form } = parts.preparation;
  const materials = parts.materials.map(([thing, item]) => `    ${thing.padEnd(12)}  ${item}`);
  const [check, ...steps] = parts.steps;
  return `# ${parts.title}.
#
# Written by ${pick(["pharmacy informatics", "the aseptic unit", "the ward pharmacist"])}, read by a second pharmacist.
# Local form KQ-${choices.between(100, 999)}, version ${choices.between(1, 9)}. Figures are invented.
#
# Asked for by ${pick(["the intensive care unit", "the surgical wards", "the children's ward", "the emergency room"])};
# made ${pick(["every morning", "on demand", "twice a week"])} for named patients.
recipe ${name} {
  title  "${parts.title}"
  note   "Supports and does not replace the pharmacist's check and local procedures."
  note   "${pick(["One nurse prepares, another reads the label.", "Ask for the allergy record first.", "The ward orders by noon."])}"

  order {
${parts.order.map((line) => `    ${line}`).join("\n")}
  }

  # what is laid out before the work begins
  materials {
${materials.join("\n")}
  }

  steps {
    # laying out
    ${check}
    note "Wipe the work surface; keep the middle of the cabinet free."
    note "Lot ${choices.between(1, 40)} of the day sheet: read the whole recipe aloud."
    # the work
${steps.map((line) => `    ${line}`).join("\n")}
  }
${(parts.more ?? []).join("\n")}
  # the finished container, as the label tells it
  preparation ${of} {
    form            ${form ?? "solution-for-infusion"}
${concentration.map((c) => `    concentration   ${c}\n`).join("")}    use-within      24 h at room-temperature
    appearance      "clear, ${pick(["colourless", "colourless to pale yellow"])}, free of particles"
  }

  label-text {
    line  "${drug.name}: ${pick(["look at the bag before use", "give by a pump", "do not add other medicines"])}"
    line  "Kestrel Quay Infirmary, aseptic unit"
    line  "Telephone ${choices.between(2000, 9999)}"
    line  "For one patient only"
  }
}
`;
}

const finish = (container: string, kept: string) => [
  `mix ${container} by inverting 10 times`,
  'note "Hold against the light, then against the dark."',
  `inspect ${container}`,
  `seal ${container}`,
  `label ${container}`,
  `keep ${kept} for check`,
  "check by pharmacist",
];

export const ampouleToBag: Shape = (c) => {
  const { fluid, short, words } = fluidOf(c);
  const [volume, bag, hours] = [c.between(2, 8), c.pick([100, 250, 500, 1000]), c.between(1, 8)];
  const mg = volume * c.drug.strength;
  const title = `${c.drug.name} ${amount(mg)} in ${words} ${bag === 1000 ? "1 L" : `${bag} mL`}`;
  return written(c, {
    title,
    order: [
      `drug            ${c.drug.name}`,
      `dose            ${amount(mg)} per bag`,
      `diluent         ${fluid}`,
      `diluent-volume  ${bag === 1000 ? "1 L" : `${bag} mL`}`,
      "method          add-to-bag",
      ...route,
      `infuse-over     ${hours} h`,
    ],
    materials: [
      ["amp", `${c.drug.name}-ampoule`],
      ["bag", `${short}-bag-${bag}`],
      ["syringe", "syringe-10mL"],
      ["filter", "filter-needle-5um"],
      ["needle", "needle-18-gauge"],
    ],
    steps: [
      "check label and expiry of amp, bag",
      "tap amp",
      "disinfect amp",
      "open amp",
      "attach filter to syringe",
      `draw ${amount(mg)} from amp into syringe  = ${volume} mL`,
      "expel air from syringe",
      "replace filter on syringe with needle",
      "check by pharmacist",
      "disinfect bag",
      "inject syringe into bag",
      ...finish("bag", "amp, filter, needle, syringe"),
    ],
    preparation: { of: "bag", concentration: [`${strength(mg, bag + volume)} mg/mL`] },
  });
};

export const vialToBag: Shape = (c) => {
  const { fluid, short, words } = fluidOf(c);
  const [volume, bag, minutes] = [c.between(11, 18), c.pick([250, 500]), c.pick([60, 90, 120, 240])];
  const mg = volume * c.drug.strength;
  return written(c, {
    title: `${c.drug.name} ${amount(mg)} in ${words} ${bag} mL`,
    order: [
      `drug            ${c.drug.name}`,
      `dose            ${amount(mg)} per bag`,
      `diluent         ${fluid}`,
      `diluent-volume  ${bag} mL`,
      "method          withdraw-first",
      ...route,
      `infuse-over     ${minutes} min`,
    ],
    materials: [
      ["vial", `${c.drug.name}-vial`],
      ["bag", `${short}-bag-${bag}`],
      ["syringe", "syringe-20mL"],
      ["waste", "syringe-20mL"],
      ["needle", "needle-18-gauge"],
      ["needle-2", "needle-18-gauge"],
    ],
    steps: [
      "check label and expiry of vial, bag",
      "disinfect vial",
      "attach needle to syringe",
      `draw ${amount(mg)} from vial into syringe at equal pressure  = ${volume} mL`,
      "expel air from syringe",
      "check by pharmacist",
      "disinfect bag",
      "attach needle-2 to waste",
      `withdraw added-volume from bag using waste and discard  = ${volume} mL`,
      "disinfect bag",
      "inject syringe into bag",
      ...finish("bag", "vial, needle, syringe"),
    ],
    preparation: { of: "bag", concentration: [`${strength(mg, bag)} mg/mL`] },
  });
};

export const powderToBag: Shape = (c) => {
  const { fluid, short, words } = fluidOf(c);
  const { content, volume } = c.drug.powder;
  const bag = c.pick([100, 250, 500]);
  return written(c, {
    title: `${c.drug.name} ${amount(content)} in ${words} ${bag} mL`,
    order: [
      `drug            ${c.drug.name}`,
      `dose            ${amount(content)} per bag`,
      `diluent         ${fluid}`,
      `diluent-volume  ${bag} mL`,
      "method          withdraw-first",
      ...route,
      `infuse-over     ${c.pick([30, 60, 90])} min`,
    ],
    materials: [
      ["vial", `${c.drug.name}-powder`],
      ["water", "water-vial-100"],
      ["bag", `${short}-bag-${bag}`],
      ["load", "syringe-10mL"],
      ["measure", "syringe-20mL"],
      ["waste", "syringe-20mL"],
      ["spike", "vented-spike"],
      ["needle", "needle-18-gauge"],
      ["needle-2", "needle-18-gauge"],
    ],
    steps: [
      "check label and expiry of vial, water, bag",
      "disinfect vial, water",
      "attach spike to load",
      `reconstitute vial with ${volume} mL from water using load`,
      "swirl vial until dissolved",
      "attach needle to measure",
      `draw ${amount(content)} from vial into measure at equal pressure  = ${volume} mL`,
      "expel air from measure",
      "disinfect bag",
      "attach needle-2 to waste",
      `withdraw added-volume from bag using waste and discard  = ${volume} mL`,
      "disinfect bag",
      "inject measure into bag",
      ...finish("bag", "vial, water, needle, measure"),
    ],
    preparation: { of: "bag", concentration: [`${strength(content, bag)} mg/mL`] },
  });
};

export const twoDrugs: Shape = (c) => {
  const { fluid, short, words } = fluidOf(c);
  const [first, second, bag] = [c.between(2, 8), c.between(2, 8), c.pick([250, 500])];
  const [a, b] = [first * c.drug.strength, second * c.partner.strength];
  const total = bag + first + second;
  const draw = (n: number, mg: number, mL: number) => [
    `disinfect vial-${n}`,
    `attach needle-${n} to syringe-${n}`,
    `draw ${amount(mg)} from vial-${n} into syringe-${n} at equal pressure  = ${mL} mL`,
    `expel air from syringe-${n}`,
    "check by pharmacist",
    "disinfect bag",
    `inject syringe-${n} into bag`,
  ];
  return written(c, {
    title: `${c.drug.name} ${amount(a)} and ${c.partner.name} ${amount(b)} in ${words} ${bag} mL`,
    order: [
      `additive        ${c.drug.name} ${amount(a)} per bag`,
      `additive        ${c.partner.name} ${amount(b)} per bag`,
      `diluent         ${fluid}`,
      `diluent-volume  ${bag} mL`,
      "method          add-to-bag",
      ...route,
      "infuse-over     4 h",
    ],
    materials: [
      ["vial-1", `${c.drug.name}-vial`],
      ["vial-2", `${c.partner.name}-vial`],
      ["bag", `${short}-bag-${bag}`],
      ["syringe-1", "syringe-10mL"],
      ["syringe-2", "syringe-10mL"],
      ["needle-1", "needle-18-gauge"],
      ["needle-2", "needle-18-gauge"],
    ],
    steps: [
      "check label and expiry of vial-1, vial-2, bag",
      ...draw(1, a, first),
      "mix bag by inverting 10 times",
      ...draw(2, b, second),
      ...finish("bag", "vial-1, vial-2, needle-1, needle-2, syringe-1, syringe-2"),
    ],
    preparation: {
      of: "bag",
      concentration: [`${c.drug.name} ${strength(a, total)} mg/mL`, `${c.partner.name} ${strength(b, total)} mg/mL`],
    },
  });
};

export type { Parts };
export { finish, fluidOf, route, strength, written };
