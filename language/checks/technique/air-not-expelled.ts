import { happened } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName, thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";

interface Air {
  at: Spot;
  syringe: Vessel;
  /** What it is called: a whole set by its name. */
  name: string;
  drawn: StepRun;
  /** Undefined where the syringe itself is what leaves the bench. */
  pushed: StepRun | undefined;
  onTop: boolean;
}

function leavesWithAir({ kind, airExpelled }: Vessel): boolean {
  return kind === "syringe" && !airExpelled;
}

export const airNotExpelled = recipeCheck<Air>({
  name: "air-not-expelled",
  family: "technique",
  severity: "warning",
  title: "Air left in a syringe whose volume is the dose",
  why: "With air in the barrel the scale shows more liquid than there is.",
  source: "common practice",
  bad: example(["    expel air from syringe\n", ""]),
  good: example(),
  *find({ runs }) {
    for (const run of runs) {
      // A step that cannot be read may have been the one that expels it.
      if (run.plan.broken) return;
      for (const { spot, step, data } of happened(run, "air-not-expelled")) {
        const { syringe, drawn } = data;
        const onTop = data.target.name === syringe.name;
        yield { at: spot, syringe, name: thingName(syringe), drawn, pushed: step, onTop };
      }
      const named = new Set<string>();
      for (const vessel of run.finals) {
        const { drawnBy: drawn } = vessel;
        if (!drawn || !leavesWithAir(vessel)) continue;
        const whole = thingOrEach(vessel, run.finals, (other) => leavesWithAir(other) && other.drawnBy === drawn);
        const name = whole === `each of ${vessel.name}` ? vessel.name : whole;
        if (!named.has(name)) yield { at: drawn.step, syringe: vessel, name, drawn, pushed: undefined, onTop: false };
        named.add(name);
      }
    }
  },
  say: ({ syringe, name, drawn, pushed, onTop }) => ({
    text: onTop
      ? `Step ${pushed?.number} adds liquid to what step ${drawn.number} drew into ${name}, and no step expels the air between. Add \`expel air from ${syringe.name}\` after the first draw.`
      : pushed
        ? `Step ${pushed.number} pushes out what step ${drawn.number} drew into ${name}, and no step expels the air before. Add \`expel air from ${syringe.name}\` after the draw.`
        : `${name} leaves the bench as step ${drawn.number} drew it, and no step expels the air. Add \`expel air from ${syringe.name}\` after the draw.`,
    related: [{ at: drawn.step, text: "drawn here" }],
  }),
  fixes: ({ syringe, drawn }, { chunk }) => [
    {
      title: `Expel the air after step ${drawn.number}`,
      edits: [stepAfter(chunk.text, drawn.step, `expel air from ${syringe.name}`)],
      preferred: true,
    },
  ],
});
