/**
 * Runs a recipe on the bench at one point of its order. Pure: the same recipe, library and point give the same run.
 * Counts that the author leaves open and volumes that a step takes from later ones (`added-volume`) are found by running again
 * with what the run before found out, until nothing changes.
 */

import type { Recipe } from "../model/declaration.ts";
import { keptWith } from "../model/kept-with.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import { Exact } from "../quantities/exact.ts";
import { Bench, type Errors, type Foresight } from "./bench.ts";
import type { Happening, HappeningKind } from "./happenings.ts";
import { type Liquid, strengthened } from "./liquid.ts";
import { finalVolumeAt, orderedDiluentVolume, orderedDoses, orderedFinalVolume } from "./order.ts";
import { holds, type OrderedDose, type OrderPoint } from "./order-rows.ts";
import type { Overfill } from "./overfill.ts";
import { type Plan, planOf } from "./plan.ts";
import { type Group, layOut, mostOfOne, type Setup, vesselsOf } from "./setup.ts";
import type { StepRun } from "./step-run.ts";
import { drugsLeftAside } from "./stray-drugs.ts";
import type { Thing, Vessel } from "./things.ts";
import { toldOnce } from "./told-once.ts";

export interface Run {
  recipe: Recipe;
  /** The site's decisions that it was run under. */
  policy: Policy;
  point: OrderPoint;
  overfill: Overfill;
  doses: readonly OrderedDose[];
  plan: Plan;
  setup: Setup;
  groups: ReadonlyMap<string, Group>;
  steps: readonly StepRun[];
  happenings: readonly Happening[];
  /** Finished containers as they stand at the end. */
  finals: readonly Vessel[];
  /** Names of the finished containers. */
  finalNames: ReadonlySet<string>;
  /** Some figure could not be computed, or a step not read: totals are not judged. */
  unknown: boolean;
  /** Drugs that passed a part of which nothing is known; it may be a filter. */
  passedUnknown: ReadonlySet<string>;
  withdrawn: ReadonlyMap<string, Exact>;
  /** Materials whose declared overfill is counted, at its mean where the run goes by the labels. */
  overfilled: ReadonlySet<string>;
  makes: number;
}

/** Beside a round for each step that may lack something; a chain of so many sets, each changing another one, stands on no bench. */
const mostRounds = 12;

export interface RunOptions {
  point: OrderPoint;
  overfill: Overfill;
  /** Materials without declared overfill that are presumed to hold the most that bags were found to hold. */
  presumed?: ReadonlySet<string> | undefined;
  errors?: Errors | undefined;
  /**
   * The run by the labels of the same recipe at the same point. A run with other overfill or with errors measures amounts and doses by
   * the volumes of this one, as a person does who works by the printed sheet; without it each is worked out anew from what is really there.
   */
  printed?: Run | undefined;
}

