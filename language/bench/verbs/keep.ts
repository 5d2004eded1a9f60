/** `keep mag, filter, needle, syringe for check`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const keep = verb({
  word: "keep",
  form: "<things:names> for check",
  about: "Keeps used containers and devices beside the preparation until the pharmacist has checked.",
  act(bench, slots, run) {
    for (const thing of bench.things(slots.things)) thing.kept = run;
  },
  sentence: (slots) => `Keep ${spoken(slots.things)} beside the preparation for the check.`,
  cautions: [{ text: "With the drawn volume to be seen on the syringe.", rows: ["keep-evidence"] }],
});
