/**
 * Names of storage places, materials, ions and other substances that libraries do not declare: what means the same, and which are in
 * common use. A ban or a study under one of the names holds under the others. From memory.
 */
import { remembered } from "../quantities/remembered.ts";
import { tablePlace, tablePlaceNames } from "./beyond-use-policy.ts";
import { nearNames, slips } from "./near.ts";

/** `fridge` is `refrigerator`; places that no table knows are the same by their name alone. */
export function isSamePlace(one: string, other: string): boolean {
  if (one === other) return true;
  const place = tablePlace(one);
  return place !== undefined && place === tablePlace(other);
}

const materials: readonly string[] = [
  "polyvinyl-chloride polyvinylchloride pvc",
  "polyolefin po",
  "polyethylene polythene pe",
  "low-density-polyethylene ldpe",
  "high-density-polyethylene hdpe",
  "polypropylene pp",
  "polycarbonate pc",
  "polyurethane pur",
  "polyisoprene",
  "polystyrene ps",
  "ethylene-vinyl-acetate ethylvinyl-acetate eva",
  "glass",
  "silicone",
  "latex",
  "rubber",
  "nylon",
  "non-pvc pvc-free",
];

const materialOf = new Map(
  materials.flatMap((row) => row.split(" ").map((name, _, [usual]): [string, string] => [plain(name), usual!])),
);

/** `pvc` is `polyvinyl-chloride`. */
export function isSameMaterial(one: string, other: string): boolean {
  return one === other || materialMeant(one) === materialMeant(other);
}

const materialMeant = remembered((name: string): string => materialOf.get(plain(name)) ?? plain(name));

function plain(name: string): string {
  return name.toLowerCase().replaceAll("-", "");
}

const substances: ReadonlySet<string> = new Set(
  (
    "sodium potassium calcium magnesium lithium zinc copper iron manganese chromium cobalt selenium iodine aluminium aluminum silver ammonium " +
    "chloride bromide iodide fluoride phosphate diphosphate phosphite sulfate sulphate sulfite bisulfite metabisulfite thiosulfate nitrate " +
    "nitrite bicarbonate carbonate hydroxide acetate lactate gluconate citrate malate maleate tartrate succinate glutamate aspartate " +
    "pyruvate borate molybdate selenate selenite edetate glucose dextrose fructose sucrose lactose maltose mannitol sorbitol xylitol " +
    "glycerol glycerin ethanol alcohol water lipid lipids fat soybean olive nitrogen amino-acids protein albumin gelatin gelatine starch " +
    "dextran glycine alanine arginine aspartic-acid cysteine cystine glutamine histidine isoleucine leucine lysine methionine ornithine " +
    "phenylalanine proline serine taurine threonine tryptophan tyrosine valine"
  ).split(" "),
);

const symbols: ReadonlyMap<string, string> = new Map([
  ["na", "sodium"],
  ["k", "potassium"],
  ["ca", "calcium"],
  ["mg", "magnesium"],
  ["li", "lithium"],
  ["zn", "zinc"],
  ["cl", "chloride"],
  ["po4", "phosphate"],
  ["hco3", "bicarbonate"],
  ["so4", "sulfate"],
]);

/**
 * Ions and other substances that a name stands for or is a slip away from: what is held under another name is added to nothing. One
 * letter in short names, two in long ones: `acetate` and `lactate` are both in use.
 */
export function substancesAlike(name: string): string[] {
  const symbol = symbols.get(name.toLowerCase());
  if (symbol !== undefined) return [symbol];
  if (name.length < 5 || substances.has(name)) return [];
  const most = name.length < 8 ? 1 : 2;
  return nearNames(name, substances).filter((near) => near.length > 4 && slips(name, near, most) <= most);
}

const formWords: ReadonlySet<string> = new Set(
  (
    "solution suspension emulsion dispersion powder concentrate sterile lyophilisate lyophilizate liposomal lipid oily oil aqueous water " +
    "for in of to or and with by as non use infusion injection inhalation nebuliser nebulizer nebulisation nebulization irrigation " +
    "instillation rinse bladder intravesical oral enteral mouthwash eye eyes ear ears nasal nose drops spray ointment gel cream lotion " +
    "implant depot prolonged release cardioplegia dialysis haemodialysis hemodialysis haemofiltration hemofiltration peritoneal lock " +
    "catheter line parenteral nutrition admixture mixture flush bolus syringe bag cassette infusor pump reservoir vial bottle intravenous " +
    "intrathecal epidural intramuscular subcutaneous intravitreal intracameral ophthalmic otic topical cutaneous rectal enema vaginal " +
    "wound skin joint solvent diluent diluted undiluted ready unit dose"
  ).split(" "),
);

/** The dosage form with the words set right that are a slip away from a word of dosage forms. */
export const formsAlike = remembered((form: string): readonly string[] => {
  let isSlip = false;
  const words = form.toLowerCase().split("-");
  const meant = words.map((word) => {
    if (word.length < 2 || formWords.has(word) || formWords.has(word.replace(/s$/, ""))) return word;
    const most = word.length < 8 ? 1 : 2;
    const [near] = nearNames(word, formWords).filter((each) => slips(word, each, most) <= most);
    isSlip ||= near !== undefined;
    return near ?? word;
  });
  return isSlip ? [meant.join("-")] : [];
});

/** Names in common use, to tell a slip of the finger from a name that is the site's own. */
export const usualPlaces: readonly string[] = [
  ...tablePlaceNames,
  "ambient",
  "ambient-temperature",
  "body-temperature",
  "cool-place",
  "deep-freezer",
];
export const usualMaterials: readonly string[] = [...materials.flatMap((row) => row.split(" ")), "any"];
