import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";
import { lacking, lastWork } from "./missing-lines.ts";

export const labelStepMissing = recipeCheck({
  name: "label-step-missing",
  family: "record",
  severity: "error",
  title: "No step labels the finished container",
  why: "An unlabelled container is anything.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): labelling; from memory: USP <797> 2023, section 13, label at once",
  rows: ["technique-rules label-at-once", "record-elements mfr-label-text"],
  bad: example(["    label bag\n", ""]),
  good: example(),
  *find({ recipe, run }) {
    if (run.plan.broken) return;
    for (const vessel of lacking(run, (v) => !v.labelled)) {
      const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
      const last = run.steps.findLast((s) => (s.verb === "seal" || s.verb === "inspect") && s.touched.includes(vessel));
      yield { at: preparation?.name ?? vessel.material.name, vessel, after: last ?? lastWork(run, vessel) };
    }
  },
  say: ({ vessel }) => ({
    text: `No step labels ${vessel.name}. Add \`label ${vessel.name}\` as soon as it is finished.`,
  }),
  fixes: ({ vessel, after }, { chunk }) =>
    after
      ? [
          {
            title: `Label ${vessel.name} after step ${after.number}`,
            edits: [stepAfter(chunk.text, after.step, `label ${vessel.name}`)],
          },
        ]
      : [],
});
