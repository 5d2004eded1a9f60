import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { mixingVerbs } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const addedBeforeMixed = recipeCheck({
  name: "added-before-mixed",
  family: "technique",
  severity: "error",
  title: "A second addition before the first is mixed",
  why: "In unmixed bags potassium at the outlet ran far above the mean; two additives may meet undiluted.",
  source:
    "Incomplete mixing of drugs in intravenous infusions (journal abstract, undated); Accuracy of potassium supplementation of fluids administered intravenously (J Vet Intern Med, 2015)",
  rows: ["technique-rules mix-after-each"],
  bad: example([
    "    inject syringe into bag\n",
    "    inject 4 mL from syringe into bag\n    disinfect bag\n    inject syringe into bag\n",
  ]),
  good: example(
    [
      "    inject syringe into bag\n",
      "    inject 4 mL from syringe into bag\n    mix bag by inverting 10 times\n    disinfect bag\n    inject syringe into bag\n",
    ],
    ["    mix bag by inverting 10 times\n    inspect", "    mix bag by inverting\n    inspect"],
  ),
  happening: "added-before-mixed",
  find: ({ run }) =>
    happened(run, "added-before-mixed")
      .filter((h) => !mayHaveDone(mixingVerbs, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, since }) => ({
    text: `Step ${step.number} adds to ${thingName(vessel)}, which has not been mixed since the addition in step ${since.number}. Mix it before.`,
    related: [{ at: since.step, text: "added here" }],
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Mix ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `mix ${vessel.name} by inverting`)],
    },
  ],
});
