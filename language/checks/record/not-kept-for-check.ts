import type { Movement } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { finalCheck } from "./final-check.ts";

export const notKeptForCheck = recipeCheck({
  name: "not-kept-for-check",
  family: "record",
  severity: "warning",
  title: "A used container or syringe is not kept for the check",
  why: "The used ampoules and the syringe are the only evidence of what went in and how much.",
  source: "from memory: used containers and syringes stay with the preparation until the check",
  rows: ["technique-rules keep-evidence"],
  bad: example(["    keep mag, filter, needle, syringe for check\n", ""]),
  good: example(),
  *find({ run }) {
    const check = finalCheck(run);
    if (run.plan.broken || !check) return;
    const lost: string[] = [];
    for (const [name, group] of run.groups) {
      const vessels = group.things.filter((t) => t.is === "vessel" && !run.finalNames.has(name));
      const evidence = vessels.some(
        (v) =>
          v.is === "vessel" &&
          // What was thrown away within the steps is told by the check on discarding before the check.
          !v.discarded &&
          !(v.kept && v.kept.number < check.number) &&
          run.steps.some((s) => s.movements.some((m) => isEvidence(m, v))),
      );
      if (evidence) lost.push(name);
    }
    if (lost.length > 0) yield { at: check.step, lost, check };
  },
  say: ({ lost, check }) => ({
    text: `Step ${check.number} checks the preparation, and ${lost.join(", ")} ${lost.length > 1 ? "are" : "is"} not kept for it. Add \`keep ${lost.join(", ")} for check\` before.`,
  }),
  fixes: ({ lost, check }, { chunk }) => [
    {
      title: `Keep ${lost.join(", ")} for the check`,
      edits: [stepBefore(chunk.text, check.step, `keep ${lost.join(", ")} for check`)],
    },
  ],
});

/** A container that was drawn from, of diluent too, since the wrong one shows nowhere else; or a syringe that pushed drug on. */
function isEvidence({ from, how, liquid }: Movement, vessel: Vessel): boolean {
  if (from !== vessel || how === "waste" || vessel.kind === "bag") return false;
  return vessel.stock !== undefined || liquid.drugs.length > 0;
}
