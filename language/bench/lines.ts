/**
 * Lines that are filled before a container is given: fixed to an infusor or cassette, or a set that is connected. Whether what a line
 * holds counts in the ordered volume is the order's to say (`final-volume 230 mL line included`).
 */
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { volumeOf } from "../quantities/quantity.ts";
import type { Bench } from "./bench.ts";
import { type Liquid, pour, takePart } from "./liquid.ts";
import type { Part, Vessel } from "./things.ts";

/** mL that the line fixed to a container holds by its label. */
export function fixedLine({ stock }: Vessel): Exact | undefined {
  return volumeOf(stock?.facts.one("priming-volume")?.slots.volume.quantity);
}

/** The container lets its own liquid run into the line that is fixed to it. */
export function fillOwnLine(bench: Bench, vessel: Vessel, spot: Spot): void {
  const holds = fixedLine(vessel);
  if (!holds) {
    bench.note("figure-not-known", spot, {
      figure: "priming volume",
      why: `${vessel.stock?.name.name ?? vessel.name} states no \`priming-volume\``,
    });
    bench.unknown = true;
    return;
  }
  const held = vessel.liquid.volume;
  if (holds.isAbove(held)) bench.note("draw-beyond-content", spot, { vessel, asked: holds, held });
  const filled = Exact.least(holds, held);
  const counted = bench.options.line !== "excluded";
  vessel.lines.push({ name: vessel.name, holds, filled, counted, spot });
  // Unless the order leaves it out, it stays part of the content, wherever it stands; an order that does not say is told so.
  if (counted || !filled.isPositive()) return;
  const { taken, left } = takePart(vessel.liquid, filled);
  vessel.liquid = left;
  move(bench, vessel, undefined, filled, taken, spot);
}

/** A set is connected: what it was filled with counts in the volume where the order says so. */
export function connectLine(bench: Bench, set: Part, vessel: Vessel, spot: Spot): void {
  if (set.kind !== "tubing" || !bench.isFinal(vessel)) return;
  const holds = volumeOf(set.device.facts.one("priming-volume")?.slots.volume.quantity);
  const { primed } = set;
  const filled = primed && (holds ? Exact.least(holds, primed.volume) : primed.volume);
  const counted = bench.options.line === "included";
  vessel.lines.push({ name: set.name, holds, filled, counted, spot });
  if (!primed || !filled?.isPositive()) return;
  const { taken } = takePart(primed, filled);
  const after = pour(vessel.liquid, taken);
  const { liquid } = vessel;
  const present = { drugs: liquid.drugs, fluids: [...liquid.fluids.keys()], volume: liquid.volume };
  bench.note("addition", spot, { vessel, drugs: taken.drugs, fluids: [...taken.fluids.keys()], present, after });
  if (!counted) return;
  if (!holds) {
    bench.note("figure-not-known", spot, {
      figure: "priming volume",
      why: `${set.device.name.name} states no \`priming-volume\``,
    });
    bench.unknown = true;
    return;
  }
  vessel.liquid = after;
  move(bench, undefined, vessel, filled, taken, spot);
}

/** mL of what counts as held by a container that stand in its lines. */
export function inLines({ lines }: Vessel): Exact {
  return lines.reduce((sum, { filled, counted }) => (filled && counted ? sum.plus(filled) : sum), Exact.zero);
}

function move(
  bench: Bench,
  from: Vessel | undefined,
  to: Vessel | undefined,
  moved: Exact,
  liquid: Liquid,
  spot: Spot,
): void {
  bench.current.movements.push({ how: "line", from, to, asked: moved, moved, liquid, spot });
}
