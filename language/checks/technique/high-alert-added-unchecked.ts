import { happened } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

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
  find: ({ run }) =>
    happened(run, "high-alert-added-unchecked")
      .filter((h) => !mayHaveDone(["check"], run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, drug, target }) => ({
    text: drawsItself(step)
      ? `Step ${step.number} draws ${drug}, a high-alert drug, and adds it to ${thingName(target)} in one movement, so that nobody can check the volume between. Write it as \`draw\`, \`check by pharmacist\` and \`inject\`.`
      : `Step ${step.number} adds ${drug}, a high-alert drug, to ${thingName(target)} and no check stands between the draw and the addition. Put \`check by pharmacist\` before.`,
  }),
  fixes: ({ step }, { chunk }) =>
    drawsItself(step)
      ? []
      : [{ title: "Put a check before", edits: [stepBefore(chunk.text, step.step, "check by pharmacist")] }],
});

/** A verb that draws and pushes leaves no moment in which the syringe can be shown. */
function drawsItself({ movements }: StepRun): boolean {
  return movements.some((m) => m.how === "draw");
}
