/**
 * Two ions that fall out together, such as calcium and phosphate: how strong both are at each addition, over all their sources, at
 * the volume that is there just then. The library declares what stays clear (`together` rows of a drug); a pair that lies within
 * no row is not cleared.
 */
import { kindOf, kindUnits } from "../../bench/amounts.ts";
import { oncePerRun } from "../../bench/remembered-run.ts";
import { happened, type Run } from "../../bench/run.ts";
import { ionIn } from "../../bench/targets.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { compareQuantities, over, type Quantity, sameDimension } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";

type TogetherFact = ReturnType<typeof togetherOf>[number];

interface Row {
  drug: Drug;
  fact: TogetherFact;
}

function togetherOf(drug: Drug) {
  return drug.facts.all("together");
}

export interface IonsMet {
  addition: ReturnType<typeof happened<"addition">>[number];
  vessel: Vessel;
  one: string;
  other: string;
  rows: readonly Row[];
  /** Strength of each ion in the unit of the rows, or in mmol/L where there is none; undefined where it cannot be computed. */
  oneNow: Quantity | undefined;
  otherNow: Quantity | undefined;
  /** Why a strength is not known. */
  unknown: string | undefined;
}

/** Pairs that are watched even where the library says nothing of them. */
const alwaysWatched: readonly (readonly [string, string])[] = [["calcium", "phosphate"]];

/** Every addition after which both ions of a pair are in one container. */
export const ionsMet = oncePerRun(metIn);

function metIn(run: Run): readonly IonsMet[] {
  if (run.unknown) return [];
  const rows: Row[] = [...run.setup.drugs.values()].flatMap((drug) => togetherOf(drug).map((fact) => ({ drug, fact })));
  const pairs = new Map(alwaysWatched.map((pair) => [pair.join(" "), pair]));
  for (const { fact } of rows) {
    const [one, other] = [fact.slots.one.name, fact.slots.other.name];
    if (!pairs.has(`${other} ${one}`)) pairs.set(`${one} ${other}`, [one, other]);
  }
  const found: IonsMet[] = [];
  for (const addition of happened(run, "addition")) {
    const vessel = { ...addition.data.vessel, liquid: addition.data.after };
    for (const [one, other] of pairs.values()) {
      const own = rows.filter(({ fact }) => isPair(fact, one, other));
      const first = strength(vessel, one, own[0] && limitOf(own[0].fact, one), run);
      const second = strength(vessel, other, own[0] && limitOf(own[0].fact, other), run);
      if (!first.there || !second.there) continue;
      const unknown = first.unknown ?? second.unknown;
      found.push({ addition, vessel, one, other, rows: own, oneNow: first.now, otherNow: second.now, unknown });
    }
  }
  return found;
}

function isPair({ slots }: TogetherFact, one: string, other: string): boolean {
  return [slots.one.name, slots.other.name].sort().join() === [one, other].sort().join();
}

export function limitOf({ slots }: TogetherFact, ion: string): MeasureSlot {
  return slots.one.name === ion ? slots.most : slots.limit;
}

/** mmol in a litre unless a row counts otherwise. */
function strength(vessel: Vessel, ion: string, limit: MeasureSlot | undefined, run: Run) {
  const kind = (limit?.quantity && kindOf(limit.quantity)) ?? "moles";
  const sum = ionIn(vessel, ion, kind, run);
  const there = sum.parts.length > 0 || sum.unknown.length > 0;
  if (!there || sum.unknown.length > 0 || !vessel.liquid.volume.isPositive()) {
    return { there, now: undefined, unknown: sum.unknown[0] };
  }
  const amount = { value: sum.total, unit: kindUnits[kind] };
  return { there, now: over(amount, { value: vessel.liquid.volume, unit: findUnit("mL").unit! }), unknown: undefined };
}

/** True when some row clears both strengths; undefined when no row can be compared with them. */
export function cleared({ one, other, oneNow, otherNow, rows }: IonsMet): boolean | undefined {
  if (!oneNow || !otherNow) return undefined;
  let compared = false;
  for (const { fact } of rows) {
    const sides = [
      [oneNow, limitOf(fact, one).quantity],
      [otherNow, limitOf(fact, other).quantity],
    ] as const;
    if (!sides.every(([now, limit]) => limit && sameDimension(now, limit))) continue;
    compared = true;
    if (sides.every(([now, limit]) => compareQuantities(now, limit!) <= 0)) return true;
  }
  return compared ? false : undefined;
}
