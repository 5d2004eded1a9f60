import { isMixing } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { stepAfter } from "../edits.ts";
import { stepName } from "../showing.ts";
import { mayHaveDone } from "../unread-steps.ts";
import { dilutionExample, lives } from "./intermediates.ts";

export const intermediateNotLabelled = recipeCheck({
  name: "intermediate-not-labelled",
  family: "technique",
  severity: "error",
  title: "An intermediate dilution that is drawn from before it is labelled",
  why: "An unlabelled syringe of a drug on the bench is taken for another.",
  source: "from memory: USP <797> 2023, section 13, label at once; common practice for what is made on the way",
  rows: ["technique-rules label-at-once"],
  bad: dilutionExample(["    label working\n", ""]),
  good: dilutionExample(),
  *find({ runs }) {
    for (const run of runs) {
      for (const life of lives(run)) {
        const first = life.taken[0];
        if (life.labelled && (!first || life.labelled.number < first.number)) continue;
        if (mayHaveDone(["label"], run, first)) continue;
        yield { at: life.intermediate.name, life, first, mixed: mixedAfter(life, run.steps) };
      }
    }
  },
  say: ({ life: { intermediate, name, filled, labelled }, first }) => ({
    text: `${intermediate.name.name} stands ready in ${name} after ${stepName(filled)}${first ? ` and is drawn from at ${stepName(first)}` : ""}; ${labelled ? `its label comes at ${stepName(labelled)}` : "no step labels it"}. Label ${name} as soon as it is mixed.`,
  }),
  fixes: ({ life, mixed }, { chunk }) =>
    life.labelled
      ? []
      : [
          {
            title: `Label ${life.name} at once`,
            preferred: true as const,
            edits: [stepAfter(chunk.text, mixed.step, `label ${life.name}`)],
          },
        ],
});

/** The step after which the label belongs: the mixing of it, else its filling. */
function mixedAfter(
  life: ReturnType<typeof lives>[number],
  steps: readonly ReturnType<typeof lives>[number]["filled"][],
) {
  const mixed = steps.find(
    (s) =>
      s.number > life.filled.number &&
      (life.taken[0] === undefined || s.number < life.taken[0].number) &&
      isMixing(s.verb) &&
      s.touched.includes(life.vessel),
  );
  return mixed ?? life.filled;
}
