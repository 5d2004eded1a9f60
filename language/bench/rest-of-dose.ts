/** How much of a dose the steps before have drawn already. */
import type { Exact } from "../quantities/exact.ts";
import { isOneLiquid } from "./one-liquid.ts";
import { drawnFrom, type StepRun } from "./step-run.ts";
import type { Vessel } from "./things.ts";

/**
 * What steps before drew of a drug, from these containers and from others that hold the same liquid: the second ampoule goes on where
 * the first ended. Where those others alone gave a whole dose it was another one, and only these containers count.
 * @param from the containers that the rest is drawn from; @param wanted the whole dose, in base unit of the drug's kind as the result
 */
export function drawnOfDose(
  from: readonly (Vessel | undefined)[],
  drug: string,
  wanted: Exact,
  earlier: readonly StepRun[],
): Exact {
  const own = drawnFrom(new Set(from), drug, earlier);
  const stocks = from.flatMap((vessel) => vessel?.stock ?? []);
  const others = new Set<Vessel | undefined>();
  for (const { how, from: source } of earlier.flatMap(({ movements }) => movements)) {
    const stock = source?.stock;
    if (how !== "draw" || !stock || from.includes(source)) continue;
    if (stocks.some((each) => isOneLiquid(each, stock))) others.add(source);
  }
  if (others.size === 0) return own;
  const all = own.plus(drawnFrom(others, drug, earlier));
  return all.isBelow(wanted) ? all : own;
}
