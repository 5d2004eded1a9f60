import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { mixingVerbs } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const drawnBeforeMixed = recipeCheck({
  name: "drawn-before-mixed",
  family: "technique",
  severity: "error",
  title: "Drawn from a container before it is mixed",
  why: "What is drawn is not what the container holds on average.",
  source:
    "Incomplete mixing of drugs in intravenous infusions (journal abstract, undated); Accuracy of potassium supplementation of fluids administered intravenously (J Vet Intern Med, 2015)",
  rows: ["technique-rules mix-after-each"],
  bad: example(
    [
      "    mix bag by inverting 10 times",
      "    disinfect bag\n    sample 2 mL from bag using syringe\n    mix bag by inverting 10 times",
    ],
    ["    check by pharmacist\n  }", "    check by pharmacist\n    discard syringe\n  }"],
  ),
  good: example(),
  happening: "drawn-before-mixed",
  find: ({ run }) =>
    happened(run, "drawn-before-mixed")
      .filter((h) => !mayHaveDone(mixingVerbs, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, since, way }) => ({
    text: `Step ${step.number} ${way ? takesOut[way] : "draws from"} ${thingName(vessel)}, which has not been mixed since step ${since.number}. Mix it before.`,
    related: [{ at: since.step, text: "added here" }],
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Mix ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `mix ${vessel.name} by inverting`)],
    },
  ],
});

const takesOut = { pushed: "pushes out a part of", expelled: "expels a part of" } as const;
