/** `protect bag from light`, `protect bag from light using cover`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const protect = verb({
  word: "protect",
  form: "<things:names> from light [using <cover?:name>]",
  about: "Covers a container against light; a cover that stands in materials is named.",
  act(bench, slots, run) {
    for (const vessel of bench.vessels(slots.things)) vessel.covered = run;
    if (!slots.cover) return;
    const thing = bench.part(slots.cover);
    if (thing && thing.kind !== "light-cover")
      bench.note("wrong-kind-of-thing", slots.cover, { thing, needed: "a light cover" });
  },
  sentence: (slots) => `Cover ${spoken(slots.things)} against light${slots.cover ? ` with ${slots.cover.name}` : ""}.`,
  cautions: [
    { text: "The cover stays on in storage and while it runs, if the drug asks for it.", rows: ["light-protect"] },
  ],
});
