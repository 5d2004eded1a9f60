/**
 * What a container weighs when it is filled, to be laid against a balance: each part of its liquid by its density, powder that was
 * dissolved by its mass, and the container itself. A part without a density leaves the weight open; none is assumed.
 */
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import type { Run } from "./run.ts";
import type { Vessel } from "./things.ts";

export interface Weight {
  /** g; undefined where a density is missing. */
  content: Exact | undefined;
  /** g, with the container; undefined where its empty weight is not declared. */
  filled: Exact | undefined;
  /** Each part: how many mL at which g/mL, or how many g of powder. */
  parts: readonly { name: string; volume: Exact | undefined; density: Exact | undefined; mass: Exact }[];
  lacks: readonly string[];
}

export function filledWeight(vessel: Vessel, run: Run): Weight {
  const parts: Weight["parts"][number][] = [];
  const lacks: string[] = [];
  for (const [name, volume] of vessel.liquid.fluids) {
    if (volume.isZero()) continue;
    const density = densityOf(name, vessel, run);
    if (density) parts.push({ name, volume, density, mass: volume.times(density) });
    else lacks.push(densityLack(name, run));
  }
  for (const [name, held] of vessel.liquid.amounts) {
    // A drug that came as a liquid is weighed with its vehicle above.
    if (!run.setup.drugs.has(name) || vessel.liquid.fluids.has(name) || held.isZero()) continue;
    if (run.setup.kinds.get(name) === "mass") parts.push({ name, volume: undefined, density: undefined, mass: held });
    else lacks.push(`the mass of ${name} is not known, it is counted in units`);
  }
  const content = lacks.length === 0 ? parts.reduce((sum, part) => sum.plus(part.mass), Exact.zero) : undefined;
  const empty = grams(vessel.stock?.facts.one("empty-weight")?.slots.weight);
  if (!empty) lacks.push(`${vessel.stock?.name.name ?? vessel.name} states no \`empty-weight\``);
  return { content, filled: content && empty && content.plus(empty), parts, lacks };
}

function grams(slot: MeasureSlot | undefined): Exact | undefined {
  return slot?.quantity?.unit.dimension.key === "mass" ? inBase(slot.quantity) : undefined;
}

function perMillilitre(slot: MeasureSlot | undefined): Exact | undefined {
  return slot?.quantity?.unit.dimension.key === "mass/volume" ? inBase(slot.quantity) : undefined;
}

/** Of a fluid, its own; of a drug's solution, that of the stocks that went in, where all of them state the same. */
function densityOf(name: string, vessel: Vessel, run: Run): Exact | undefined {
  const fluid = run.setup.fluids.get(name);
  const stocks = [...run.groups.values()].flatMap(({ item }) => {
    if (item?.kind !== "stock" || !vessel.liquid.stocks.includes(item.name.name)) return [];
    const holds = fluid ? item.facts.one("fluid")?.slots.fluid.name : item.facts.one("drug")?.slots.drug.name;
    return holds === name ? [perMillilitre(item.facts.one("density")?.slots.density)] : [];
  });
  const [first, ...others] = stocks;
  if (first && others.every((other) => other?.equals(first))) return first;
  if (stocks.some((stated) => stated)) return undefined; // some state one and others do not, or another: nobody knows which was used
  return perMillilitre(fluid?.facts.one("density")?.slots.density);
}

function densityLack(name: string, run: Run): string {
  return run.setup.fluids.has(name)
    ? `fluid ${name} states no \`density\``
    : `the stocks of ${name} do not all state the same \`density\``;
}
