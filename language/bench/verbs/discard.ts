/** `discard working`. */
import type { Bench } from "../bench.ts";
import { spoken } from "../spoken.ts";
import type { Thing } from "../things.ts";
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
        const intermediate =
          thing.is === "vessel" && (thing.labelled !== undefined || bench.options.intermediates.has(thing.name));
        if (thing.is === "vessel" && bench.isFinal(thing)) bench.note("preparation-discarded", name, { thing });
        else if (evidence && !intermediate && !isSeen(bench, thing))
          bench.note("discarded-before-check", name, { thing });
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

/** A check came after the last drug that moved out of it: whoever checked has seen what it was and how much. */
function isSeen({ lastCheck, steps }: Bench, thing: Thing): boolean {
  return (
    lastCheck !== undefined &&
    !steps.some(
      ({ number, movements }) =>
        number > lastCheck.number && movements.some((m) => m.from === thing && m.liquid.drugs.length > 0),
    )
  );
}
