/** The figures of a run with their working: dose, volumes that the steps move, containers to open. */
import type { Run } from "../bench/run.ts";
import { type Group, vesselsOf } from "../bench/setup.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Vessel } from "../bench/things.ts";
import { isConsumable } from "../bench/vessels.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, showQuantity } from "../quantities/quantity.ts";
import { plainUnit } from "../quantities/unit.ts";
import { movingWork, readingWork } from "./moving.ts";
import { counted, pieces } from "./pieces.ts";
import { line, millilitres, shown, shownVolume, spokenVerb, type Working, type WorkingLine } from "./working.ts";

export function doseWorkings(run: Run): Working[] {
  return run.doses.flatMap((dose): Working[] => {
    const { given, drug } = dose;
    if (!given) return [];
    const per = "time" in dose.per ? `per ${dose.per.time.written}` : eachOf(run, dose.per.container);
    const of = [dose.ion ? ` of ${dose.ion}` : "", dose.as ? ` as ${dose.as}` : ""].join("");
    const asOrdered = line("ordered", `as ordered: ${dose.measure.written}${of} ${per}`, given);
    return [
      {
        kind: "dose",
        of: [drug],
        key: `dose ${drug}`,
        label: `Dose of ${drug}${of} ${per}`,
        step: undefined,
        value: given,
        text: showQuantity(given),
        lines: dose.working.length > 0 ? dose.working : [asOrdered],
      },
    ];
  });
}

function eachOf(run: Run, name: string): string {
  return vesselsOf(run.groups.get(name)).length > 1 ? `for each of ${name}` : `per ${name}`;
}

/** Every step that moves liquid; where it states its volume, that and how it is read on the scale. */
export function stepWorkings(run: Run): Working[] {
  return run.steps.flatMap((step): Working[] => {
    const { moved, number } = step;
    if (step.skipped || !moved?.isPositive()) return [];
    const worked = movingWork(run, step);
    const volume = millilitres(moved);
    return [
      {
        kind: "step",
        of: [String(number)],
        key: `step ${number} moves`,
        label: `Step ${number}, ${spokenVerb(step.verb)}`,
        step: number,
        value: volume,
        text: showQuantity(volume),
        lines: worked.length > 0 ? worked : statedWork(step),
      },
    ];
  });
}

function statedWork(step: StepRun): WorkingLine[] {
  const slots = step.slots as { amount?: MeasureSlot; volume?: MeasureSlot } | undefined;
  const stated = slots?.amount?.quantity ?? slots?.volume?.quantity;
  const volume = millilitres(step.moved!);
  if (stated?.unit.dimension.key !== "volume") return [line("stated", `all of it: ${shown(volume)}`, volume)];
  return [line("stated", `as the step states: ${showQuantity(stated)}`, stated), ...readingWork(step, inBase(stated))];
}

/** How many containers of a stock are opened, from what is drawn and what each yields. */
export function containerWorkings(run: Run, runs = 1): Working[] {
  return [...run.groups.values()].flatMap((group) => {
    const vessels = vesselsOf(group).filter((v) => isConsumable(v) && v.stock);
    const drawn = run.steps
      .flatMap((s) => s.movements)
      .filter((m) => m.from && vessels.includes(m.from) && m.how !== "push")
      .reduce((sum, m) => sum.plus(m.moved), Exact.zero);
    if (vessels.length === 0 || !drawn.isPositive()) return [];
    return [containerWorking(run, group, vessels, drawn, runs)];
  });
}

function containerWorking(run: Run, group: Group, vessels: readonly Vessel[], drawn: Exact, runs: number): Working {
  const count = vessels.length;
  const left = vessels.reduce((sum, v) => sum.plus(v.liquid.volume), Exact.zero);
  const held = `${shownVolume(drawn.plus(left))} in ${counted(group, count)}`;
  const lines: WorkingLine[] = [
    line("counted", `${shownVolume(drawn)} drawn in all; ${held}`, millilitres(drawn)),
    ...quotientLine(run, group, vessels, drawn),
    line("counted", `left over: ${shownVolume(left)}`, millilitres(left)),
  ];
  if (runs > 1) lines.push(line("counted", `for one run; ${count * runs} for ${runs} runs`));
  return {
    kind: "containers",
    of: [group.name],
    key: `containers ${group.name}`,
    label: `Containers of ${group.name}`,
    step: undefined,
    value: undefined,
    text: counted(group, count),
    lines,
  };
}

/** Where the count is derived and all containers yield alike: how many of them the drawn volume is. */
function quotientLine(run: Run, group: Group, vessels: readonly Vessel[], drawn: Exact): WorkingLine[] {
  const count = vessels.length;
  const yields = vessels.map((v) => v.yields?.plus(drawnFrom(run, v)));
  const [one] = yields;
  if (group.stated !== undefined || count < 2 || !one?.isPositive() || !yields.every((y) => y?.equals(one))) return [];
  const exact = drawn.over(one);
  const number = showQuantity({ value: exact, unit: plainUnit });
  const quotient = `${shownVolume(drawn)} ÷ ${shownVolume(one)} = ${number} ${pieces(group, 2)}`;
  if (exact.isWhole()) return [line("computed", quotient)];
  const figures = exact.terminates() ? "" : " (to four figures)";
  return [line("rounded", `${quotient}${figures}, rounded up to whole containers: ${counted(group, count)}`)];
}

function drawnFrom(run: Run, vessel: Vessel): Exact {
  return run.steps
    .flatMap((s) => s.movements)
    .filter((m) => m.from === vessel && m.how !== "push")
    .reduce((sum, m) => sum.plus(m.moved), Exact.zero);
}
