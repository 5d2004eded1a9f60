/** `fill pump with 200 mL from bag using syringe`, `fill pump with dose from vials using syringe`: an infusor or cassette. */
import { askedVolume } from "../asked.ts";
import { moveInLoads } from "../loads.ts";
import { showVolume, spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const fill = verb({
  word: "fill",
  form: "<target:name> with (<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:dose|diluent-volume|all>) from <from:names> using <syringe:name> [at <pressure?:equal pressure|negative pressure>]",
  about:
    "Fills an infusor or cassette in as many syringe loads as it takes: with a volume, an amount of drug, or the ordered dose.",
  moves: true,
  act(bench, slots, run) {
    const target = bench.vessel(slots.target);
    const from = bench.vessels(slots.from);
    const syringe = bench.syringe(slots.syringe);
    const ask = askedVolume(bench, slots, from);
    if (!target || !syringe || !ask) return;
    const drawn = slots.amount ?? slots.figure ?? slots.syringe;
    const pressure = slots.pressure?.choice;
    moveInLoads(bench, { from, syringe, to: target, ask, drawn, filled: slots.target, pressure });
    run.result = target;
  },
  sentence(slots, run) {
    const what = slots.amount?.written ?? slots.figure?.choice ?? "";
    const volume = showVolume(run);
    const shown = volume && volume !== what ? ` (${volume})` : "";
    return `Fill ${slots.target.name} with ${what}${shown} from ${spoken(slots.from)} with ${slots.syringe.name}.`;
  },
});
