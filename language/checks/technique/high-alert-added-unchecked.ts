import { happened } from "../../bench/run.ts";
import { allOf } from "../../bench/spoken.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

interface Unchecked {
  at: Spot;
  step: StepRun;
  /** Further additions of what was drawn before `step`: one check before it sees them all. */
  more: StepRun[];
  drugs: string[];
  targets: Vessel[];
}

export const highAlertAddedUnchecked = recipeCheck({
  name: "high-alert-added-unchecked",
  family: "technique",
  severity: "warning",
  title: "A high-alert drug added before a second person has looked",
  why: "Once added, a wrong drug or volume cannot be seen any more.",
  source: "from memory: check drug, diluent and drawn volume before the addition",
  rows: ["technique-rules check-before-add"],
  bad: example(["  high-alert     no", "  high-alert     yes"]),
  good: example(
    ["  high-alert     no", "  high-alert     yes"],
    ["    disinfect bag\n", "    check by pharmacist\n    disinfect bag\n"],
  ),
  happening: "high-alert-added-unchecked",
  find({ run }) {
    const slips: Unchecked[] = [];
    for (const { spot, step, data } of happened(run, "high-alert-added-unchecked")) {
      if (mayHaveDone(["check"], run, step)) continue;
      const before = slips.find((slip) => !drawsItself(step) && isMendedWith(slip, step, data.drawn));
      if (!before) slips.push({ at: spot, step, more: [], drugs: [data.drug], targets: [data.target] });
      else {
        if (!before.drugs.includes(data.drug)) before.drugs.push(data.drug);
        if (!before.targets.includes(data.target)) before.targets.push(data.target);
        if (step !== before.step && !before.more.includes(step)) before.more.push(step);
      }
    }
    return slips;
  },
  say: ({ step, more, drugs, targets }) => {
    const alert = `${allOf(drugs)}, ${drugs.length > 1 ? "high-alert drugs" : "a high-alert drug"},`;
    const to = allOf([...new Set(targets.map(targets.length > 1 ? ({ name }) => name : thingName))]);
    if (drawsItself(step)) {
      return {
        text: `Step ${step.number} draws ${alert} and adds it to ${to} in one movement, so that nobody can check the volume between. Write it as \`draw\`, \`check by pharmacist\` and \`inject\`.`,
      };
    }
    const steps = allOf([step, ...more].map(({ number }) => String(number)));
    return {
      text:
        more.length > 0
          ? `Steps ${steps} add ${alert} to ${to} and no check stands between the draws and the additions. Put \`check by pharmacist\` before step ${step.number}.`
          : `Step ${steps} adds ${alert} to ${to} and no check stands between the draw and the addition. Put \`check by pharmacist\` before.`,
    };
  },
  fixes: ({ step }, { chunk }) =>
    drawsItself(step)
      ? []
      : [{ title: "Put a check before", edits: [stepBefore(chunk.text, step.step, "check by pharmacist")] }],
});

/** What was drawn before the first addition is seen by the check that stands before it. */
function isMendedWith(first: Unchecked, step: StepRun, drawn: StepRun | undefined): boolean {
  if (drawsItself(first.step)) return false;
  return step === first.step || (drawn !== undefined && drawn.number < first.step.number);
}

/** A verb that draws and pushes leaves no moment in which the syringe can be shown. */
function drawsItself({ movements }: StepRun): boolean {
  return movements.some((m) => m.how === "draw");
}
