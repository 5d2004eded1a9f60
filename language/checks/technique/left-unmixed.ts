import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { mixingVerbs } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const leftUnmixed = recipeCheck({
  name: "left-unmixed",
  family: "technique",
  severity: "error",
  title: "Labelled or sealed without mixing",
  why: "An unmixed bag gives a bolus of the additive.",
  source:
    "Incomplete mixing of drugs in intravenous infusions (journal abstract, undated); Factors affecting the concentration of electrolyte infusions prepared from stock solutions (Postgrad Med J 87:83-88, 2011, abstract)",
  rows: ["technique-rules mix-after-each", "technique-rules mix-dense"],
  bad: example(["    mix bag by inverting 10 times\n", ""]),
  good: example(),
  happening: "left-unmixed",
  find: ({ run }) =>
    happened(run, "left-unmixed")
      .filter((h) => !mayHaveDone(mixingVerbs, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, since, next }) => ({
    text: `Step ${step.number} ${next === "label" ? "labels" : `${next}s`} ${thingName(vessel)}, which has not been mixed since the addition in step ${since.number}. Mix it right after the addition.`,
    related: [{ at: since.step, text: "added here" }],
  }),
  fixes: ({ vessel, since }, { chunk }) => [
    {
      title: `Mix ${vessel.name} after the addition`,
      edits: [stepAfter(chunk.text, since.step, `mix ${vessel.name} by inverting`)],
    },
  ],
});
