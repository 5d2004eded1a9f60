/** The figures that follow from a recipe at one point of its order, each under an identity that both sides of a comparison share. */
import { amountOf, isRefusal, kindOf, kindUnits } from "../bench/amounts.ts";
import { useLimits } from "../bench/beyond-use.ts";
import type { AmountKind } from "../bench/liquid.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import { osmolarityOf } from "../bench/osmolarity.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import { vesselsOf } from "../bench/setup.ts";
import { finished } from "../bench/stable-rows.ts";
import type { Vessel } from "../bench/things.ts";
import type { RangeJudgement } from "../checks/over-range.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, preferredUnit, type Quantity } from "../quantities/quantity.ts";
import { findUnit, unitOf } from "../quantities/unit.ts";
import { rateTable } from "../sheet/rates.ts";
import { substanceIn } from "../working/amount-words.ts";
import { alike, contentsOf } from "../working/contents.ts";
import { millilitres } from "../working/working.ts";
import type { Figure } from "./difference.ts";
import { meaningOf } from "./meaning.ts";
import { grouped } from "./pair-statements.ts";

/** A recipe with the library that it stands in. */
export interface RecipeSide {
  recipe: Recipe;
  library: Library;
  range: RangeJudgement | undefined;
}

/** With its size in the unit that the bench counts in, where it is an amount of a drug. */
export interface Named extends Figure {
  what: string;
  /** From policy and stability: nobody wrote it. */
  isDerived?: true;
  /** A limit of use beside which stands none of stability, because no row covers the mixture: it does not say how long that keeps. */
  isUncovered?: true;
}

export interface Figures {
  /** By an identity that both sides share. */
  figures: Map<string, Named>;
  /** Whether the order states a dose of this drug, or a line of it that cannot be read may do so. */
  isDosed(drug: string): boolean;
  isKnown: boolean;
}

export function figuresAt(
  { recipe, library }: RecipeSide,
  point: OrderPoint,
  steps: ReadonlyMap<number, string>,
  nameOf: (name: string) => string,
  overfilled: boolean,
  around = library.surroundings(),
): Figures {
  const run = runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" });
  const figures: Figures["figures"] = new Map();
  const put: Put = (key, what, quantity, { size, ...marks } = {}) => {
    if (quantity) figures.set(key, { what, quantity, ...(size ? { size } : {}), ...marks });
  };
  for (const dose of run.doses)
    put(`dose ${nameOf(dose.drug)}`, `dose of ${nameOf(dose.drug)}`, dose.given, { size: sizeOf(dose, run) });
  for (const step of run.steps) {
    const name = steps.get(step.number);
    if (name !== undefined && step.moved && !step.skipped) put(name, `volume of ${name}`, millilitres(step.moved));
  }
  if (!run.unknown) {
    for (const group of run.groups.values()) {
      const count = vesselsOf(group).filter((v) => v.stock).length;
      if (count > 0) put(`count ${nameOf(group.name)}`, `number of ${nameOf(group.name)}`, pieces(count));
    }
    putFinals(run, put, nameOf);
    putRates(run, put, nameOf);
    putLimits(run, around, put, nameOf);
    if (overfilled) {
      for (const overfill of ["least", "most"] as const) {
        const filled = runRecipe(recipe, around.lookup, around.policy, { point, overfill, printed: run });
        if (!filled.unknown) putFilled(filled, `, with the ${overfill} overfill`, put, nameOf);
      }
    }
  }
  for (const { name, facts } of recipe.preparations) {
    for (const { slots } of facts.all("use-within")) {
      const place = slots.place.name;
      put(`use ${nameOf(name.name)} ${place}`, `stated limit of use at ${place}`, slots.time.quantity);
    }
  }
  return { figures, isDosed: (drug) => mayBeDosed(recipe, drug, nameOf), isKnown: !run.unknown };
}

type Marks = Pick<Named, "isDerived" | "isUncovered"> & { size?: Quantity | undefined };
type Put = (key: string, what: string, quantity: Quantity | undefined, marks?: Marks) => void;

function mayBeDosed(recipe: Recipe, drug: string, nameOf: (name: string) => string): boolean {
  const { order } = recipe;
  if (meaningOf(recipe).facts.some((f) => f.block === "order" && !f.isRead)) return true;
  const isNamed = (word: "drug" | "additive") =>
    order?.all(word).some((f) => nameOf(f.slots.drug.name) === drug) ?? false;
  return isNamed("additive") || (isNamed("drug") && (order?.all("dose") ?? []).length > 0);
}

/** The dose in the unit in which the bench keeps the drug, so that 8 mmol can be laid beside 8 mEq. */
function sizeOf({ drug, given, as, ion }: Run["doses"][number], run: Run): Quantity | undefined {
  const kind = run.setup.kinds.get(drug);
  const amount = given && kind && kindOf(given) ? amountOf(given, kind, substanceIn(run, drug), as, ion) : undefined;
  return amount && kind && !isRefusal(amount) ? { value: amount, unit: kindUnits[kind] } : undefined;
}

const plainCount = unitOf([]);
const mOsmPerLitre = findUnit("mOsm/L").unit!;

function pieces(count: number): Quantity {
  return { value: Exact.of(count), unit: plainCount };
}

interface Kind {
  vessel: Vessel;
  count: number;
  /** `bags`; of those that came out otherwise than most of them, `other bags`. */
  each: string;
}

/** Finished containers that came out alike. Most of a name keep it, so that they can be laid beside those of the other side. */
function kindsOf(run: Run, nameOf: (name: string) => string): Kind[] {
  return [...grouped(alike(run), ({ name }) => name).values()].flatMap((kinds) =>
    kinds
      .sort((a, b) => b.count - a.count)
      .map(({ name, vessel, count }, k) => {
        const further = k > 1 ? ` (${k})` : "";
        return { vessel, count, each: k === 0 ? nameOf(name) : `other ${nameOf(name)}${further}` };
      }),
  );
}

