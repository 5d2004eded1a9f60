/** Liquid leaves a container through tubing that goes into it: what its label lets one take, and what is noticed there. */
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import type { Bench } from "./bench.ts";
import { availableIn } from "./drawing.ts";
import { pierce, watchContent } from "./entering.ts";
import { type Liquid, takePart } from "./liquid.ts";
import { countOverfill } from "./overfill.ts";
import type { Vessel } from "./things.ts";

/** Tubing goes into a container that liquid is to come from. */
export function enterSource(bench: Bench, source: Vessel, spot: Spot): void {
  if (source.kind === "ampoule" && !source.opened) bench.note("ampoule-not-opened", spot, { vessel: source });
  pierce(bench, source, spot);
  if (source.sealed) bench.note("touched-after-seal", spot, { vessel: source, since: source.sealed });
}

/**
 * @param asked mL
 * @param at the figure that asks, where there is one
 * @returns what leaves, less where the container gives less; undefined where it gives nothing
 */
export function letOut(
  bench: Bench,
  source: Vessel,
  asked: Exact,
  { at, spot }: { at: Spot | undefined; spot: Spot },
): { taken: Liquid; moved: Exact } | undefined {
  if (source.undissolved) bench.note("drawn-before-dissolved", spot, { vessel: source, since: source.undissolved });
  if (source.unmixed) bench.note("drawn-before-mixed", spot, { vessel: source, since: source.unmixed });
  const held = availableIn(source);
  if (asked.isAbove(held) && watchContent(bench, source, spot))
    bench.note("draw-beyond-content", at ?? spot, { vessel: source, asked, held });
  const moved = Exact.least(asked, held);
  if (!moved.isPositive()) return undefined;
  countOverfill(bench, source);
  const { taken, left } = takePart(source.liquid, moved);
  source.liquid = left;
  if (source.yields) source.yields = source.yields.minus(moved);
  source.inspected = undefined;
  return { taken, moved };
}
