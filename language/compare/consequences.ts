/**
 * What follows from a recipe at the bench, and how it changed: doses, volumes, contents and concentrations of the finished containers,
 * how many containers are opened, rates, beyond-use limits. An order with a range is looked at at its ends and at every break point
 * of either side, and the value at which a figure changed most is named.
 */
import type { Consequence } from "../../shared/comparison.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import type { RangeJudgement } from "../checks/over-range.ts";
import { isOrdered, pointOf } from "../proof/order-axes.ts";
import { pointText } from "../proof/range-text.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, showQuantity } from "../quantities/quantity.ts";
import type { Asked } from "./asked.ts";
import { figuresAt, isOverfilled, type Named, type RecipeSide } from "./bench-figures.ts";
import { sameName } from "./canonical.ts";
import { sameFigureAlarm, shareChanged, sizedChange } from "./difference.ts";
import type { StepPairs } from "./pair-statements.ts";

export interface Consequences {
  changes: Consequence[];
  /** Why a part could not be compared. */
  notCompared: string[];
}

export function consequences(
  before: RecipeSide,
  after: RecipeSide,
  steps: StepPairs,
  nameOf: (name: string) => string,
): Consequences {
  const result: Consequences = { changes: [], notCompared: [] };
  const names = stepNames(steps);
  const points = sharedPoints(before, after);
  if (points.length === 0)
    result.notCompared.push(
      "The two orders have no value of their range in common, so figures were not laid side by side.",
    );
  const rows = new Map<string, PointRow[]>();
  const unknown = { before: false, after: false };
  const open = { before: new Set<string>(), after: new Set<string>() };
  const overfilled = isOverfilled(before) || isOverfilled(after);
  for (const point of points) {
    const was = figuresAt(before, point.before, names.before, nameOf, overfilled);
    const is = figuresAt(after, point.after, names.after, (name) => name, overfilled);
    unknown.before ||= !was.isKnown;
    unknown.after ||= !is.isKnown;
    for (const key of new Set([...was.figures.keys(), ...is.figures.keys()])) {
      const pair = { was: was.figures.get(key), is: is.figures.get(key) };
      const lacking = !pair.was ? ("before" as const) : !pair.is ? ("after" as const) : undefined;
      if (lacking) {
        const side = lacking === "before" ? was : is;
        const drug = key.startsWith("dose ") ? key.slice("dose ".length) : undefined;
        if (drug !== undefined && side.isDosed(drug)) {
          // Told once for all that could not be followed.
          if (side.isKnown) open[lacking].add(drug);
          continue;
        }
        // Where one side could not be followed to its end, a figure that is missing there says nothing; but what is not ordered is not.
        if (drug === undefined && !side.isKnown) continue;
        // A place that one side no longer speaks of is told by its own limit.
        if (key.startsWith("limit ")) continue;
      }
      rows.set(key, [...(rows.get(key) ?? []), { point, ...pair }]);
    }
  }
  for (const [key, list] of dosesOfOneSide(before, after, nameOf)) rows.set(key, [...(rows.get(key) ?? []), ...list]);
  for (const side of ["before", "after"] as const) {
    if (unknown[side]) result.notCompared.push(notFollowed(side));
    for (const drug of open[side])
      result.notCompared.push(`The dose of ${drug} cannot be worked out ${side} the change, so it was not compared.`);
  }
  for (const list of rows.values()) result.changes.push(...told(list));
  return result;
}

/**
 * For a recipe that has the same text on both sides and no range: what `consequences` would say where its figures are worked out from
 * the same answers of both libraries, and so are the same. Whether they are, `asked` then tells.
 */
export function figuresIfAlike(before: RecipeSide, { around }: Asked): Consequences {
  const overfilled = isOverfilled(before, around);
  const point = pointOf(before.recipe, [], []);
  const { isKnown } = figuresAt(before, point, new Map(), sameName, overfilled, around);
  return { changes: [], notCompared: isKnown ? [] : (["before", "after"] as const).map(notFollowed) };
}

function notFollowed(side: "before" | "after"): string {
  return `The steps cannot be followed to their end ${side} the change, so figures that rest on them were not compared.`;
}

