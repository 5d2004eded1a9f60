/** `mix bag by inverting 10 times`, `mix vial by rolling until dissolved`. */
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";
import { dissolved, mixingEnds, untilWords, watchEnd, watchShaken } from "./mixing.ts";

export const mix = verb({
  word: "mix",
  form: `<target:name> by <how:inverting|rolling|swirling|shaking|drawing back and forth> [(<times?:number> times | until <end?:${mixingEnds}> [up to <time?:measure>])]`,
  about:
    "Mixes a container after an addition, and says how; with `until` it brings a powder into solution, or particles up.",
  act(bench, slots, run) {
    const { target, how, end } = slots;
    const vessels = targets(bench, target, target);
    if (how.choice === "shaking") watchShaken(bench, vessels, how);
    if (end) {
      watchEnd(bench, [target], end);
      dissolved(bench, [target], run, end.choice);
      return;
    }
    for (const vessel of vessels) {
      vessel.unmixed = undefined;
      vessel.mixed = run;
      run.result = vessel;
    }
  },
  sentence({ target, how, times, end, time }) {
    const often = times ? `, ${times.written} ${times.written === "1" ? "time" : "times"}` : "";
    return `Mix ${target.name} by ${how.choice}${often}${untilWords(end, time)}.`;
  },
  cautions: [{ text: "An unmixed bag gives a bolus of the additive.", rows: ["mix-after-each"], when: "bag" }],
});
