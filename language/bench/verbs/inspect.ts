/** `inspect bag`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const inspect = verb({
  word: "inspect",
  form: "<things:names>",
  about: "Looks at a container against a white and a black background: leaks, particles, colour, phases.",
  act(bench, slots, run) {
    for (const name of slots.things) {
      for (const vessel of bench.vessels([name])) {
        if (vessel.unmixed) bench.note("left-unmixed", name, { vessel, since: vessel.unmixed, next: "inspect" });
        vessel.unmixed = undefined;
        vessel.inspected = run;
      }
    }
  },
  sentence: (slots) => `Inspect ${spoken(slots.things)}: leaks, particles, colour, phases.`,
  cautions: [
    {
      text: "Against a lighted white and a black background; again before dispensing if it was stored.",
      rows: ["inspect-final", "vial-look-for-cores"],
    },
  ],
});
