/** `activate bag`: opens the seals between the chambers of a bag. */
import { verb } from "../verb.ts";

export const activate = verb({
  word: "activate",
  form: "<bag:name>",
  about: "Opens the seals between the chambers of a multi-chamber bag and mixes them.",
  act(bench, slots, run) {
    const bag = bench.vessel(slots.bag);
    if (!bag) return;
    bag.mixed = run;
    bag.unmixed = undefined;
  },
  sentence: (slots) => `Open the seals of ${slots.bag.name} and mix the chambers.`,
});
