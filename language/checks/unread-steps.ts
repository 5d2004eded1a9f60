/** Steps that cannot be read, which is always told at each of them: what they would have done is not missing. */

import { oncePerRun } from "../bench/remembered-run.ts";
import type { Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import { verbsByWord } from "../bench/verbs/index.ts";
import type { Step } from "../model/declaration.ts";
import { nearNames } from "../model/near.ts";
import { verbsMeant } from "./meant-verbs.ts";

/** Verbs that put a part on a syringe or take it off. */
export const partsMoved = ["attach", "replace", "remove", "connect"] as const;

/** Whether a step that cannot be read, before this one where one is given, is one of these verbs or may be it spelt wrong. */
export function mayHaveDone(verbs: readonly string[], run: Run, before?: Pick<StepRun, "number">): boolean {
  return unreadSteps(run).some((step) => (!before || step.number < before.number) && mayBe(step, verbs));
}

function mayBe({ tokens: [first] }: Step, verbs: readonly string[]): boolean {
  const word = first?.text.toLowerCase() ?? "";
  if (verbsByWord.has(word)) return verbs.includes(word);
  const meant = verbsMeant(word);
  if (meant) return meant.some((verb) => verbs.includes(verb));
  const near = nearNames(word, verbsByWord.keys());
  // A word that is like no verb may stand for any.
  return near.length === 0 || near.some((verb) => verbs.includes(verb));
}

const unreadSteps = oncePerRun(({ plan, recipe }): readonly Step[] => {
  if (!plan.broken) return none;
  const read = new Set(plan.steps.map(({ step }) => step));
  return recipe.steps.filter((step) => !read.has(step));
});

const none: readonly Step[] = [];
