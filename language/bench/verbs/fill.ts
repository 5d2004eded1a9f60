/** `fill pump with 200 mL from bag using syringe`, `fill pump with dose from vials using syringe`: an infusor or cassette. */
import { askedForEach } from "../asked.ts";
import { wipedEachTime } from "../entering.ts";
import { moveInLoads } from "../loads.ts";
import { asAsked, manner, showEach, showVolume, spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

export const fill = verb({
  word: "fill",
  form: "[<each?:each of>] <target:name> with (<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:dose|diluent-volume|all> | <figure?:dose> of <drug?:name>) from <from:names> using <syringe:name> [at <pressure?:equal pressure|negative pressure>]",
  about:
    "Fills an infusor or cassette in as many syringe loads as it takes: with a volume, an amount of drug, or the ordered dose.",
  moves: true,
  act(bench, slots, run) {
    const from = bench.vessels(slots.from);
    const syringe = bench.syringe(slots.syringe);
    const drawn = slots.amount ?? slots.figure ?? slots.syringe;
    const pressure = slots.pressure?.choice;
    const wipe = wipedEachTime(from);
    const askNext = askedForEach(bench, slots, from);
    for (const to of targets(bench, slots.target, slots.each)) {
      wipe();
      const ask = askNext();
      if (!syringe || !ask) return;
      const before = run.moved;
      const moved = moveInLoads(bench, { from, syringe, to, ask, drawn, filled: slots.target, pressure });
      run.moved = before ? before.plus(moved) : moved;
      run.result = to;
    }
  },
  sentence(slots, run) {
    const what = asAsked(slots);
    const volume = slots.each ? showEach(run) : showVolume(run);
    const shown = volume && volume !== what ? ` (${volume})` : "";
    return `Fill ${slots.each ? "each of " : ""}${slots.target.name} with ${what}${shown} from ${spoken(slots.from)} with ${slots.syringe.name}${manner(slots)}.`;
  },
});
