/** `add 5 mL from mag to bag using syringe`: draw and inject in one step. */
import { askedForEach } from "../asked.ts";
import { drawUp } from "../drawing.ts";
import { wipedEachTime } from "../entering.ts";
import { push } from "../pushing.ts";
import { asAsked, manner, showEach, showVolume, spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

export const add = verb({
  word: "add",
  form: "(<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:dose|diluent-volume|all> | <figure?:dose> of <drug?:name>) from <from:names> to [<each?:each of>] <target:name> using <syringe:name> [at <pressure?:equal pressure|negative pressure>]",
  about: "Draws from one container and pushes into another with the named syringe.",
  moves: true,
  act(bench, slots, run) {
    const from = bench.vessels(slots.from);
    const syringe = bench.syringe(slots.syringe);
    const wipe = wipedEachTime(from);
    const askNext = askedForEach(bench, slots, from);
    for (const target of targets(bench, slots.target, slots.each)) {
      wipe();
      const ask = askNext();
      if (!syringe || !ask) return;
      const before = run.moved;
      const moved = drawUp(bench, from, syringe, ask, slots.amount ?? slots.syringe, slots.pressure?.choice);
      push(bench, syringe, target, moved, slots.target, slots.pressure?.choice);
      run.moved = before ? before.plus(moved) : moved;
      run.result = target;
    }
  },
  sentence: (slots, run) =>
    `Add ${asAsked(slots)} (${slots.each ? showEach(run) : showVolume(run)}) from ${spoken(slots.from)} to ${slots.each ? "each of " : ""}${slots.target.name} with ${slots.syringe.name}${manner(slots)}.`,
  cautions: [
    { text: "Keep hands and objects out of the first air.", rows: ["first-air"] },
    { text: "Wipe the port again before each entry.", rows: ["port-disinfect-dry"], when: "port-again" },
  ],
});
