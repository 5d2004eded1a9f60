/** `check by pharmacist`: work stops until somebody else has looked. */
import { verb } from "../verb.ts";

export const checkBy = verb({
  word: "check",
  form: "by <role:name>",
  about: "Work stops here until the named role has checked and signed. It may stand before an injection.",
  act(bench, slots, run) {
    bench.lastCheck = run;
    run.slots = slots;
  },
  sentence: (slots) => `Stop. Check by ${slots.role.name}: sign before going on.`,
  cautions: [
    {
      text: "Show the drawn volume in the syringe, the used containers and the label.",
      rows: ["keep-evidence", "check-before-add"],
    },
  ],
});
