/** `seal bag`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const seal = verb({
  word: "seal",
  form: "<things:names>",
  about: "Puts a tamper-evident seal or cap on the port. Nothing goes in afterwards.",
  act(bench, slots, run) {
    for (const name of slots.things) {
      for (const vessel of bench.vessels([name])) {
        if (vessel.unmixed) bench.note("left-unmixed", name, { vessel, since: vessel.unmixed, next: "seal" });
        vessel.unmixed = undefined;
        vessel.sealed = run;
      }
    }
  },
  sentence: (slots) => `Seal ${spoken(slots.things)}.`,
  cautions: [{ text: "After sealing nothing is added.", rows: ["seal-port"] }],
});
