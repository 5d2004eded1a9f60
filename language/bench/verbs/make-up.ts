/** `make up working to 10 mL with saline using syringe giving 25 mcg/mL`, `make up bag to final-volume with saline`: to a final volume. */
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { drawUp } from "../drawing.ts";
import { pierce, watchContent } from "../entering.ts";
import { type Liquid, takePart } from "../liquid.ts";
import { moveInLoads } from "../loads.ts";
import { receive } from "../pushing.ts";
import { manner, millilitres, shortened, showVolume } from "../spoken.ts";
import type { StepRun } from "../step-run.ts";
import { verb } from "../verb.ts";

export const makeUp = verb({
  word: "make",
  form: "up <target:name> to (<volume?:measure> | <ordered?:final-volume>) with <source:name> [using <syringe?:name>] [at <pressure?:equal pressure|negative pressure>]",
  about:
    "Fills up to a final volume with the named liquid. Drawn into a syringe, its scale is the measure, and the vial is let air in unless the step says otherwise; into a bag, name the syringe.",
  moves: true,
  act(bench, slots, run) {
    const target = bench.vessel(slots.target);
    const sources = bench.vessels([slots.source]);
    const [source] = sources;
    if (!target || !source) return;
    const at = (slots.volume ?? slots.ordered)!;
    const wanted = slots.ordered ? bench.options.finalVolume(target.name) : slots.volume?.quantity;
    if (slots.ordered && !wanted) {
      const why = `the order states no \`final-volume\` of ${target.name} that is known here`;
      bench.note("figure-not-known", at, { figure: "final-volume", why });
    }
    if (wanted?.unit.dimension.key !== "volume") {
      bench.unknown = true;
      return;
    }
    run.result = target;
    const rest = inBase(wanted).minus(target.liquid.volume);
    if (!rest.isPositive()) {
      bench.note("volume-below-zero", at, { vessel: target, wanted: inBase(wanted), held: target.liquid.volume });
      return;
    }
    const ask = { volume: rest, stated: undefined, toMark: target.kind === "syringe" };
    if (target.kind === "syringe") {
      const before: Liquid = target.liquid;
      // An opened ampoule takes air by itself.
      const air = slots.pressure?.choice ?? (source.kind === "ampoule" ? undefined : "equal pressure");
      drawUp(bench, sources, target, ask, at, air, true);
      if (before.volume.isPositive()) target.unmixed = run;
      return;
    }
    const syringe = slots.syringe ? bench.syringe(slots.syringe) : undefined;
    if (syringe) {
      const ends = { drawn: at, filled: slots.target, pressure: slots.pressure?.choice };
      moveInLoads(bench, { from: sources, syringe, to: target, ask, ...ends });
      return;
    }
    const moved = Exact.least(rest, source.liquid.volume);
    if (rest.isAbove(source.liquid.volume) && watchContent(bench, source, slots.source)) {
      bench.note("draw-beyond-content", slots.source, { vessel: source, asked: rest, held: source.liquid.volume });
    }
    if (!moved.isPositive()) return;
    pierce(bench, source, slots.source);
    pierce(bench, target, slots.target);
    const { taken, left } = takePart(source.liquid, moved);
    source.liquid = left;
    receive(bench, target, taken, slots.target);
    run.moved = moved;
    const { start, end } = slots.target;
    run.movements.push({
      how: "transfer",
      from: source,
      to: target,
      asked: rest,
      moved,
      liquid: taken,
      spot: { start, end },
    });
  },
  sentence: (slots, run) =>
    `Make up ${slots.target.name} to ${slots.volume?.written ?? madeUpTo(run)} with ${slots.source.name} (${showVolume(run)})${slots.syringe ? `, using ${slots.syringe.name}` : ""}${manner(slots)}.`,
  cautions: [{ text: "To the mark, at eye level." }],
});

/** The ordered volume as the bench knows it: all that the container then holds. */
function madeUpTo({ result, after }: StepRun): string {
  const held = result && after.get(result)?.volume;
  return held ? millilitres(shortened(held.plain())) : "the ordered final volume";
}
