import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const labelNotChecked = recipeCheck({
  name: "label-not-checked",
  family: "technique",
  severity: "warning",
  title: "A container is used whose label and expiry nobody has read",
  why: "The wrong ampoule looks like the right one until its label is read.",
  source: "common practice",
  bad: example(
    ["    check label and expiry of mag, bag\n", ""],
    ["    tap mag\n", "    check label and expiry of mag\n    tap mag\n"],
  ),
  good: example(),
  *find({ run }) {
    const said = new Set<string>();
    for (const group of run.groups.values()) {
      for (const thing of group.things) {
        if (thing.is !== "vessel" || !thing.stock || said.has(thing.name)) continue;
        const use = firstUse(run, thing);
        if (!use || mayHaveDone(["check"], run, use)) continue;
        const unread = [
          isBefore(thing.checked, use) ? undefined : "label",
          isBefore(thing.expiryChecked, use) ? undefined : "expiry",
        ].filter((w) => w !== undefined);
        if (unread.length === 0) continue;
        said.add(thing.name);
        yield { at: thing.material.name, name: thing.name, use, unread };
      }
    }
  },
  say: ({ name, use, unread }) => ({
    text: `Step ${use.number} uses ${name}, and no step before it reads its ${oneOf(unread).replace(" or ", " and ")}. Add \`check ${unread.join(" and ")} of ${name}\` at the beginning.`,
    related: [{ at: use.step, text: "used here" }],
  }),
  fixes: ({ name, unread }, { chunk, recipe }) => {
    const first = recipe.steps[0];
    if (!first) return [];
    const line = `check ${unread.join(" and ")} of ${name}`;
    return [{ title: `Begin with \`${line}\``, edits: [stepBefore(chunk.text, first, line)], preferred: true }];
  },
});

/** The first step that opens it or moves liquid out of it or into it. */
function firstUse(run: Run, vessel: Vessel): StepRun | undefined {
  const moved = run.steps.find((s) => s.movements.some((m) => m.from === vessel || m.to === vessel));
  const opened = vessel.opened;
  if (!moved || !opened) return moved ?? opened;
  return opened.number < moved.number ? opened : moved;
}

function isBefore(step: StepRun | undefined, other: StepRun): boolean {
  return step !== undefined && step.number < other.number;
}
