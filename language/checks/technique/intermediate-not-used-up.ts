import type { Run } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { stepName } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { dilutionExample, type Life, lives } from "./intermediates.ts";

const removeNeedle = "    remove needle from working\n";
const rinseFirst =
  "    attach thin to syringe\n    disinfect saline\n    draw 2 mL from saline into syringe  = 2 mL\n    expel air from syringe\n    remove thin from syringe\n";
const drawOne = "    draw 1 g from working into syringe  = 4 mL\n";
const drawOnTop = "    draw 1 g from working into syringe on top  = 4 mL\n";

export const intermediateNotUsedUp = recipeCheck({
  name: "intermediate-not-used-up",
  family: "technique",
  severity: "error",
  title: "An intermediate dilution that is not used as declared, or is left standing",
  why: "A forgotten dilution of a drug on the bench is taken for a finished preparation, or for another drug.",
  source: "common practice: what is diluted on the way is used at once, then discarded or kept aside for the check",
  bad: dilutionExample([removeNeedle, rinseFirst + removeNeedle], [drawOne, drawOnTop], ["9.615 mg/mL", "9.434 mg/mL"]),
  good: dilutionExample(
    [removeNeedle, rinseFirst + removeNeedle],
    [drawOne, drawOnTop],
    ["9.615 mg/mL", "9.434 mg/mL"],
    ["    use  at-once\n", "    use  same-session\n"],
  ),
  *find({ runs }) {
    for (const run of runs) {
      if (run.plan.broken) continue;
      for (const life of lives(run)) {
        const fault = faultOf(life, run);
        if (fault) yield { at: life.intermediate.name, life, ...fault };
      }
    }
  },
  say({ life: { intermediate, name, filled }, fault, between }) {
    const called = `${intermediate.name.name} in ${name}`;
    switch (fault) {
      case "unused":
        return {
          text: `${called} is filled at ${stepName(filled)} and never drawn from. Draw from it, or take the intermediate out.`,
        };
      case "late":
        return {
          text: `${called} is declared for use at once, but ${stepName(between!)} moves other liquid before it is drawn from. Draw from it first, or declare \`use same-session\`.`,
        };
      default:
        return {
          text: `${called} is neither discarded nor kept for the check at the end. Add \`discard ${name}\`, or name it in the \`keep\` step.`,
        };
    }
  },
});

function faultOf(life: Life, run: Run) {
  const { vessel, filled, taken, intermediate } = life;
  const first = taken[0];
  // A draw of another volume than stated, here of nothing, is told as that.
  if (!first && run.steps.some((s) => slipsOf(run).wrong.has(s) && s.touched.includes(vessel))) return undefined;
  // A draw of an amount that is not known took nothing here.
  if (!first && run.unknown) return undefined;
  if (!first) return { fault: "unused" as const, between: undefined };
  const atOnce = intermediate.facts.one("use")?.slots.when.choice === "at-once";
  const between = run.steps.find(
    (s) =>
      s.number > filled.number &&
      s.number < first.number &&
      s.movements.some((m) => m.from !== vessel && m.how !== "waste"),
  );
  if (atOnce && between) return { fault: "late" as const, between };
  // Liquid that stays in a syringe is told as such.
  const told = vessel.kind === "syringe" && vessel.liquid.volume.isPositive();
  if (!vessel.discarded && !vessel.kept && !told) return { fault: "left" as const, between: undefined };
  return undefined;
}
