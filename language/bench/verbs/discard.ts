/** `discard working`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const discard = verb({
  word: "discard",
  form: "<things:names>",
  about: "Throws away a container, a rest, or a device.",
  act(bench, slots, run) {
    for (const name of slots.things) {
      for (const thing of bench.group(name)?.things ?? []) {
        const evidence =
          thing.is === "vessel" && (thing.stock?.facts.one("drug") !== undefined || thing.liquid.drugs.length > 0);
        const intermediate = thing.is === "vessel" && thing.labelled !== undefined;
        if (evidence && !intermediate && !bench.lastCheck) bench.note("discarded-before-check", name, { thing });
        thing.discarded = run;
        if (!run.touched.includes(thing)) run.touched.push(thing);
      }
    }
  },
  sentence: (slots) => `Discard ${spoken(slots.things)}.`,
  cautions: [
    { text: "The rest of an opened ampoule is never kept.", rows: ["amp-discard-rest"], when: "ampoule" },
    { text: "Into the container for hazardous waste.", when: "hazardous" },
  ],
});