export function runRecipe(recipe: Recipe, lookup: Lookup, policy: Policy, options: RunOptions): Run {
  const plan = planOf(recipe);
  const doses = orderedDoses(recipe, options.point, lookup);
  const finalNames = finalContainers(recipe);
  const leftAside = drugsLeftAside(recipe, lookup, policy);
  let foresight: Foresight = {
    counts: new Map(),
    addedVolume: new Map(),
    withdrawnFrom: new Map(),
    overfilled: new Set(),
  };
  let bench!: Bench;
  const rounds = mostRounds + plan.steps.length;
  for (let round = 0; round < rounds; round++) {
    const materials = recipe.materials.filter((m) => !m.when || holds(m.when, options.point, doses) !== false);
    const setup = layOut(materials, lookup, foresight.counts, {
      which: options.overfill,
      counted: foresight.overfilled,
      presumed: options.presumed ?? nonePresumed,
    });
    bench = new Bench({
      setup,
      policy,
      doses,
      point: options.point,
      foresight,
      finals: finalNames,
      leftAside,
      doseUnread: ["drug", "dose", "additive"].some((word) => recipe.order?.isUnread(word)),
      intermediates: new Set(recipe.intermediates.flatMap((i) => i.facts.one("in")?.slots.container.name ?? [])),
      makes: makesCount(recipe),
      line: finalVolumeAt(recipe, options.point, doses)?.slots.line?.choice,
      finalVolume: (container) => orderedFinalVolume(recipe, options.point, doses, container),
      diluentVolume: orderedDiluentVolume(recipe, options.point, doses),
      diluentVolumeStated:
        recipe.order?.one("diluent-volume") !== undefined || recipe.order?.isUnread("diluent-volume") === true,
      overfill: options.overfill,
      errors: options.errors,
      printed: options.printed,
    });
    if (options.errors) mislabel(setup, options.errors);
    carryOut(bench, plan);
    const next = learned(foresight, bench);
    if (!next) break;
    foresight = next;
    if (round + 1 === rounds) leaveOpen(bench, recipe);
  }
  const groups = bench.setup.groups;
  const leaving = leavingContainers(finalNames, recipe, policy, bench);
  return {
    recipe,
    policy,
    point: options.point,
    overfill: options.overfill,
    doses,
    plan,
    setup: bench.setup,
    groups,
    steps: bench.steps,
    happenings: bench.happenings,
    finals: [...leaving].flatMap((name) => vesselsOf(groups.get(name))),
    finalNames: leaving,
    unknown: bench.unknown || plan.broken,
    passedUnknown: bench.passedUnknown,
    withdrawn: bench.demands.withdrawnFrom,
    overfilled: foresight.overfilled,
    makes: makesCount(recipe),
  };
}

/** The last round still found something new: its figures are those of no bench, and none of them is judged. */
function leaveOpen(bench: Bench, { materials, name }: Recipe): void {
  bench.unknown = true;
  const why = "each count changes another one. State the counts in `materials`";
  bench.note("figure-not-known", materials[0]?.name ?? name, { figure: "number of containers", why });
}

/** Stock that holds more or less than its label says. */
function mislabel(setup: Setup, { strength }: Errors): void {
  for (const { things } of setup.groups.values()) {
    for (const thing of things) {
      const by = thing.is === "vessel" && thing.stock ? strength.get(thing.stock.name.name) : undefined;
      if (thing.is !== "vessel" || !by) continue;
      thing.liquid = strengthened(thing.liquid, by);
      if (thing.powder) thing.powder = { ...thing.powder, amount: thing.powder.amount.times(by) };
    }
  }
}

/** The containers that leave the cabinet: those with a `preparation`, else the ones that a dose is `per`. */
function finalContainers(recipe: Recipe): ReadonlySet<string> {
  const names = new Set(recipe.preparations.map((p) => p.name.name));
  const order = recipe.order;
  if (!order) return names;
  const per = [
    ...order.all("dose").map((f) => f.slots.container),
    ...order.all("additive").map((f) => f.slots.container),
    order.one("makes")?.slots.what,
  ];
  for (const name of per) if (name) names.add(name.name);
  return names;
}

/**
 * A container that the order is per and that has no `preparation` is named by a slip, which is told at the order, where the steps leave
 * it empty, such as the syringe that was emptied into the bag, or only take from it: nothing is wanted of it.
 */
function leavingContainers(
  names: ReadonlySet<string>,
  recipe: Recipe,
  policy: Policy,
  { setup: { groups }, steps }: Bench,
): ReadonlySet<string> {
  const prepared = new Set(recipe.preparations.map((p) => p.name.name));
  const isAsPrepared = prepared.size === 0 || names.size === prepared.size;
  if (isAsPrepared || !isShownAsError("ordered-container-not-finished", recipe, policy)) return names;
  const moves = steps.flatMap(({ movements }) => movements);
  const isSource = (vessel: Vessel) =>
    moves.some(({ from }) => from === vessel) && !moves.some(({ to }) => to === vessel);
  const isLeaving = (name: string) =>
    prepared.has(name) ||
    vesselsOf(groups.get(name)).some((vessel) => vessel.liquid.volume.isPositive() && !isSource(vessel));
  return new Set([...names].filter(isLeaving));
}

