/** Which stability rows of a drug hold for a finished container, and which condition fails where none does. */

import type { Drug } from "../model/declaration.ts";
import type { BoundSlot, MeasureSlot } from "../model/slots.ts";
import { isSameMaterial, isSamePlace } from "../model/usual-words.ts";
import { Exact } from "../quantities/exact.ts";
import { hours } from "../quantities/hours.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import { baseShare, isRefusal, strengthOf } from "./amounts.ts";
import { holds } from "./order-rows.ts";
import { oncePerRun, oncePerVessel } from "./remembered-run.ts";
import type { Run } from "./run.ts";
import { strength } from "./spoken.ts";
import type { Vessel } from "./things.ts";

export type StableRow = Drug["stable"][number];

export interface Judged {
  row: StableRow;
  /** What does not fit, in words; empty where the row holds. */
  misses: string[];
  /** The row speaks of another fluid. */
  inOtherFluid: boolean;
  /** The row speaks of another strength. */
  atOtherStrength: boolean;
  /** A condition could not be judged: the row neither holds nor fails. */
  unsure: boolean;
}

/** Every row of the drug against the container as it stands at the end, kept at `place`. */
export function judgeRows(drug: Drug, vessel: Vessel, place: string, run: Run): readonly Judged[] {
  const known = judgedBefore(vessel, run);
  const key = `${drug.name.name} ${place}`;
  let judged = known.get(key);
  if (!judged) {
    judged = judgeAll(drug, vessel, place, run);
    known.set(key, judged);
  }
  return judged;
}

const judgedBefore = oncePerVessel(() => new Map<string, readonly Judged[]>());

function judgeAll(drug: Drug, vessel: Vessel, place: string, run: Run): Judged[] {
  return drug.stable.filter((row) => speaksOf(row, vessel, run)).map((row) => judge(row, drug, vessel, place, run));
}

/** A row counted from the opening of the product's own pack says nothing of a mixture, only of the product drawn up as it is. */
function speaksOf(row: StableRow, vessel: Vessel, run: Run): boolean {
  if (row.one("counted-from")?.slots.event.choice !== "opening") return true;
  return vessel.liquid.stocks.length === 1 && mainFluid(vessel, run) === undefined;
}

function judge(row: StableRow, drug: Drug, vessel: Vessel, place: string, run: Run): Judged {
  const misses: string[] = [];
  const fluid = row.one("in")?.slots.fluid.name;
  const main = mainFluid(vessel, run);
  const fluids = mainFluids(vessel, run);
  if (fluid !== "any" && fluids.length > 1)
    misses.push(`in ${fluid === undefined ? "no stated fluid" : `${fluid} alone`}, not in ${fluids.join(" with ")}`);
  else if (fluid !== "any" && fluid !== main)
    misses.push(`in ${fluid ?? "no stated fluid"}, not ${main === undefined ? "undiluted" : `in ${main}`}`);
  const at = row.one("at")?.slots.place.name;
  if (at !== "any" && (at === undefined || !isSamePlace(at, place)))
    misses.push(`at ${at ?? "no stated place"}, not at ${place}`);
  const material = row.one("made-of")?.slots.material.name;
  const made = vessel.stock?.facts.one("made-of")?.slots.material.name;
  if (material !== "any" && (material === undefined || made === undefined || !isSameMaterial(material, made)))
    misses.push(`in ${material ?? "no stated material"}, not in ${made ?? "a container whose material is not said"}`);
  const light = row.one("light")?.slots.light.choice;
  if (light === undefined) misses.push("silent on light");
  if (light === "protected" && !vessel.covered) misses.push("kept from light, and no step covers it");
  const stated = row.one("concentration")?.slots;
  const fits = stated ? fitsBound(stated.limits, stated.salt?.name, drug, vessel, run) : "not stated";
  const held = concentrationText(drug, vessel, run, stated?.salt?.name);
  if (fits === "not stated") misses.push("silent on concentration");
  if (fits === "incomparable") misses.push(`for concentrations that cannot be compared with ${held}`);
  if (fits === false) misses.push(`at another concentration than ${held}`);
  return {
    row,
    misses,
    inOtherFluid: fluid !== "any" && fluid !== main,
    atOtherStrength: fits === false,
    unsure: fits === undefined,
  };
}

