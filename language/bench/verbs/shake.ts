/** `shake vials until dissolved`, `shake vial until suspended up to 1 min`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { dissolved, mixingEnds, untilWords, watchEnd, watchShaken } from "./mixing.ts";

export const shake = verb({
  word: "shake",
  form: `<things:names> until <end:${mixingEnds}> [up to <time?:measure>]`,
  about: "Shakes a vial, where its label says so, until the powder is dissolved or evenly suspended.",
  act(bench, slots, run) {
    watchEnd(bench, slots.things, slots.end);
    watchShaken(bench, bench.vessels(slots.things), slots.things[0]!);
    dissolved(bench, slots.things, run, slots.end.choice);
  },
  sentence: (slots) => `Shake ${spoken(slots.things)}${untilWords(slots.end, slots.time)}.`,
  cautions: [
    {
      text: "Full dissolution, and foam settled, before the first draw. Shake only what its label lets be shaken.",
      rows: ["recon-dissolve-before-draw", "shake-vs-swirl"],
    },
  ],
});
