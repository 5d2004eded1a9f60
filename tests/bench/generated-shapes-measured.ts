/** Shapes of generated recipes that are measured out: serial dilution, syringe, batch of bags, dose by weight. */
import { amount } from "./generated-library.ts";
import { finish, fluidOf, route, type Shape, strength, written } from "./generated-shapes.ts";

export const serialDilution: Shape = (c) => {
  const [first, second] = [c.pick([2, 4]), c.pick([2, 4])];
  const mid = (first * c.drug.strength) / 10;
  const mg = second * mid;
  return written(c, {
    title: `${c.drug.name} ${amount(mg)}, syringe from a ${mid} mg/mL dilution`,
    order: [
      `drug            ${c.drug.name}`,
      `dose            ${amount(mg)} per syringe`,
      "diluent         sodium-chloride-0.9",
      `final-volume    ${second} mL`,
      "method          build-from-empty",
      ...route,
      "use             bolus",
      "infuse-over     5 min",
      "population      child",
    ],
    materials: [
      ["amp", `${c.drug.name}-ampoule`],
      ["saline", "saline-vial-20"],
      ["working", "syringe-10mL"],
      ["syringe", "syringe-5mL"],
      ["filter", "filter-needle-5um"],
      ["needle", "needle-18-gauge"],
      ["join", "syringe-connector"],
      ["cap", "syringe-cap"],
    ],
    steps: [
      "check label and expiry of amp, saline",
      "tap amp",
      "disinfect amp",
      "open amp",
      "attach filter to working",
      `draw ${first} mL from amp into working  = ${first} mL`,
      "expel air from working",
      "replace filter on working with needle",
      "disinfect saline",
      `make up working to 10 mL with saline  giving ${mid} mg/mL`,
      "mix working by inverting 10 times",
      "label working",
      "remove needle from working",
      "connect working to syringe using join",
      `draw ${amount(mg)} from working into syringe dead-space excluded  = ${second} mL`,
      "expel air from syringe",
      "check by pharmacist",
      "remove join from working",
      "attach cap to syringe",
      "discard working",
      "inspect syringe",
      "seal syringe",
      "label syringe",
      "keep amp, saline, needle for check",
      "check by pharmacist",
    ],
    more: [
      "",
      `  intermediate ${c.drug.name}-working {`,
      "    in   working",
      `    at   ${mid} mg/mL`,
      "    use  at-once",
      "  }",
      "",
    ],
    preparation: { of: "syringe", concentration: [`${mid} mg/mL`], form: "solution-for-injection" },
  });
};

export const syringePump: Shape = (c) => {
  const { fluid, short, words } = fluidOf(c);
  const volume = c.between(10, 18);
  const mg = volume * c.drug.strength;
  return written(c, {
    title: `${c.drug.name} ${amount(mg)} in ${words}, syringe of 50 mL`,
    order: [
      `drug            ${c.drug.name}`,
      `dose            ${amount(mg)} per syringe`,
      `diluent         ${fluid}`,
      "final-volume    50 mL",
      "method          build-from-empty",
      ...route,
      "use             infusion",
      `infuse-over     ${c.pick([5, 10])} h`,
    ],
    materials: [
      ["vial", `${c.drug.name}-vial`],
      ["diluent-1", `${short}-bag-100`],
      ["syringe", "syringe-50mL"],
      ["needle", "needle-18-gauge"],
      ["cap", "syringe-cap"],
    ],
    steps: [
      "check label and expiry of vial, diluent-1",
      "disinfect vial, diluent-1",
      "attach needle to syringe",
      `draw ${amount(mg)} from vial into syringe at equal pressure  = ${volume} mL`,
      "expel air from syringe",
      "check by pharmacist",
      `make up syringe to 50 mL with diluent-1  giving ${strength(mg, 50)} mg/mL`,
      "expel air from syringe",
      "mix syringe by inverting 10 times",
      "replace needle on syringe with cap",
      ...finish("syringe", "vial, needle, diluent-1").slice(1),
    ],
    preparation: { of: "syringe", concentration: [`${strength(mg, 50)} mg/mL`] },
  });
};