/** The fluid that makes up most of the container, with what else the order mixes it with: a study in one of two says nothing of both. */
export function mainFluids(vessel: Vessel, run: Run): string[] {
  const main = mainFluid(vessel, run);
  return main === undefined ? [] : [main, ...orderedBeside(main, vessel, run)];
}

function orderedBeside(main: string, { liquid }: Vessel, { recipe, point, doses }: Run): string[] {
  const ordered = (recipe.order?.all("diluent") ?? []).filter(
    ({ when }) => !when || holds(when, point, doses) === true,
  );
  const names = ordered.map(({ slots }) => slots.fluid.name);
  return [...new Set(names)].filter((name) => name !== main && liquid.fluids.get(name)?.isPositive());
}

/** The fluid that makes up most of the container, the drugs' own vehicles left aside. */
export const mainFluid = oncePerVessel(largestFluid);

function largestFluid(vessel: Vessel, run: Run): string | undefined {
  let main: string | undefined;
  let most = Exact.zero;
  for (const [name, volume] of vessel.liquid.fluids) {
    if (run.setup.drugs.has(name) || volume.isAtMost(most)) continue;
    main = name;
    most = volume;
  }
  return main;
}

/** @param as the form that it is counted in */
export function concentrationText(drug: Drug, vessel: Vessel, run: Run, as?: string): string {
  const name = drug.name.name;
  const held = vessel.liquid.amounts.get(name);
  const kind = run.setup.kinds.get(name) ?? "mass";
  if (!held) return "none";
  const share = as === undefined || kind !== "mass" ? undefined : baseShare(drug.substance, as);
  if (!share || isRefusal(share)) return strength(held, vessel.liquid.volume, kind);
  return `${strength(held.over(share), vessel.liquid.volume, kind)} as ${as}`;
}

/** Undefined where the run does not know the figures. What cannot be compared covers nothing. */
function fitsBound(
  bound: BoundSlot,
  as: string | undefined,
  drug: Drug,
  vessel: Vessel,
  run: Run,
): boolean | "incomparable" | undefined {
  if (!bound.low && !bound.high) return true;
  const name = drug.name.name;
  const kind = run.setup.kinds.get(name) ?? "mass";
  const held = vessel.liquid.amounts.get(name);
  if (run.unknown || !held || !vessel.liquid.volume.isPositive()) return undefined;
  const now = held.over(vessel.liquid.volume);
  for (const [end, sign] of [
    [bound.low, 1],
    [bound.high, -1],
  ] as const) {
    if (!end) continue;
    const limit = end.measure.quantity ? strengthOf(end.measure.quantity, kind, drug.substance, as) : undefined;
    if (!limit || isRefusal(limit)) return "incomparable";
    const side = now.compare(limit) * sign;
    if (side < 0 || (side === 0 && !end.included)) return false;
  }
  return true;
}

/** Whether the first time is surely or possibly longer; equal months are equal, whatever month it is. */
export function isLonger(first: MeasureSlot, second: MeasureSlot): boolean | undefined {
  return isLongerTime(first.quantity, second.quantity);
}

/** The same of quantities; undefined where one of them is no time. */
export function isLongerTime(a: Quantity | undefined, b: Quantity | undefined): boolean | undefined {
  if (a && b && a.unit.dimension === b.unit.dimension) return inBase(a).isAbove(inBase(b));
  const long = hours(a, 31);
  const short = hours(b, 28);
  return long && short ? long.isAbove(short) : undefined;
}

/** The finished containers with the drugs in them. */
export const finished = oncePerRun((run): readonly { vessel: Vessel; drugs: readonly Drug[] }[] =>
  run.finals.map((vessel) => ({
    vessel,
    drugs: vessel.liquid.drugs.flatMap((name) => run.setup.drugs.get(name) ?? []),
  })),
);