function putFinals(run: Run, put: Put, nameOf: (name: string) => string): void {
  for (const { vessel, count, each } of kindsOf(run, nameOf)) {
    put(`finals ${each}`, `number of ${each} made`, pieces(count));
    put(`volume ${each}`, `final volume of ${each}`, millilitres(vessel.liquid.volume));
    for (const content of contentsOf(run, vessel)) {
      const drug = nameOf(content.drug);
      const kind = run.setup.kinds.get(content.drug);
      const held = vessel.liquid.amounts.get(content.drug);
      const size = kind && held ? { value: held, unit: kindUnits[kind] } : undefined;
      put(`amount ${drug} ${each}`, `${drug} in ${each}`, preferredUnit(content.amount), { size });
      const perVolume = kind && held && strengthSize(held, vessel.liquid.volume, kind);
      put(`concentration ${drug} ${each}`, `concentration of ${drug} in ${each}`, content.concentration, {
        size: perVolume,
      });
    }
    const drugs = new Set(vessel.liquid.drugs);
    for (const [fluid, volume] of vessel.liquid.fluids) {
      if (!drugs.has(fluid)) put(`fluid ${nameOf(fluid)} ${each}`, `${nameOf(fluid)} in ${each}`, millilitres(volume));
    }
    const least = osmolarityOf(vessel, run)?.least;
    const osmolarity = least && { value: least.times(Exact.of(1000)).roundedTo(0), unit: mOsmPerLitre };
    put(`osmolarity ${each}`, `osmolarity of ${each}, at least`, osmolarity);
  }
}

/** A concentration in the unit in which the bench keeps the drug, so that 20 mmol/L can be laid beside 20 mEq/L. */
function strengthSize(held: Exact, volume: Exact, kind: AmountKind): Quantity | undefined {
  const { unit } = findUnit(`${kindUnits[kind].spelling}/mL`);
  return unit && volume.isPositive() ? { value: held.over(volume), unit } : undefined;
}

/** Whether a product of the recipe states how much more than its label it holds. */
export function isOverfilled({ recipe, library }: RecipeSide, { lookup } = library.surroundings()): boolean {
  return recipe.materials.some((m) => lookup.find("stock", m.item.name)?.facts.one("overfill"));
}

/** Volume and concentrations of the finished containers, for a container that holds more than its label. */
function putFilled(run: Run, how: string, put: Put, nameOf: (name: string) => string): void {
  for (const { vessel, each } of kindsOf(run, nameOf)) {
    put(`volume ${each}${how}`, `final volume of ${each}${how}`, millilitres(vessel.liquid.volume));
    for (const { drug, concentration } of contentsOf(run, vessel)) {
      const what = `${nameOf(drug)} in ${each}`;
      put(`concentration ${what}${how}`, `concentration of ${what}${how}`, concentration);
    }
  }
}

function putRates(run: Run, put: Put, nameOf: (name: string) => string): void {
  for (const row of rateTable(run, false)?.rows ?? []) {
    for (const { from } of row) {
      if (from.kind !== "bench") continue;
      const [word = "", drug] = from.figure.split(" ");
      if (from.figure === "pump rate") put("pump rate", "pump rate", from.value);
      else if (word === "rate" && drug) {
        put(`rate ${nameOf(drug)}`, `${nameOf(drug)} per hour`, from.value, { size: rateSize(run, drug, from.value) });
      }
    }
  }
}

/** What runs in an hour in the unit in which the bench keeps the drug: as much of the rate as of the amount in the container. */
function rateSize(run: Run, drug: string, rate: Quantity): Quantity | undefined {
  const [vessel] = alike(run).map((a) => a.vessel);
  const content = vessel && contentsOf(run, vessel).find((c) => c.drug === drug);
  const kind = run.setup.kinds.get(drug);
  const held = vessel?.liquid.amounts.get(drug);
  const amount = content && inBase(content.amount);
  if (!amount || !kind || !held || amount.isZero()) return undefined;
  const { unit } = findUnit(`${kindUnits[kind].spelling}/h`);
  return unit && { value: held.times(inBase(rate)).over(amount).over(unit.factor).times(kindUnits[kind].factor), unit };
}

/** The shortest limit of policy, stability and opened products; the expiry of lots is the shelf's and changes without an edit. */
function putLimits(
  run: Run,
  around: ReturnType<Library["surroundings"]>,
  put: Put,
  nameOf: (name: string) => string,
): void {
  const hour = findUnit("h").unit!;
  for (const { vessel, each } of kindsOf(run, nameOf)) {
    const preparation = run.recipe.preparations.find((p) => p.name.name === vessel.name);
    const own = each === nameOf(vessel.name) ? "" : ` for ${each}`;
    const drugs = finished(run).find((each) => each.vessel === vessel)?.drugs ?? [];
    for (const { slots } of preparation?.facts.all("use-within") ?? []) {
      const place = slots.place.name;
      const { all } = useLimits(run, vessel, place, around);
      const binding = all.find((limit) => limit.limits && limit.kind !== "expiry");
      if (!binding) continue;
      const what = `longest limit of use at ${place} that policy, stability and opened products allow${own}`;
      const time = binding.time ?? { value: binding.hours, unit: hour };
      const isCovered = drugs.every((drug) => all.some((l) => l.kind === "stability" && l.name === drug.name.name));
      put(`limit ${each} ${place}`, what, time, {
        isDerived: true,
        ...(isCovered ? {} : { isUncovered: true }),
      });
    }
  }
}