/** An end of a range that the other order does not hold: the dose there, which nobody gets on the other side. */
function dosesOfOneSide(
  before: RecipeSide,
  after: RecipeSide,
  nameOf: (name: string) => string,
): Map<string, PointRow[]> {
  const rows = new Map<string, PointRow[]>();
  for (const [side, other] of [
    [before, after],
    [after, before],
  ] as const) {
    const { axes } = side.range ?? { axes: [] };
    const ends = side.range ? pointsOf(side.range).filter((p) => isEnd(p.because)) : [];
    for (const { values, because } of ends) {
      const point = pointOf(side.recipe, axes, values);
      if (isHeld(other, axes, values, point)) continue;
      const rename = side === before ? nameOf : (name: string) => name;
      for (const [key, figure] of figuresAt(side, point, new Map(), rename, false).figures) {
        if (!key.startsWith("dose ")) continue;
        const pair = side === before ? { was: figure, is: undefined } : { was: undefined, is: figure };
        rows.set(key, [
          ...(rows.get(key) ?? []),
          { point: { text: pointText(axes, values), because, isLone: true }, ...pair },
        ]);
      }
    }
  }
  return rows;
}

interface PointRow {
  point: Pick<SharedPoint, "text" | "because"> & { isLone?: true };
  was: Named | undefined;
  is: Named | undefined;
}

interface SharedPoint {
  before: OrderPoint;
  after: OrderPoint;
  text: string;
  because: Consequence["because"];
}

/** The ends, the point that changed most, and break points; a figure that did not change anywhere is not told. */
function told(rows: readonly PointRow[]): Consequence[] {
  const changed = rows.flatMap(({ point, was, is }) => {
    const change =
      was && is && was.isUncovered !== is.isUncovered
        ? coverChange(was, is)
        : sizedChange(is?.what ?? was!.what, was, is);
    if (!change) return [];
    // Nobody wrote a figure that was worked out, so none was forgotten when its unit changed.
    if ((is ?? was)!.isDerived && change.alarm.startsWith(sameFigureAlarm)) change.alarm = "";
    // What only one of the two orders is for did not change there: it came or went.
    const isComparable = !point.isLone && was?.isUncovered === is?.isUncovered;
    const share = isComparable ? shareChanged(was, is) : undefined;
    return [{ ...change, at: point.text, because: point.because, share }];
  });
  let worst = changed[0];
  for (const each of changed) if (each.share && (!worst?.share || each.share.isAbove(worst.share))) worst = each;
  const named = changed.map(({ share, ...each }) => {
    const isWorst = each.at !== "" && share !== undefined && each.at === worst?.at;
    const because = isWorst && !isEnd(each.because) ? ("changed most" as const) : each.because;
    return { share: share ?? Exact.zero, told: { ...each, because, isMost: isWorst } };
  });
  const isAlways = ({ because, at, isMost }: Consequence) => at === "" || isMost || isEnd(because);
  const always = named.filter(({ told: each }) => isAlways(each));
  const others = named.filter(({ told: each }) => !isAlways(each)).sort((a, b) => b.share.compare(a.share));
  // What looks like a slip comes before what only changed more; the same two figures at another point tell nothing new.
  const feared = firstOfAKind(
    others.filter(({ told: each }) => each.alarm !== ""),
    always,
    mostFeared,
  );
  const chosen = new Set([...always, ...feared, ...firstOfAKind(others, [...always, ...feared], mostBetween)]);
  return named.filter((each) => chosen.has(each)).map(({ told: each }) => each);
}

/** Without a row of stability a limit of use is not longer than with one: how long the mixture keeps is not known then. */
function coverChange(was: Named, is: Named): Omit<Consequence, "at" | "because" | "isMost"> {
  const words = ({ quantity, isUncovered }: Named) =>
    isUncovered
      ? `not known: no row of stability covers it (${showQuantity(quantity)} by the other limits)`
      : showQuantity(quantity);
  const none = { difference: "", percent: "", factor: "", alarm: "" };
  return { what: is.what, before: words(was), after: words(is), ...none };
}

