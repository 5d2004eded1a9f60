/** `swirl vials until dissolved`. */

import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { dissolved } from "./dissolved.ts";

export const swirl = verb({
  word: "swirl",
  form: "<things:names> until dissolved [up to <time?:measure>]",
  about: "Swirls a vial until the powder is dissolved and foam has settled.",
  act(bench, slots, run) {
    dissolved(bench, slots.things, run);
  },
  sentence: (slots) =>
    `Swirl ${spoken(slots.things)} until dissolved${slots.time ? `, up to ${slots.time.written}` : ""}.`,
  cautions: [
    {
      text: "Full dissolution, and foam settled, before the first draw. Swirl, do not shake.",
      rows: ["recon-dissolve-before-draw", "shake-vs-swirl"],
    },
  ],
});
