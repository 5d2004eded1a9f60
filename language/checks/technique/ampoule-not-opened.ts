import { happened, type Run } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const ampouleNotOpened = recipeCheck({
  name: "ampoule-not-opened",
  family: "technique",
  severity: "error",
  title: "Drawn from an ampoule that no step has opened",
  why: "A step that everybody takes for granted is a step that the sheet does not have.",
  source: "common practice",
  rows: [],
  bad: example(["    disinfect mag\n", ""], ["    open mag\n", ""]),
  good: example(),
  happening: "ampoule-not-opened",
  *find({ run }) {
    const told = new Set<string>();
    for (const { spot, step, data } of happened(run, "ampoule-not-opened")) {
      const { vessel } = data;
      if (told.has(vessel.name) || mayHaveDone(["open"], run, step)) continue;
      // Of a set that no step opens, one slip and one mend.
      const isWholeSet = vessel.of > 1 && !isOpenedEver(vessel.name, run);
      if (isWholeSet) told.add(vessel.name);
      yield { at: spot, step, vessel, isWholeSet };
    }
  },
  say: ({ step, vessel, isWholeSet }) => ({
    text: isWholeSet
      ? `Step ${step.number} draws from ${vessel.name}, ampoules that are still closed. Disinfect them and open them before.`
      : `Step ${step.number} draws from ${thingName(vessel)}, an ampoule that is still closed. Disinfect it and open it before.`,
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Disinfect and open ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `disinfect ${vessel.name}\n    open ${vessel.name}`)],
    },
  ],
});

function isOpenedEver(name: string, { steps }: Run): boolean {
  return steps.some(
    (step) => step.verb === "open" && !step.skipped && step.touched.some((thing) => thing.name === name),
  );
}
