/** `disinfect …`: wipes the neck, stopper or port. Holds until it is touched again. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const disinfect = verb({
  word: "disinfect",
  form: "<things:names>",
  about:
    "Wipes the neck of an ampoule, the stopper of a vial or the port of a bag with sterile 70 % alcohol, and lets it dry.",
  act(bench, slots, run) {
    for (const thing of bench.things(slots.things)) {
      if (thing.is === "part") bench.note("needle-wiped", slots.things[0]!, { part: thing });
      else thing.disinfected = run;
    }
  },
  sentence: (slots) => `Wipe ${spoken(slots.things)} with sterile 70 % alcohol and a sterile wipe. Let dry.`,
  cautions: [
    {
      text: "Let it dry before entering; touch nothing else in between.",
      rows: ["vial-disinfect-dry", "port-disinfect-dry", "amp-disinfect-before-open"],
    },
  ],
});
