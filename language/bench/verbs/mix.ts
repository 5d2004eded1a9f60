/** `mix bag by inverting 10 times`. */
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

export const mix = verb({
  word: "mix",
  form: "<target:name> by <how:inverting|rolling|swirling|shaking|drawing back and forth> [<times?:number> times]",
  about: "Mixes a container after an addition, and says how.",
  act(bench, slots, run) {
    for (const vessel of targets(bench, slots.target, slots.target)) {
      if (slots.how.choice === "shaking") {
        for (const drug of vessel.liquid.drugs) {
          if (bench.setup.drugs.get(drug)?.facts.one("mixing")?.slots.how.choice === "not-shaken") {
            bench.note("shaken", slots.how, { vessel, drug });
          }
        }
      }
      vessel.unmixed = undefined;
      vessel.mixed = run;
      run.result = vessel;
    }
  },
  sentence: (slots) =>
    `Mix ${slots.target.name} by ${slots.how.choice}${slots.times ? `, ${slots.times.written} ${slots.times.written === "1" ? "time" : "times"}` : ""}.`,
  cautions: [{ text: "An unmixed bag gives a bolus of the additive.", rows: ["mix-after-each"], when: "bag" }],
});
