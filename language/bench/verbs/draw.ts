/** `draw 4 g from mag into syringe`, `draw rest of vancomycin from vial into syringe`: by volume, by amount of drug, an ordered dose, or the rest of it. */
import { askedForEach } from "../asked.ts";
import { doseWords, isRest } from "../dose-asked.ts";
import { drawUp } from "../drawing.ts";
import { wipedEachTime } from "../entering.ts";
import { asAsked, manner, showByContainer, showEach, showVolume, spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

const rest = "each would get the whole rest";

/** Figures of which one container alone can be told what it gets. */
const forOneAlone: ReadonlyMap<string, string> = new Map([
  ["all", "the first of the set would get all of it"],
  ["rest of dose", rest],
  ["rest", rest],
]);

export const draw = verb({
  word: "draw",
  form: "(<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:rest of dose|dose|diluent-volume|all> | <figure?:rest|dose> of <drug?:name>) from <from:names> into [<each?:each of>] <syringe:name> [<onTop?:on top>] [(at <pressure?:equal pressure|negative pressure> [dead-space <deadSpace?:included|excluded>] | dead-space <deadSpace?:included|excluded> [at <pressure?:equal pressure|negative pressure>])]",
  about:
    "Draws liquid into a syringe: a volume, an amount of drug, the ordered dose, or what steps before have left of it to draw. Several containers are emptied one after another, and where their number is not stated one more is taken when they do not reach. Into a set of syringes it says `each of`.",
  moves: true,
  act(bench, slots, run) {
    const from = bench.vessels(slots.from);
    const into = targets(bench, slots.syringe, slots.each);
    const spot = slots.amount ?? slots.figure ?? slots.syringe;
    const why = into.length > 1 && slots.figure ? forOneAlone.get(slots.figure.choice) : undefined;
    if (slots.figure && why) {
      bench.note("figure-not-known", slots.figure, {
        figure: doseWords(slots),
        why,
        remedy: "Write the volume that each gets",
      });
      bench.unknown = true;
      return;
    }
    const wipe = wipedEachTime(from);
    const askNext = askedForEach(bench, slots, from);
    for (const syringe of into) {
      wipe();
      const ask = askNext();
      if (!ask) return;
      run.result = syringe;
      const moved = drawUp(bench, from, syringe, ask, spot, slots.pressure?.choice, slots.onTop !== undefined);
      if (!slots.deadSpace && moved.isPositive() && moved.isAtMost(bench.policy.smallDose)) {
        bench.note("small-dose-dead-space-not-said", spot, { syringe, volume: moved });
      }
    }
  },
  sentence(slots, run) {
    const what = asAsked(slots);
    const volume = slots.each ? showEach(run) : showVolume(run);
    const byContainer = isRest(slots) ? showByContainer(run) : "";
    const shown = volume && volume !== slots.amount?.written ? ` (${volume}${byContainer})` : "";
    return `Draw ${what}${shown} from ${spoken(slots.from)} into ${slots.each ? "each of " : ""}${slots.syringe.name}${manner(slots)}.`;
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
    { text: "Wipe the stopper or port again before each entry.", rows: ["port-disinfect-dry"], when: "port-again" },
    {
      text: "Keep hands and objects out of the first air; work 15 cm (6 in) inside the cabinet.",
      rows: ["first-air", "hood-15cm"],
    },
  ],
});
