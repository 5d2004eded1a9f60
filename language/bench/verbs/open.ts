/** `open …`: breaks the neck of an ampoule. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const open = verb({
  word: "open",
  form: "<things:names>",
  about: "Breaks an ampoule at its neck. Vials and bags are entered, not opened.",
  act(bench, slots, run) {
    for (const name of slots.things) {
      for (const vessel of bench.vessels([name], "an ampoule")) {
        if (vessel.kind !== "ampoule") {
          bench.note("opened-not-ampoule", name, { vessel });
          continue;
        }
        if (vessel.opened) bench.note("opened-twice", name, { vessel, first: vessel.opened });
        if (!vessel.disinfected) bench.note("ampoule-not-disinfected", name, { vessel });
        if (!vessel.tapped) bench.note("ampoule-not-tapped", name, { vessel });
        vessel.opened ??= run;
      }
    }
  },
  sentence: (slots) => `Break the neck of ${spoken(slots.things)}.`,
  cautions: [
    { text: "Sharp glass: hold with a wipe, snap away from yourself.", when: "ampoule" },
    {
      text: "Open towards the side wall, never towards the filter of the cabinet.",
      rows: ["amp-open-away-from-filter"],
      when: "ampoule",
    },
    { text: "Open only inside the clean zone of the cabinet.", rows: ["amp-open-inside-air"], when: "ampoule" },
  ],
});
