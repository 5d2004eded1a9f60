/**
 * Products whose `fluid` the library does not declare. That is told as an unknown name; what such a product fills a container with is
 * known by its volume and not by what it is, so that nothing is said of what the rest of the container is mostly made of.
 */
import { oncePerVessel } from "../bench/remembered-run.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { Exact } from "../quantities/exact.ts";
import { isTold } from "./consequences.ts";

/** Whether as much as any fluid that is known comes from a product of which the fluid is not declared, and that is told. */
export function isMostlyUndeclared(vessel: Vessel, run: Run): boolean {
  return isTold("unknown-name", run) && undeclared(vessel, run);
}

const undeclared = oncePerVessel(({ liquid }, run): boolean => {
  if (!liquid.stocks.some((name) => isUndeclared(name, run))) return false;
  const known = [...liquid.fluids.values()];
  const rest = liquid.volume.minus(known.reduce((sum, each) => sum.plus(each), Exact.zero));
  return known.every((each) => rest.isAtLeast(each));
});

function isUndeclared(stock: string, { groups, setup }: Run): boolean {
  for (const { item } of groups.values()) {
    if (item?.kind !== "stock" || item.name.name !== stock) continue;
    const fluid = item.facts.one("fluid")?.slots.fluid.name;
    return fluid !== undefined && !setup.fluids.has(fluid);
  }
  return false;
}
