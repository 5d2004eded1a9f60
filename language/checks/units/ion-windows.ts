/** Windows of an ion, `dose up to 40 mmol of potassium`, beside all of it that a finished container gives: by drugs, products and fluids. */
import { kindOf, kindUnits } from "../../bench/amounts.ts";
import { holds, type OrderPoint, within } from "../../bench/order-rows.ts";
import { volumeGiven } from "../../bench/rates.ts";
import { oncePerRun } from "../../bench/remembered-run.ts";
import type { Run } from "../../bench/run.ts";
import { allOf } from "../../bench/spoken.ts";
import { brings, ionHeld, ionIn } from "../../bench/targets.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { asBodyWeight, over, type Quantity } from "../../quantities/quantity.ts";
import { followsDose } from "../limits/follows-dose.ts";
import { isSameRoute } from "../limits/route-words.ts";
import { amount } from "../showing.ts";
import { isDoseSlip } from "../slips.ts";
import { type JudgedDose, limitOf, windowText } from "./dose-windows.ts";

export interface JudgedIon {
  at: Spot;
  /** The drug that declares the windows. */
  drug: Drug;
  vessel: Vessel;
  ion: string;
  /** `potassium`, or `potassium (chlorides 10 mmol and phosphates 22 mmol)`. */
  name: string;
  /** Rows that measure alike; one that holds is enough. */
  windows: JudgedDose["windows"];
  /** What is given of it; undefined where nobody knows how much there is, or how much of the container is given. */
  given: Quantity | undefined;
  /** How much of it the container holds is known. */
  isHeldKnown: boolean;
}

type Row = ReturnType<typeof rowsOf>[number];

function rowsOf(drug: Drug, { point, doses }: Run) {
  return drug.facts
    .all("dose")
    .filter(({ slots, when }) => slots.ion !== undefined && (!when || holds(when, point, doses) !== false));
}

/** Each ion's windows of a container once, though several of its drugs state them alike. */
export const judgedIons = oncePerRun(judgedIn);

function judgedIn(run: Run): JudgedIon[] {
  if (run.unknown || isReservoir(run)) return [];
  const found = new Map<string, JudgedIon>();
  for (const vessel of run.finals) {
    for (const name of vessel.liquid.drugs) {
      const drug = run.setup.drugs.get(name);
      if (!drug) continue;
      for (const rows of alike(rowsOf(drug, run), run)) {
        const judged = judge(rows, drug, vessel, run);
        const texts = rows.map(({ slots }) => windowText(slots.limits)).join();
        const key = `${vessel.name} ${rows[0]?.slots.ion?.name} ${texts}`;
        if (judged && !found.has(key)) found.set(key, judged);
      }
    }
  }
  return [...found.values()];
}

/** What a reservoir holds is no dose: nobody gets it at once. */
function isReservoir({ recipe, doses }: Run): boolean {
  const isAtOnce = recipe.order?.one("use")?.slots.use.choice === "bolus";
  return !isAtOnce && doses.length > 0 && doses.every(({ byConcentration }) => byConcentration);
}

/** Rows of one ion that measure alike; those for the route of the order go before those for any route. */
function alike(rows: readonly Row[], { recipe }: Run): Row[][] {
  const route = recipe.order?.one("route")?.slots.route.name ?? "";
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    if (row.slots.route && !isSameRoute(row.slots.route.name, route)) continue;
    const key = `${row.slots.ion?.name} ${limitOf(row.slots.limits)?.unit.dimension.key}`;
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [...groups.values()].map((group) => {
    const own = group.filter(({ slots }) => slots.route);
    return own.length > 0 ? own : group;
  });
}

function judge(rows: readonly Row[], drug: Drug, vessel: Vessel, run: Run): JudgedIon | undefined {
  const [row] = rows;
  const ion = row?.slots.ion?.name;
  const limit = row && limitOf(row.slots.limits);
  const kind = limit && kindOf(limit);
  // `any` is a decision, not a figure to compare with.
  if (ion === undefined || !kind) return undefined;
  // Where the dose of a drug that brings it is told as one that nobody would give, this would be that again.
  if (vessel.liquid.drugs.some((each) => isDoseSlip(each, run) && brings(each, ion, run))) return undefined;
  const held = ionHeld(vessel, ion, kind, run);
  const share = shareGiven(vessel, run);
  const given = held && share ? { value: held.times(share), unit: kindUnits[kind] } : undefined;
  const value = given && measuredAs(limit, given, run.point);
  const windows = rows.map(({ slots: { limits: window } }) => ({
    window,
    value,
    shown: given ?? limit,
    fits: value && within(value, window),
  }));
  const sideAt = (factor: Exact) =>
    value && rows.some((r) => within({ ...value, value: value.value.times(factor) }, r.slots.limits))
      ? undefined
      : "unknown";
  if (windows.every((each) => each.fits === false) && followsDose(drug.name.name, vessel, run, "rate", sideAt))
    return undefined;
  const parts = ionIn(vessel, ion, kind, run).parts.map((part) => `${part.source} ${amount(part.amount, kind)}`);
  const name = parts.length > 1 ? `${ion} (${allOf(parts)})` : ion;
  return { at: placeOf(drug, run), drug, vessel, ion, name, windows, given, isHeldKnown: held !== undefined };
}

/** An amount, an amount per kg, or an amount per m2. */
function measuredAs({ unit }: Quantity, given: Quantity, point: OrderPoint): Quantity | undefined {
  const weight = point.get("weight");
  const perWeight = weight && asBodyWeight(weight);
  const surface = point.get("body-surface");
  const ways = [given, perWeight && over(given, perWeight), surface && over(given, surface)];
  return ways.find((way) => way?.unit.dimension === unit.dimension);
}

/** Of what the container holds, 1 where it is given as a whole. */
function shareGiven(vessel: Vessel, run: Run): Exact | undefined {
  const { volume } = vessel.liquid;
  return volume.isPositive() ? volumeGiven(run, vessel)?.over(volume) : undefined;
}

/** The dose of the drug, or what the order says of the container. */
function placeOf({ name }: Drug, { doses, recipe }: Run): Spot {
  const { order } = recipe;
  return doses.find(({ drug }) => drug === name.name)?.measure ?? order?.one("target") ?? order?.spot ?? recipe.name;
}
