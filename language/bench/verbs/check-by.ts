/** `check by pharmacist`: work stops until somebody else has looked. */
import { verb } from "../verb.ts";

export const checkBy = verb({
  word: "check",
  form: "by <role:name>",
  about: "Work stops here until the named role has checked and signed. It may stand before an injection.",
  act(bench, slots, run) {
    bench.lastCheck = run;
    run.slots = slots;
    for (const group of bench.setup.groups.values()) {
      for (const thing of group.things) {
        if (thing.is !== "vessel" || thing.airExpelled || !thing.liquid.volume.isPositive()) continue;
        bench.note("checked-with-air", slots.role, { syringe: thing, drawn: thing.drawnBy });
      }
    }
  },
  sentence: (slots) => `Stop. Check by ${slots.role.name}: sign before going on.`,
  cautions: [
    {
      text: "Show the drawn volume in the syringe, the used containers and the label.",
      rows: ["keep-evidence", "check-before-add"],
    },
  ],
});
