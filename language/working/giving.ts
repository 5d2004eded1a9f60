/** How what a finished container holds comes to the patient, as far as the order says it: one dose, or more than one must take at once. */
import { rowAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";

export type Giving = "one dose" | "part of it" | "titrated" | "at a rate" | "boluses";

/**
 * A bag that is given by bolus may hold one dose or many, and the order does not say: it must not be pushed as one. Nor is a container
 * one dose from which as much runs as its effect asks for, or which runs at a rate without an end.
 */
export function givingOf(run: Run, { kind }: Vessel): Giving {
  const { order } = run.recipe;
  const use = order?.one("use")?.slots.use.choice;
  if (use === "part-of-container") return "part of it";
  if (use === "titrated") return "titrated";
  if (rowAt(order?.all("infuse-at"), run) && !rowAt(order?.all("infuse-over"), run)) return "at a rate";
  return use === "bolus" && kind !== "syringe" ? "boluses" : "one dose";
}
