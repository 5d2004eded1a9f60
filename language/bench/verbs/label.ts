/** `label bag`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const label = verb({
  word: "label",
  form: "<things:names>",
  about: "Labels a container at once, one preparation at a time.",
  act(bench, slots, run) {
    for (const name of slots.things) {
      for (const vessel of bench.vessels([name])) {
        if (vessel.unmixed) bench.note("left-unmixed", name, { vessel, since: vessel.unmixed, next: "label" });
        vessel.unmixed = undefined;
        // What goes under a cover afterwards is not seen, and the cover carries a label of its own.
        const first = vessel.labelled;
        const isUnderCover = first && vessel.covered && vessel.covered.number > first.number;
        if (first && first !== run && !isUnderCover) bench.note("labelled-twice", name, { vessel, first });
        vessel.labelled = run;
      }
    }
  },
  sentence: (slots) => `Label ${spoken(slots.things)} now.`,
  cautions: [
    {
      text: "Finish, label and clear one preparation before the next begins.",
      rows: ["label-at-once", "batch-size-order"],
    },
  ],
});
