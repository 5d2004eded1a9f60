/** `clamp set`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const clamp = verb({
  word: "clamp",
  form: "<things:names>",
  about: "Closes the clamp of a line.",
  act(bench, slots) {
    bench.things(slots.things);
  },
  sentence: (slots) => `Clamp ${spoken(slots.things)}.`,
});
