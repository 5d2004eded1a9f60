/** How long the steps let each drug stand, from where it is dissolved or drawn up, laid against the rows of its monograph. */

import { oncePerRun } from "../../bench/remembered-run.ts";
import type { Run } from "../../bench/run.ts";
import { isLongerTime } from "../../bench/stable-rows.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { isMixing } from "../../bench/verbs/mixing.ts";
import { inTime } from "../../bench/waited.ts";
import type { Drug } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { longestOf, rowsOnceOpened, type StableFor } from "./once-opened.ts";
import { finished, judgeRows, type StableRow } from "./stable-rows.ts";

export interface Stood {
  at: MeasureSlot;
  time: Quantity;
  drug: Drug;
  fact: StableFor;
  start: StepRun;
}

/** Each drug that stands for longer than any row lets it. */
export const stoodIn = oncePerRun((run): readonly Stood[] => {
  const timed = run.steps.filter((step) => !step.skipped && timeOf(step)?.quantity);
  if (timed.length === 0) return [];
  const found: Stood[] = [];
  for (const [name, drug] of run.setup.drugs) {
    const start = run.steps.find((step) => sets(step, name));
    const limit = start && limitOf(drug, start, run);
    const longest = limit && longestOf(limit);
    if (!longest) continue;
    const stood = timed.filter((step) => step.number > start.number && isBefore(step, name, run));
    const [first, ...more] = stood.map((step) => timeOf(step)!);
    if (!first) continue;
    const total = stood.reduce((sum, step) => sum.plus(hours(timeOf(step)!.quantity, 28) ?? Exact.zero), Exact.zero);
    const time = more.length === 0 ? first.quantity! : inTime(total);
    if (!isLongerTime(time, longest.slots.time.quantity)) continue;
    const at = [first, ...more].reduce((most, each) => (isLongerTime(each.quantity, most.quantity) ? each : most));
    found.push({ at, time, drug, fact: longest, start });
  }
  return found;
});

/** What a step says of how long it takes. */
function timeOf(step: StepRun): MeasureSlot | undefined {
  return step.verb === "wait" ? (step.slots as { time?: MeasureSlot }).time : dissolvingTime(step);
}

/** How long dissolving may take, as the step says it. */
export function dissolvingTime({ verb, slots }: StepRun): MeasureSlot | undefined {
  return isMixing(verb) ? (slots as { time?: MeasureSlot }).time : undefined;
}

/** The step dissolves the drug's powder, or takes the drug out of its pack. */
function sets(step: StepRun, drug: string): boolean {
  if (step.skipped) return false;
  if (step.verb === "reconstitute") return [...step.after.values()].some(({ drugs }) => drugs.includes(drug));
  return step.movements.some(({ liquid }) => liquid.drugs.includes(drug));
}

/**
 * Waiting counts until the drug reaches a finished container, from where on the limit of that one is judged. Dissolving counts there
 * too: no limit of use takes it off.
 */
function isBefore(step: StepRun, drug: string, run: Run): boolean {
  if (isMixing(step.verb)) return [...step.after.values()].some(({ drugs }) => drugs.includes(drug));
  const arrival = run.steps.find((each) =>
    run.finals.some((vessel) => each.after.get(vessel)?.drugs.includes(drug) === true),
  );
  return !arrival || step.number < arrival.number;
}

/** The rows of the dissolved powder; where there is none, and for what is drawn from its pack, all: no study goes further than the longest. */
function limitOf(drug: Drug, start: StepRun, run: Run): readonly StableRow[] {
  const stock = [...start.after.keys()].find(
    (vessel) => vessel.stock?.facts.one("drug")?.slots.drug.name === drug.name.name,
  )?.stock;
  const own = start.verb === "reconstitute" && stock ? rowsOnceOpened(stock, drug, undefined) : [];
  const rows = own.length > 0 ? own : drug.stable;
  // A row that the finished container is judged by takes the waiting off by itself.
  return rows.some((row) => isJudgedAtEnd(row, drug, run)) ? [] : rows;
}

function isJudgedAtEnd(row: StableRow, drug: Drug, run: Run): boolean {
  if (row.one("counted-from")?.slots.event.choice === "mixing") return false;
  return finished(run).some(({ vessel, drugs }) => {
    if (!drugs.includes(drug)) return false;
    const stated = run.recipe.preparations.find((p) => p.name.name === vessel.name)?.facts.all("use-within") ?? [];
    return stated.some(({ slots }) =>
      judgeRows(drug, vessel, slots.place.name, run).some((judged) => judged.row === row && judged.misses.length === 0),
    );
  });
}
