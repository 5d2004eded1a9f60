/** `swirl vials until dissolved`; of a suspension `swirl vials until suspended`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { dissolved, mixingEnds, untilWords, watchEnd } from "./mixing.ts";

export const swirl = verb({
  word: "swirl",
  form: `<things:names> until <end:${mixingEnds}> [up to <time?:measure>]`,
  about: "Swirls a vial until the powder is dissolved, or evenly suspended, and foam has settled.",
  act(bench, slots, run) {
    watchEnd(bench, slots.things, slots.end);
    dissolved(bench, slots.things, run, slots.end.choice);
  },
  sentence: (slots) => `Swirl ${spoken(slots.things)}${untilWords(slots.end, slots.time)}.`,
  cautions: [
    {
      text: "Full dissolution, and foam settled, before the first draw. Swirl, do not shake.",
      rows: ["recon-dissolve-before-draw", "shake-vs-swirl"],
    },
  ],
});
