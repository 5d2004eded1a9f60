/** `expel air from syringe`, `expel air from syringe to 8 mL`. */
import { inBase } from "../../quantities/quantity.ts";
import { noLiquid, takePart } from "../liquid.ts";
import { partReading } from "../reading.ts";
import { verb } from "../verb.ts";

export const expel = verb({
  word: "expel",
  form: "air from <syringe:name> [to <volume?:measure>]",
  about: "Pushes air out; with a volume, pushes out down to just that volume.",
  act(bench, slots) {
    const target = slots.volume?.quantity;
    for (const syringe of bench.syringes(slots.syringe)) {
      syringe.airExpelled = true;
      if (!target || !slots.volume) continue;
      const volume = inBase(target);
      const held = syringe.liquid.volume;
      if (volume.isAbove(held)) {
        bench.note("push-beyond-content", slots.volume, { syringe, asked: volume, held });
        continue;
      }
      // What leaves is what was drawn last, and no part of all.
      const { unmixed } = syringe;
      if (unmixed && volume.isBelow(held))
        bench.note("drawn-before-mixed", slots.volume, { vessel: syringe, since: unmixed, way: "expelled" });
      const kept = partReading(bench, syringe, { volume, stated: slots.volume }, slots.volume, "kept");
      syringe.liquid = kept.isPositive() ? takePart(syringe.liquid, kept).taken : noLiquid;
    }
  },
  sentence: (slots) =>
    `Expel air from ${slots.syringe.name}${slots.volume ? ` to exactly ${slots.volume.written}` : ""}.`,
  cautions: [{ text: "Expel into a sterile wipe or the empty container, away from the filter of the cabinet." }],
});
