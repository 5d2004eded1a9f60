import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";
import { lacking, lastWork } from "./missing-lines.ts";

export const sealStepMissing = recipeCheck({
  name: "seal-step-missing",
  family: "record",
  severity: "warning",
  title: "No step seals the finished container",
  why: "An open port can be added to, or leak, after everybody has signed.",
  source: "from memory: a tamper-evident seal or cap on the port of the finished container",
  rows: ["technique-rules seal-port"],
  bad: example(["    seal bag\n", ""]),
  good: example(),
  *find({ recipe, run }) {
    if (run.plan.broken) return;
    for (const vessel of lacking(run, (v) => !v.sealed)) {
      const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
      yield { at: preparation?.name ?? vessel.material.name, vessel, after: vessel.inspected ?? lastWork(run, vessel) };
    }
  },
  say: ({ vessel }) => ({ text: `No step seals ${vessel.name}. Add \`seal ${vessel.name}\`.` }),
  fixes: ({ vessel, after }, { chunk }) =>
    after
      ? [
          {
            title: `Seal ${vessel.name} after step ${after.number}`,
            edits: [stepAfter(chunk.text, after.step, `seal ${vessel.name}`)],
          },
        ]
      : [],
});
