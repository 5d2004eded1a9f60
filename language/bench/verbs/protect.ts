/** `protect bag from light`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const protect = verb({
  word: "protect",
  form: "<things:names> from light",
  about: "Covers a container against light.",
  act(bench, slots, run) {
    for (const vessel of bench.vessels(slots.things)) vessel.covered = run;
  },
  sentence: (slots) => `Cover ${spoken(slots.things)} against light.`,
  cautions: [
    { text: "The cover stays on in storage and while it runs, if the drug asks for it.", rows: ["light-protect"] },
  ],
});
