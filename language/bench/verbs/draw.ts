/** `draw 4 g from mag into syringe`: by volume, by amount of drug, the ordered dose, or the rest of it. */
import { askedVolume } from "../asked.ts";
import { drawUp } from "../drawing.ts";
import { showVolume, spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const draw = verb({
  word: "draw",
  form: "(<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:rest of dose|dose|all>) from <from:names> into <syringe:name> [<onTop?:on top>] [(at <pressure?:equal pressure|negative pressure> [dead-space <deadSpace?:included|excluded>] | dead-space <deadSpace?:included|excluded> [at <pressure?:equal pressure|negative pressure>])]",
  about:
    "Draws liquid into a syringe: a volume, an amount of drug, the ordered dose, or what steps before have left of it to draw. Several containers are emptied one after another.",
  moves: true,
  act(bench, slots, run) {
    const from = bench.vessels(slots.from);
    const into = bench.vessel(slots.syringe);
    const spot = slots.amount ?? slots.figure ?? slots.syringe;
    const ask = askedVolume(bench, slots, from);
    if (!into || !ask) return;
    run.result = into;
    const moved = drawUp(bench, from, into, ask, spot, slots.pressure?.choice, slots.onTop !== undefined);
    if (!slots.deadSpace && moved.isPositive() && moved.isAtMost(bench.policy.smallDose)) {
      bench.note("small-dose-dead-space-not-said", spot, { syringe: into, volume: moved });
    }
  },
  sentence(slots, run) {
    const what = slots.amount ? slots.amount.written : (slots.figure?.choice ?? "");
    const volume = showVolume(run);
    const shown = volume && volume !== slots.amount?.written ? ` (${volume})` : "";
    return `Draw ${what}${shown} from ${spoken(slots.from)} into ${slots.syringe.name}.`;
  },
  cautions: [
    {
      text: "Tilt the ampoule, bevel in the corner near the opening; do not turn it over, add no air.",
      rows: ["amp-bevel-not-deep"],
      when: "ampoule",
    },
    {
      text: "Enter the stopper bevel up at a slant, straighten as the needle goes through.",
      rows: ["vial-coring"],
      when: "needle-in-vial",
    },
    { text: "After drawing, look for cores and particles.", rows: ["vial-look-for-cores"], when: "vial" },
    { text: "For small doses the liquid in needle and hub matters.", rows: ["dead-space"], when: "small-dose" },
    {
      text: "Keep hands and objects out of the first air; work 15 cm (6 in) inside the cabinet.",
      rows: ["first-air", "hood-15cm"],
    },
  ],
});
