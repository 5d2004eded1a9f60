/** The rows of an order that hold for a patient and dose, and what they are asked about: the patient's figures, the doses. */
import type { BoundSlot, ConditionSlot, MeasureSlot, NameSlot, Spot } from "../model/slots.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import type { WorkingLine } from "./working-line.ts";

/** A value for each input of the order, by its word: `weight` → 60 kg. */
export type OrderPoint = ReadonlyMap<string, Quantity>;

export interface OrderedDose extends Spot {
  drug: string;
  /** The dose given: calculated, then rounded, then capped. Undefined where it cannot be calculated. */
  given: Quantity | undefined;
  calculated: Quantity | undefined;
  /** What the rounding of the order made of it, before it was capped; absent where none is stated. */
  rounding?: { from: Quantity; to: Quantity };
  ion: string | undefined;
  as: string | undefined;
  per: { container: string } | { time: MeasureSlot };
  measure: MeasureSlot;
  /** Derived from an ordered concentration and final volume: the content of a reservoir, not what a patient gets at once. */
  byConcentration?: boolean;
  working: WorkingLine[];
  /** Why it could not be calculated. */
  missing: string | undefined;
  /** A finding about the order names what is missing, so that no step has to. */
  toldInOrder?: true;
}

/** Of rows told apart by their conditions the one that holds for this patient and dose; that it is just one is checked elsewhere. */
export function rowAt<R extends { when: ConditionSlot | undefined }>(
  rows: readonly R[] | undefined,
  { point, doses }: { point: OrderPoint; doses: readonly OrderedDose[] },
): R | undefined {
  return rows?.find(({ when }) => !when || holds(when, point, doses) === true);
}

/** Of rows told apart by their conditions all that hold for this patient and dose. */
export function rowsAt<R extends { when: ConditionSlot | undefined }>(
  rows: readonly R[],
  { point, doses }: { point: OrderPoint; doses: readonly OrderedDose[] },
): readonly R[] {
  return rows.some(({ when }) => when) ? rows.filter(({ when }) => !when || holds(when, point, doses) === true) : rows;
}

/** Rows for this container, or else those that name none. */
export function rowsOf<R extends { slots: { container?: NameSlot } }>(rows: readonly R[], container: string): R[] {
  const own = rows.filter(({ slots }) => slots.container?.name === container);
  return own.length > 0 ? own : rows.filter(({ slots }) => !slots.container);
}

/** Whether a condition holds at a point; `dose` means the dose given. Undefined when a figure is missing. */
export function holds(condition: ConditionSlot, point: OrderPoint, doses: readonly OrderedDose[]): boolean | undefined {
  const input = condition.input.name;
  const value = input === "dose" ? doses[0]?.given : point.get(input);
  return value ? within(value, condition.bound) : undefined;
}

/** Whether a quantity lies in a bound; undefined where an end cannot be compared with it. */
export function within(value: Quantity, bound: BoundSlot): boolean | undefined {
  for (const [end, sign] of [
    [bound.low, 1],
    [bound.high, -1],
  ] as const) {
    if (!end) continue;
    const limit = end.measure.quantity;
    if (!limit || limit.unit.dimension !== value.unit.dimension) return undefined;
    const order = inBase(value).compare(inBase(limit)) * sign;
    if (order < 0 || (order === 0 && !end.included)) return false;
  }
  return true;
}
