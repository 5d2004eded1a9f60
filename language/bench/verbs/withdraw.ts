/** `withdraw added-volume from bag using syringe and discard`: takes fluid out before the additive goes in. */
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import type { Ask } from "../bench.ts";
import { waste } from "../drawing.ts";
import { scaled } from "../liquid.ts";
import { meanOverfill } from "../overfill.ts";
import { showEach, showVolume } from "../spoken.ts";
import type { Vessel } from "../things.ts";
import { verb } from "../verb.ts";
import { vesselKey } from "../vessels.ts";
import { targets } from "./inject.ts";

function withOverfill(bag: Vessel, overfill: Exact): void {
  const { volume } = bag.liquid;
  if (volume.isPositive()) bag.liquid = scaled(bag.liquid, volume.plus(overfill).over(volume));
}

export const withdraw = verb({
  word: "withdraw",
  form: "(<volume?:measure> | <figure?:added-volume and overfill|added-volume>) from [<each?:each of>] <bag:name> using <syringe:name> and discard",
  about:
    "Takes fluid out of a bag before the additive goes in: a volume, or just the volume that will be added (with the overfill).",
  moves: true,
  act(bench, slots, run) {
    const syringe = bench.syringe(slots.syringe);
    if (!syringe) return;
    for (const bag of targets(bench, slots.bag, slots.each)) {
      let ask: Ask;
      if (slots.figure) {
        let volume = bench.options.foresight.addedVolume.get(vesselKey(bag)) ?? Exact.zero;
        if (slots.figure.choice === "added-volume and overfill") {
          const mean = bag.stock && meanOverfill(bag.stock);
          if (!mean) {
            bench.note("figure-not-known", slots.figure, {
              figure: "overfill",
              why:
                bag.stock?.facts.one("overfill") || bag.stock?.facts.isUnread("overfill")
                  ? `the overfill of ${bag.name} cannot be read`
                  : `${bag.name} declares no overfill`,
            });
            bench.unknown = true;
          } else {
            volume = volume.plus(mean);
            // By the label the bag holds no overfill; what is taken out for it was never counted as being there.
            const isCounted = bench.options.foresight.overfilled.has(bag.name);
            if (bench.options.overfill === "label" && !isCounted) withOverfill(bag, mean);
          }
        }
        ask = { volume, stated: undefined };
      } else if (slots.volume?.quantity?.unit.dimension.key === "volume") {
        ask = { volume: inBase(slots.volume.quantity), stated: slots.volume };
      } else {
        bench.unknown = true;
        return;
      }
      if (ask.volume.isPositive()) waste(bench, bag, syringe, ask, slots.volume ?? slots.figure ?? slots.bag);
      run.result = bag;
      bench.demands.withdrawnFrom.set(vesselKey(bag), ask.volume);
    }
  },
  sentence: (slots, run) =>
    `Withdraw ${(slots.each ? showEach(run) : showVolume(run)) || slots.volume?.written} from ${slots.each ? "each of " : ""}${slots.bag.name} with ${slots.syringe.name} and discard it.`,
  cautions: [{ text: "Withdraw before the additive goes in, never after.", rows: ["additive-volume-method"] }],
});
