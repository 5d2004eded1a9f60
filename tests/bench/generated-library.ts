/**
 * The shared part of the generated library: site, sources, fluids, drugs and 200 files of stock with their lots. Names of drugs
 * are generic; every figure is invented and only illustrates form.
 */

/** One drug with its four kinds of container. Strengths in mg/mL; a powder vial gives its strength in the stated volume. */
export interface GeneratedDrug {
  name: string;
  /** mg/mL in the ampoule of 10 mL, and in the vials of 20 mL and 50 mL. */
  strength: number;
  /** Powder vial: mg content, mL that dissolve it, mg/mL it gives. */
  powder: { content: number; volume: number; gives: number };
}

const names =
  "aciclovir amikacin aminophylline amiodarone ampicillin aztreonam cefazolin cefotaxime cefoxitin ceftazidime cefuroxime clindamycin colistimethate daptomycin dexamethasone diltiazem dobutamine dopamine doripenem ertapenem erythromycin esomeprazole fluconazole foscarnet fosphenytoin gentamicin hydrocortisone imipenem ketamine labetalol levetiracetam lidocaine linezolid meropenem methyldopa midazolam milrinone nafcillin".split(
    " ",
  );
const strengths = [5, 10, 20, 25, 50, 100];
const contents = [200, 250, 400, 500, 1000];

export const generatedDrugs: readonly GeneratedDrug[] = names.map((name, i) => {
  const content = contents[i % contents.length]!;
  return { name, strength: strengths[i % strengths.length]!, powder: { content, volume: 10, gives: content / 10 } };
});

const site = `site {
  name            "Kestrel Quay Infirmary"
  cabinet         horizontal-laminar-flow
  beyond-use      usp-797-2023 category 2
  tolerance       dose 5 %
  expiry-ahead    30 days
  role            pharmacist
  role            aseptic-lead
}
`;

const reference = `reference guide {
  title     "Guide to injectable medicines of the Kestrel Quay Infirmary"
  year      "2026"
  invented  yes
}
`;

const devices = `device syringe-cap {
  kind  cap
  note  "sterile closing cone for a syringe that leaves the cabinet"
}
`;

const fluids = `fluid sodium-chloride-0.9 {
  source      guide "fluids"
  name        "sodium chloride 0.9 % w/v"
  contains    sodium 154 mmol/L
  contains    chloride 154 mmol/L
  osmolarity  308 mOsm/L
  use         injection
}

fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  contains    glucose 50 g/L
  osmolarity  278 mOsm/L
  use         injection
}

fluid water-for-injection {
  source       guide "fluids"
  name         "water for injection"
  osmolarity   0 mOsm/L
  never-alone  yes
  use          injection
}
`;

function stable(fluid: string, at: string, time: string): string {
  return `  stable {
    source         guide "stability"
    in             ${fluid}
    at             ${at}
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            ${time}
  }
`;
}

function drugText({ name }: GeneratedDrug, partner: string): string {
  return `drug ${name} {
  source         guide "${name}"
  name           "${name}"
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     glucose-5
  compatible     water-for-injection
  compatible     ${partner}
  dose           from 1 mg up to 10 g for any route
  concentration  up to 100 mg/mL for route intravenous
  rate           up to 20 g/h for route intravenous
${stable("sodium-chloride-0.9", "room-temperature", "24 h")}${stable("glucose-5", "room-temperature", "24 h")}${stable("water-for-injection", "room-temperature", "24 h")}}
`;
}

function lots(stock: string, seed: number): string {
  const month = String((seed % 9) + 1).padStart(2, "0");
  return `
lots ${stock} {
  lot "KQ-${2000 + seed}"  expires 2027-${month}
  lot "KQ-${6000 + seed}"  expires 2028-${month}-15
}
`;
}

function liquidStock(stock: string, drug: string, container: string, strength: number, fill: number): string {
  return `stock ${stock} {
  drug       ${drug}
  container  ${container}
  strength   ${strength} mg/mL
  osmolarity  300 mOsm/L  source guide "${drug}"
  fill       ${fill} mL
  doses      single
  storage    room-temperature
}
`;
}

function powderStock(stock: string, { name, powder }: GeneratedDrug): string {
  return `stock ${stock} {
  drug       ${name}
  container  powder-vial
  content    ${amount(powder.content)}
  doses      single
  storage    room-temperature
  reconstitute {
    source        guide "${name}"
    with          ${powder.volume} mL of water-for-injection
    gives         ${powder.gives} mg/mL
    withdrawable  ${powder.volume} mL
  }
}
`;
}

function fluidStock(stock: string, fluid: string, container: string, fill: number, capacity?: number): string {
  const bag = capacity === undefined ? "" : `  capacity   ${millilitres(capacity)}\n  made-of    polyolefin\n`;
  return `stock ${stock} {
  fluid      ${fluid}
  container  ${container}
  fill       ${millilitres(fill)}
${bag}  doses      single
  storage    room-temperature
}
`;
}

/** mg in the unit a person writes: 1500 → `1.5 g`, 250 → `250 mg`. */
export function amount(mg: number): string {
  return mg >= 1000 ? `${mg / 1000} g` : `${mg} mg`;
}

/** A thousand is grouped, as the house writes it. */
export function millilitres(mL: number): string {
  return `${mL >= 1000 ? `1,${String(mL % 1000).padStart(3, "0")}` : mL} mL`;
}

/** Files of the library without its recipes: name relative to the root, and text. 200 of them are stock. */
export function generatedShared(): [file: string, text: string][] {
  const stock: [string, string][] = [];
  const put = (name: string, text: string) => stock.push([`stock/${name}.misce`, text + lots(name, stock.length)]);
  for (const drug of generatedDrugs) {
    const { name, strength } = drug;
    put(`${name}-ampoule`, liquidStock(`${name}-ampoule`, name, "ampoule", strength, 10));
    put(`${name}-vial`, liquidStock(`${name}-vial`, name, "vial", strength, 20));
    put(`${name}-vial-50`, liquidStock(`${name}-vial-50`, name, "vial", strength, 50));
    put(`${name}-powder`, powderStock(`${name}-powder`, drug));
    const double = { ...drug, powder: { content: drug.powder.content * 2, volume: 20, gives: drug.powder.gives } };
    put(`${name}-powder-double`, powderStock(`${name}-powder-double`, double));
  }
  const wrap = { "sodium-chloride-0.9": "saline", "glucose-5": "glucose" };
  for (const [fluid, short] of Object.entries(wrap)) {
    for (const fill of [100, 250, 500, 1000]) {
      put(`${short}-bag-${fill}`, fluidStock(`${short}-bag-${fill}`, fluid, "bag", fill, fill * 1.5));
    }
  }
  put("saline-vial-20", fluidStock("saline-vial-20", "sodium-chloride-0.9", "vial", 20));
  put("water-vial-100", fluidStock("water-vial-100", "water-for-injection", "vial", 100));
  const partner = (i: number) => generatedDrugs[i % 2 === 0 ? i + 1 : i - 1]!.name;
  return [
    ["site.misce", site],
    ["references.misce", reference],
    ["fluids.misce", fluids],
    ["devices.misce", devices],
    ...generatedDrugs.map((drug, i): [string, string] => [`drugs/${drug.name}.misce`, drugText(drug, partner(i))]),
    ...stock,
  ];
}
