/** The dose that the order asks for: worked out, rounded, then capped. */

import { CannotBeDone } from "./bench-top.ts";
import { amountOf } from "./facts.ts";
import type { Fraction } from "./fraction.ts";
import type { Program, Weight } from "./program.ts";

/** In the measure that the drug's products are labelled in. */
export function doseOf(program: Program, drug: string, weight: Weight): Fraction {
  const { order } = program;
  const ordered = order.doses.find((each) => each.drug === drug);
  if (!ordered) throw new CannotBeDone(`no dose of ${drug} is ordered`);
  const stated = amountOf(program, drug, ordered.figure);
  if (!stated) throw new CannotBeDone(`the dose of ${drug} cannot be worked out`);
  let dose = ordered.perKilogram ? stated.times(weight!) : stated;
  if (order.round) dose = dose.nearest(order.round.value);
  if (order.maximum) dose = dose.least(order.maximum.value);
  return dose;
}
