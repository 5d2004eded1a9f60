import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";
import { finalCheck, isCheckBy } from "./final-check.ts";
import { lacking } from "./missing-lines.ts";

export const finalCheckMissing = recipeCheck({
  name: "final-check-missing",
  family: "record",
  severity: "error",
  title: "Nobody checks the finished container",
  why: "The check of the labelled container with its used ampoules and syringes is the last that can find a slip.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quality control",
  rows: ["record-elements mfr-qc"],
  bad: example(["    check by pharmacist\n", ""]),
  good: example(),
  *find({ run }) {
    if (run.plan.broken || run.steps.length === 0) return;
    const check = finalCheck(run);
    const last = run.steps.at(-1)!;
    for (const vessel of lacking(run, () => true)) {
      const done = run.steps.findLast(
        (s) => s.movements.some((m) => m.to === vessel) || vessel.labelled === s || vessel.mixed === s,
      );
      if (!done || (check && check.number > done.number)) continue;
      const role = run.steps.find(isCheckBy) ?? undefined;
      yield { at: done.step, vessel, done, last, early: role !== undefined };
    }
  },
  say: ({ vessel, done, early }) => ({
    text: `No \`check by\` stands after step ${done.number}, the last that ${vessel.labelled === done ? "labels" : "works on"} ${vessel.name}${early ? "; the check before it cannot see the finished container" : ""}. End with a check by somebody else.`,
  }),
  fixes: ({ last }, { chunk, policy }) =>
    policy.roles[0]
      ? [
          {
            title: `End with a check by ${policy.roles[0]}`,
            edits: [stepAfter(chunk.text, last.step, `check by ${policy.roles[0]}`)],
          },
        ]
      : [],
});