function makesCount(recipe: Recipe): number {
  const value = recipe.order?.one("makes")?.slots.count.value;
  return value?.isWhole() && value.isPositive() ? Math.min(Number(value.toText()), mostOfOne) : 1;
}

function carryOut(bench: Bench, plan: Plan): void {
  for (const { step, verb, slots, claims } of plan.steps) {
    const run: StepRun = {
      step,
      number: step.number,
      verb: verb.word,
      slots,
      claims,
      movements: [],
      touched: [],
      through: [],
      asked: [],
      moved: undefined,
      result: undefined,
      after: nothingTouched,
      skipped: step.only.some((c) => holds(c, bench.options.point, bench.options.doses) === false),
      isBlind: bench.unknown,
      lacksContainer: false,
    };
    bench.current = run;
    if (!run.skipped) verb.act(bench, slots as never, run);
    // What would have moved there, or from there, is not known; it is not none.
    if (run.lacksContainer && verb.moves) bench.unknown = true;
    run.after = heldBy(run.touched);
    bench.steps.push(run);
  }
}

const nonePresumed: ReadonlySet<string> = new Set();

const nothingTouched: ReadonlyMap<Vessel, Liquid> = new Map();

function heldBy(things: readonly Thing[]): ReadonlyMap<Vessel, Liquid> {
  let held: Map<Vessel, Liquid> | undefined;
  for (const thing of things) {
    if (thing.is !== "vessel") continue;
    held ??= new Map();
    held.set(thing, thing.liquid);
  }
  return held ?? nothingTouched;
}

/** What the next round should know, or undefined when this round knew it already. */
function learned(known: Foresight, bench: Bench): Foresight | undefined {
  let news = false;
  const counts = new Map(known.counts);
  for (const [name, count] of bench.demands.counts) {
    if ((counts.get(name) ?? 1) < count) {
      counts.set(name, count);
      news = true;
    }
  }
  const addedVolume = bench.demands.addedVolume;
  for (const key of bench.demands.withdrawnFrom.keys()) {
    const now = addedVolume.get(key) ?? Exact.zero;
    if (!now.equals(known.addedVolume.get(key) ?? Exact.zero)) news = true;
  }
  const overfilled = new Set([...known.overfilled, ...bench.demands.overfilled]);
  if (overfilled.size > known.overfilled.size) news = true;
  return news ? { counts, addedVolume, withdrawnFrom: new Map(), overfilled } : undefined;
}

/** Happenings of one kind. */
export function happened<K extends HappeningKind>(run: Run, kind: K): readonly Happening<K>[] {
  return (partedOf(run.happenings).get(kind) ?? noHappenings) as readonly Happening<K>[];
}

/** The kinds of which anything was noted in any of the runs. */
export function kindsHappened(runs: readonly Run[]): ReadonlySet<HappeningKind> {
  const [only, second] = runs;
  if (only && !second) return new Set(partedOf(only.happenings).keys());
  return new Set(runs.flatMap((run) => [...partedOf(run.happenings).keys()]));
}

/** Parted once for a run: every check asks for its kind, and most runs have none of it. */
const partedOf = keptWith((happenings: readonly Happening[]): ReadonlyMap<HappeningKind, Happening[]> => {
  const kinds = new Map<HappeningKind, Happening[]>();
  for (const happening of happenings) {
    const same = kinds.get(happening.kind);
    if (same) same.push(happening);
    else kinds.set(happening.kind, [happening]);
  }
  for (const [kind, same] of kinds) kinds.set(kind, toldOnce(kind, same));
  return kinds;
});

const noHappenings: readonly Happening[] = [];