function isEnd(because: Consequence["because"]): boolean {
  return because === "lowest" || because === "highest";
}

/** The few points between that change most; one of several at which the two figures are alike. */
function firstOfAKind<T extends { told: Consequence }>(
  rows: readonly T[],
  toldAlready: readonly T[],
  most: number,
): T[] {
  const keyOf = ({ told: { before, after } }: T) => `${before} ${after}`;
  const seen = new Set(toldAlready.map(keyOf));
  return rows.filter((row) => !seen.has(keyOf(row)) && seen.add(keyOf(row))).slice(0, most);
}

const mostBetween = 4;
const mostFeared = 8;

/** Steps that stayed or were changed have one name on both sides. */
function stepNames({ same, changed, moved }: StepPairs): Record<"before" | "after", Map<number, string>> {
  const names = { before: new Map<number, string>(), after: new Map<number, string>() };
  for (const [was, is] of [...same, ...changed, ...moved]) {
    const name = `step ${is.number}, ${is.shown.replace(/ *(= |giving |leaving ).*$/, "")}`;
    names.before.set(was.number, name);
    names.after.set(is.number, name);
  }
  return names;
}

/** Without ranges the one point of each order; with ranges those that both orders hold. */
function sharedPoints(before: RecipeSide, after: RecipeSide): SharedPoint[] {
  const [was, is] = [before.range, after.range];
  const one = (side: RecipeSide) => pointOf(side.recipe, [], []);
  if (!was || !is) {
    if (!was && !is) return [{ before: one(before), after: one(after), text: "", because: "" }];
    return pointsOf((was ?? is)!).flatMap(({ values, because }) => {
      const ranged = was ? before : after;
      const axes = (was ?? is)!.axes;
      const point = pointOf(ranged.recipe, axes, values);
      const other = one(was ? after : before);
      if (!isHeld(was ? after : before, axes, values, point)) return [];
      return [{ before: was ? point : other, after: was ? other : point, text: pointText(axes, values), because }];
    });
  }
  const all = [
    ...pointsOf(was).map((p) => ({ ...p, axes: was.axes })),
    ...pointsOf(is).map((p) => ({ ...p, axes: is.axes })),
  ];
  const seen = new Set<string>();
  return all.flatMap(({ values, because, axes }) => {
    const text = pointText(axes, values);
    if (seen.has(text)) return [];
    seen.add(text);
    const point = pointOf(before.recipe, axes, values);
    if (!isHeld(before, axes, values, point) || !isHeld(after, axes, values, point)) return [];
    return [{ before: point, after: pointOf(after.recipe, axes, values), text, because }];
  });
}

/** Whether the order of this side has this point. One without a range holds one value; only there the two are the same order. */
function isHeld(side: RecipeSide, axes: RangeJudgement["axes"], values: readonly Exact[], point: OrderPoint): boolean {
  if (side.range) return isOrdered(side.recipe, side.range.axes, pointOf(side.recipe, axes, values));
  const own = pointOf(side.recipe, [], []);
  return axes.every(({ input }) => {
    const [mine, its] = [point.get(input), own.get(input)];
    return !its || (mine !== undefined && inBase(mine).equals(inBase(its)));
  });
}

/** More points than these tell a reviewer nothing new; the ends and the roundest of the pieces come first. */
const mostPoints = 80;

function pointsOf({ axes, pieces }: RangeJudgement): { values: readonly Exact[]; because: Consequence["because"] }[] {
  const [axis, ...others] = axes;
  const round = pieces.map((p) => ({ values: p.point, because: "point of the range" as Consequence["because"] }));
  if (!axis || others.length > 0) return round.slice(0, mostPoints);
  const ends = [
    { values: [axis.range.low], because: "lowest" as const },
    { values: [axis.range.high], because: "highest" as const },
  ];
  const breaks = pieces.flatMap(({ box }) => {
    const { low, high } = box[0]!;
    return [low, high].map((value) => ({ values: [value], because: "break point" as const }));
  });
  return [...ends, ...breaks, ...round].slice(0, mostPoints);
}
