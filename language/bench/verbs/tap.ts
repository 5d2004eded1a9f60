/** `tap …`: brings liquid down out of the head of an ampoule. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const tap = verb({
  word: "tap",
  form: "<things:names>",
  about: "Brings all liquid down out of the head of an ampoule, or bubbles up in a syringe.",
  act(bench, slots, run) {
    for (const thing of bench.things(slots.things)) if (thing.is === "vessel") thing.tapped = run;
  },
  sentence: (slots) => `Tap ${spoken(slots.things)} until no liquid stays in the head.`,
  cautions: [{ text: "Liquid left in the head is dose left behind.", rows: ["amp-clear-neck"], when: "ampoule" }],
});
