/** Each kind of finished container as a Medication: what is in it as amounts over the whole volume, the rest as readable text. */
import { rowsAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { preparationLines } from "../sheet/order-lines.ts";
import { spaced } from "../sheet/printed-names.ts";
import { amountQuantity } from "../working/amount-words.ts";
import { alike, type Content, contentsOf } from "../working/contents.ts";
import { finishedPieces } from "../working/pieces.ts";
import type { Ingredient, Medication } from "./fhir-shapes.ts";
import { type Around, identifier, item, type Placed } from "./fhir-stocks.ts";
import { millilitres, narrative, pieceOf, plainText, quantityOf, ratioOf, urn } from "./fhir-values.ts";

export interface Wording {
  title: string;
  /** `weight 60 kg`; empty for an order without inputs. */
  at: string;
  fingerprint: string;
  /** What stands on everything that leaves. */
  safety: readonly string[];
}

export interface FinishedMedication extends Placed<Medication> {
  vessel: Vessel;
  /** How many of it one run makes. */
  count: number;
}

export function finishedMedications(around: Around, wording: Wording): FinishedMedication[] {
  const kinds = alike(around.run);
  return kinds.map(({ name, vessel, count }) => {
    const resource = finished(vessel, name, kinds.length > 1, around, wording);
    const { recipe } = around.run;
    const site = around.naming.site ?? "";
    const which = [recipe.name.name, wording.fingerprint, wording.at, name, String(vessel.index)];
    return { vessel, count, resource, fullUrl: urn(site, "preparation", ...which) };
  });
}

function finished(vessel: Vessel, name: string, isOneOfSeveral: boolean, around: Around, wording: Wording): Medication {
  const { run, naming, losses } = around;
  const { recipe } = run;
  const text = plainText(isOneOfSeveral ? `${wording.title}: ${name}` : wording.title);
  const form = recipe.preparations.find((p) => p.name.name === name)?.facts.one("form")?.slots.form.name;
  const container = run.groups.get(name);
  const ingredient = [...drugsIn(vessel, around), ...fluidsIn(vessel, around)];
  const what = `volume of ${name}`;
  return {
    resourceType: "Medication",
    text: narrative([text, ...contentWords(vessel, around), ...keeping(run, name), ...wording.safety]),
    identifier: [
      identifier(naming, "recipe", recipe.name.name),
      { type: { text: "fingerprint of the recipe's meaning" }, value: wording.fingerprint },
    ],
    code: { text },
    ...(form === undefined ? {} : { form: { text: plainText(form.replaceAll("-", " ")) } }),
    amount: {
      numerator: quantityOf(millilitres(vessel.liquid.volume), what, losses),
      denominator: pieceOf(vessel.kind === "syringe" ? "syringe" : finishedPieces(container, 1)),
    },
    ...(ingredient.length > 0 ? { ingredient } : {}),
  };
}

/** Amount over all the liquid, both exact where a quotient would not be: 4 g in 108 mL, never 37.04 mg/mL. */
function drugsIn(vessel: Vessel, around: Around): Ingredient[] {
  const { run, losses } = around;
  return contentsOf(run, vessel).map((content) => {
    const what = `${content.drug} in ${vessel.name}`;
    const ratio = ratioOf(ofTheSubstance(content, vessel, run), millilitres(vessel.liquid.volume), what, losses);
    const base = run.setup.drugs.get(content.drug)?.substance.base;
    return { ...item(content.drug, base, around), isActive: true, strength: ratio };
  });
}

/** An order may count an ion; the ingredient is the substance, so its own amount is told and the ion's stands in the text. */
function ofTheSubstance({ drug, amount, ion }: Content, vessel: Vessel, run: Run) {
  const held = vessel.liquid.amounts.get(drug);
  const kind = run.setup.kinds.get(drug);
  return ion === undefined || !held || !kind ? amount : amountQuantity(held, kind);
}

function fluidsIn(vessel: Vessel, around: Around): Ingredient[] {
  const drugs = new Set(vessel.liquid.drugs);
  return [...vessel.liquid.fluids].flatMap(([fluid, volume]) => {
    if (drugs.has(fluid) || around.run.setup.drugs.has(fluid) || !volume.isPositive()) return [];
    const what = `${fluid} in ${vessel.name}`;
    const strength = ratioOf(millilitres(volume), millilitres(vessel.liquid.volume), what, around.losses);
    return [{ ...item(fluid, undefined, around), isActive: false, strength }];
  });
}

function contentWords(vessel: Vessel, { run }: Around): string[] {
  const words = contentsOf(run, vessel).map(({ drug, amount, concentration, ion }) => {
    const base = run.setup.drugs.get(drug)?.substance.base;
    const as = ion !== undefined ? ` of ${ion}` : base === undefined ? "" : ` as ${base}`;
    return `${drug}: ${showQuantity(amount)}${as}, ${showQuantity(concentration)} (amount over all the liquid)`;
  });
  return [...words, `Volume: ${showQuantity(millilitres(vessel.liquid.volume))}, by the label's fill`];
}

/** What R4 has no element for in a Medication. */
function keeping(run: Run, name: string): string[] {
  const preparation = run.recipe.preparations.find((p) => p.name.name === name);
  if (!preparation) return [];
  const limits = rowsAt(preparation.facts.all("use-within"), run).map(({ slots }) => {
    return `Use within ${slots.time.written} at ${spaced(slots.place.name)}, counted from preparation`;
  });
  const lines = preparationLines(run, preparation, false).filter(({ label }) => label !== "Form");
  return [...lines.map(({ label, value }) => `${label}: ${value.text}`), ...limits];
}
