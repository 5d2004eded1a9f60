/** A program as it stands for one patient: with the lines and steps that hold for this one alone. */
import { amountOf } from "./facts.ts";
import type { Figure } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Condition, Patient, Program, Row } from "./program.ts";

/** Every value of the order's range, one after another; just one run where it has none. */
export function patientsOf({ order }: Program): Patient[] {
  if (!order.range) return [undefined];
  const { from, to, step } = order.range;
  const all: Fraction[] = [];
  for (let at = from.value; at.against(to.value) <= 0; at = at.plus(step.value)) all.push(at);
  return all;
}

/** @param dose the given dose in the measure of its drug's products; undefined where none can be worked out */
export function holds(
  condition: Condition | undefined,
  program: Program,
  at: Patient,
  dose: Fraction | undefined,
): boolean {
  if (!condition) return true;
  const first = program.order.doses[0];
  const inMeasure = ({ value, unit }: Figure): Fraction | undefined =>
    condition.of === "dose" ? first && amountOf(program, first.drug, { ...first.figure, value, unit }) : value;
  const value = condition.of === "dose" ? dose : at;
  if (value === undefined) return false;
  const past = (end: Figure | undefined, is: (sign: number) => boolean): boolean => {
    if (!end) return true;
    const limit = inMeasure(end);
    return limit !== undefined && is(Math.sign(value.against(limit)));
  };
  return (
    past(condition.from, (sign) => sign >= 0) &&
    past(condition.above, (sign) => sign > 0) &&
    past(condition.upTo, (sign) => sign <= 0) &&
    past(condition.below, (sign) => sign < 0)
  );
}

/** The figure of a row for this patient. */
export function rowFigure({ figure, perKilogram }: Row, at: Patient): Fraction {
  return perKilogram ? figure.value.times(at ?? Fraction.one) : figure.value;
}

export function forPatient(program: Program, at: Patient, dose: Fraction | undefined): Program {
  if (!program.order.range) return program;
  const held = <T extends { when?: Condition }>(list: readonly T[]): T[] =>
    list.filter(({ when }) => holds(when, program, at, dose));
  const { order, preparation } = program;
  return {
    ...program,
    materials: held(program.materials),
    actions: program.actions.map((action) => (holds(action.when, program, at, dose) ? action : { do: "skipped" })),
    order: {
      ...order,
      doses: held(order.doses),
      ...(order.diluentVolumes ? { diluentVolumes: held(order.diluentVolumes) } : {}),
    },
    preparation: { concentrations: held(preparation.concentrations), volumes: held(preparation.volumes) },
  };
}
