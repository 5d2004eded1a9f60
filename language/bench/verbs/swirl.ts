/** `swirl vials until dissolved`; of a suspension `swirl vials until suspended`. */

import type { Bench } from "../bench.ts";
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { dissolved } from "./dissolved.ts";

export const swirl = verb({
  word: "swirl",
  form: "<things:names> until <end:dissolved|suspended> [up to <time?:measure>]",
  about: "Swirls a vial until the powder is dissolved, or evenly suspended, and foam has settled.",
  act(bench, slots, run) {
    for (const name of slots.things) {
      // Of many alike the first stands for all.
      const [vessel] = bench.vessels([name]);
      const other = vessel?.liquid.drugs.find(
        (drug) => isSuspension(bench, drug) !== (slots.end.choice === "suspended"),
      );
      if (vessel && other)
        bench.note("swirled-to-other-end", slots.end, { vessel, drug: other, end: slots.end.choice });
    }
    dissolved(bench, slots.things, run);
  },
  sentence: (slots) =>
    `Swirl ${spoken(slots.things)} until ${slots.end.choice === "suspended" ? "evenly suspended" : "dissolved"}${slots.time ? `, up to ${slots.time.written}` : ""}.`,
  cautions: [
    {
      text: "Full dissolution, and foam settled, before the first draw. Swirl, do not shake.",
      rows: ["recon-dissolve-before-draw", "shake-vs-swirl"],
    },
  ],
});

/** A powder is dissolved unless its monograph calls what comes of it a suspension. */
function isSuspension(bench: Bench, drug: string): boolean {
  return bench.setup.drugs.get(drug)?.facts.one("nature")?.slots.nature.choice === "suspension";
}
