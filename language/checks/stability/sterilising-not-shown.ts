import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";

/** Micrometres: the coarsest pore that is called sterilising; 0.22 in most papers, 0.2 on most filters. */
const sterilising = Exact.of("0.22");

type Lack =
  | { kind: "no-step" | "no-filter" }
  /** The container was sterilised before this step filled or closed it. */
  | { kind: "filled" | "sealed"; sterilised: StepRun; later: StepRun };

interface NotShown {
  at: Spot;
  container: string;
  lack: Lack;
  after: StepRun | undefined;
}

const appearance = "    appearance ";
const claimed: [string, string] = [appearance, `    sterility      terminally-sterilised\n${appearance}`];
const sealed = "    seal bag\n";

export const sterilisingNotShown = recipeCheck<NotShown>({
  name: "sterilising-not-shown",
  family: "stability",
  severity: "error",
  title: "Called sterilised, and no step sterilises it",
  why: "The longer limit of use belongs to what was sterilised in its closed container; what was not may grow germs for all that time.",
  source:
    "common practice; the limits that differ by it: USP General Chapter <797> Pharmaceutical Compounding - Sterile Preparations, 2023 revision (from memory)",
  bad: example(claimed),
  good: example(claimed, [sealed, `${sealed}    sterilise bag by steam "121 C for 15 min"\n`]),
  *find({ recipe, run }) {
    if (run.plan.broken) return;
    for (const { name, facts } of recipe.preparations) {
      const stated = facts.one("sterility");
      if (!stated) continue;
      const { process, parts } = stated.slots;
      for (const vessel of run.finals) {
        if (vessel.name !== name.name) continue;
        const lack =
          process.choice === "terminally-sterilised"
            ? notSterilised(vessel, run)
            : parts && isUnfiltered(vessel, run)
              ? ({ kind: "no-filter" } as const)
              : undefined;
        if (!lack) continue;
        yield { at: stated, container: name.name, lack, after: vessel.sealed };
        break;
      }
    }
  },
  say: ({ container, lack }) => {
    switch (lack.kind) {
      case "no-step":
        return {
          text: `${container} is called terminally sterilised, and no step sterilises it. Add \`sterilise ${container} by steam\` (or dry heat, gas, radiation) with its cycle after it is sealed, or write \`sterility aseptic\` and use the limit for that.`,
        };
      case "no-filter":
        return {
          text: `${container} is made from nonsterile components, and none of its drugs passes a filter of 0.22 micrometre or finer. Add the filter and the step that uses it, sterilise it in its container, or take \`nonsterile-components\` out.`,
        };
      default: {
        const { sterilised, later, kind } = lack;
        return {
          text: `Step ${sterilised.number} sterilises ${container}, and step ${later.number} ${kind === "filled" ? "puts more into it" : "closes it"} only afterwards. Sterilise it once it is filled and sealed.`,
          related: [{ at: later.step, text: `${kind} here` }],
        };
      }
    }
  },
  fixes: ({ container, lack, after }, { chunk }) =>
    lack.kind === "no-step" && after
      ? [
          {
            title: `Sterilise ${container} by steam after step ${after.number}`,
            edits: [stepAfter(chunk.text, after.step, `sterilise ${container} by steam`)],
          },
        ]
      : [],
});

function notSterilised(vessel: Vessel, run: Run): Lack | undefined {
  const { sterilised, sealed } = vessel;
  if (!sterilised) return { kind: "no-step" };
  const later = run.steps.find(
    ({ number, movements }) => number > sterilised.number && movements.some(({ to }) => to === vessel),
  );
  if (later) return { kind: "filled", sterilised, later };
  if (sealed && sealed.number > sterilised.number) return { kind: "sealed", sterilised, later: sealed };
  return undefined;
}

/** Which component is not sterile is not said: where not one drug was filtered, it was not either. */
function isUnfiltered({ liquid }: Vessel, run: Run): boolean {
  return (
    !run.unknown &&
    liquid.drugs.length > 0 &&
    liquid.drugs.every((drug) => !run.passedUnknown.has(drug) && !liquid.pores.get(drug)?.isAtMost(sterilising))
  );
}