export const batchOfBags: Shape = (c) => {
  const { fluid, short, words } = fluidOf(c);
  const [count, bag] = [c.between(2, 5), c.pick([100, 250])];
  const { content } = c.drug.powder;
  return written(c, {
    title: `${c.drug.name} ${amount(content)} in ${words} ${bag} mL, batch of ${count} bags`,
    order: [
      `drug            ${c.drug.name}`,
      `dose            ${amount(content)} per bags`,
      `diluent         ${fluid}`,
      `diluent-volume  ${bag} mL`,
      `makes           ${count} x bags`,
      "method          withdraw-first",
      ...route,
      "infuse-over     30 min",
    ],
    materials: [
      ["vials", `${count} x ${c.drug.name}-powder`],
      ["water", "water-vial-100"],
      ["bags", `${count} x ${short}-bag-${bag}`],
      ["load", "syringe-10mL"],
      ["syringe", "syringe-60mL"],
      ["waste", "syringe-10mL"],
      ["spike", "vented-spike"],
      ["spike-2", "vented-spike"],
      ["needle", "needle-18-gauge"],
      ["needle-2", "needle-18-gauge"],
    ],
    steps: [
      "check label and expiry of vials, water, bags",
      "disinfect vials, water",
      "attach spike to load",
      "reconstitute each of vials with 10 mL from water using load",
      "swirl vials until dissolved",
      "disinfect bags",
      "attach needle to waste",
      "withdraw 10 mL from each of bags using waste and discard",
      "attach spike-2 to syringe",
      `draw ${amount(content * count)} from vials into syringe  = ${count * 10} mL`,
      "expel air from syringe",
      "replace spike-2 on syringe with needle-2",
      "disinfect bags",
      `inject 10 mL from syringe into each of bags  = ${count * 10} mL`,
      ...finish("bags", "vials, water, syringe, needle-2"),
    ],
    preparation: { of: "bags", concentration: [`${strength(content, bag)} mg/mL`] },
  });
};

/** 1 mg/kg times the strength, so that each kilogram is a fifth of a millilitre. */
export const byWeight: Shape = (c) => {
  const perKilogram = c.drug.strength / 5;
  const [low, high] = [c.pick([20, 25, 30]), c.pick([40, 45, 50])];
  return written(c, {
    title: `${c.drug.name} by body weight in sodium chloride 0.9 %`,
    order: [
      `drug            ${c.drug.name}`,
      `weight          ${low} kg to ${high} kg in steps of 1 kg`,
      `dose            ${perKilogram} mg/kg per bag`,
      "diluent         sodium-chloride-0.9",
      "diluent-volume  250 mL",
      "method          withdraw-first",
      ...route,
      "infuse-over     2 h",
    ],
    materials: [
      ["vials", `${c.drug.name}-vial`],
      ["bag", "saline-bag-250"],
      ["measure", "syringe-10mL"],
      ["waste", "syringe-10mL"],
      ["needle", "needle-18-gauge"],
      ["needle-2", "needle-18-gauge"],
    ],
    steps: [
      "check label and expiry of vials, bag",
      "disinfect vials",
      "disinfect bag",
      "attach needle to waste",
      `withdraw added-volume from bag using waste and discard  = ${low / 5} mL to ${high / 5} mL`,
      "attach needle-2 to measure",
      `draw dose from vials into measure at equal pressure  = ${low / 5} mL to ${high / 5} mL`,
      "expel air from measure",
      "disinfect bag",
      "inject measure into bag",
      ...finish("bag", "vials, needle-2, measure"),
    ],
    more: [
      "",
      `  example "child of ${low} kg" {`,
      `    weight  ${low} kg`,
      `    expect  dose ${amount(perKilogram * low)}`,
      `    expect  draw from vials ${low / 5} mL`,
      "  }",
      "",
    ],
    preparation: { of: "bag", concentration: [] },
  });
};
