import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";
import { lacking, lastWork } from "./missing-lines.ts";

export const inspectionStepMissing = recipeCheck({
  name: "inspection-step-missing",
  family: "record",
  severity: "warning",
  title: "No step inspects the finished container",
  why: "Leaks, particles and colour are seen only by who looks for them, after the last liquid has gone in.",
  source:
    "Wisconsin Administrative Code, Phar 15.36 (State of Wisconsin, undated copy, Phar 15.36(1)(a)-(c)): visual inspection",
  rows: ["technique-rules inspect-final", "record-elements mfr-qc"],
  bad: example(["    inspect bag\n", ""]),
  good: example(),
  *find({ recipe, run }) {
    if (run.plan.broken) return;
    for (const vessel of lacking(run, (v) => !v.inspected)) {
      const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
      yield { at: preparation?.name ?? vessel.material.name, vessel, after: lastWork(run, vessel) };
    }
  },
  say: ({ vessel, after }) => ({
    text: `${after ? `After step ${after.number}, the last that works on ${vessel.name}, no step` : "No step"} inspects ${vessel.name}. Add \`inspect ${vessel.name}\`.`,
  }),
  fixes: ({ vessel, after }, { chunk }) =>
    after
      ? [
          {
            title: `Inspect ${vessel.name} after step ${after.number}`,
            edits: [stepAfter(chunk.text, after.step, `inspect ${vessel.name}`)],
          },
        ]
      : [],
});
