/**
 * A recipe whose order has a range, judged for every value of it: the run and the checks are made once for each piece of the range
 * within which they decide alike (see proof/cover.ts), and what a piece shows is run again on the ordinary bench at the piece's
 * roundest point before it is said.
 */

import type { HappeningKind } from "../bench/happenings.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import { kindsHappened, type Run } from "../bench/run.ts";
import type { Recipe } from "../model/declaration.ts";
import { type Cover, cover, type Piece } from "../proof/cover.ts";
import type { Interval } from "../proof/interval.ts";
import { axesOf, isOrdered, type OrderAxis, pointOf } from "../proof/order-axes.ts";
import { Exact } from "../quantities/exact.ts";
import { anyFound } from "./asking.ts";
import type { RecipeCheck } from "./check.ts";
import type { RecipeContext } from "./context.ts";

/** What one piece of the range shows, and the context of the ordinary run at its roundest point. */
export interface JudgedPiece extends Piece<PieceResult> {
  orderPoint: OrderPoint;
}

interface PieceResult {
  /** Whether the order is for such a patient at all. */
  ordered: boolean;
  /** Check and place of all that was found, as text to compare. */
  found: ReadonlySet<string>;
}

export interface RangeJudgement {
  axes: readonly OrderAxis[];
  pieces: readonly JudgedPiece[];
  undecided: Cover<PieceResult>["undecided"];
}

export interface RangeWork {
  recipe: Recipe;
  checks: AskedChecks;
  /** The runs at one point: by the label, and at least and most overfill where it matters. */
  runsAt(point: OrderPoint): Run[];
  /** What checks look at for these runs. */
  contextOf(runs: readonly Run[], range?: RangeJudgement): RecipeContext;
}

/** Undefined where the order has no range. */
export function judgeRange(work: RangeWork): RangeJudgement | undefined {
  const { recipe } = work;
  const axes = axesOf(recipe);
  if (axes.length === 0) return undefined;
  const covered = cover(axes, (trace): PieceResult => {
    const point = pointOf(
      recipe,
      axes,
      axes.map((_, k) => trace.input(k)),
    );
    if (!isOrdered(recipe, axes, point)) return { ordered: false, found: new Set() };
    return { ordered: true, found: foundIn(work, work.contextOf(work.runsAt(point))) };
  });
  const pieces = covered.pieces
    .map((piece) => ({ ...piece, orderPoint: pointOf(recipe, axes, piece.point) }))
    .sort((a, b) => comparePoints(a.point, b.point));
  return { axes, pieces, undecided: covered.undecided };
}

function comparePoints(a: readonly Exact[], b: readonly Exact[]): number {
  for (const [k, value] of a.entries()) {
    const order = value.compare(b[k]!);
    if (order !== 0) return order;
  }
  return 0;
}

export function foundKey(check: RecipeCheck, at: { start: number; end: number }): string {
  return `${check.name} ${at.start} ${at.end}`;
}

/** All keys of a judgement by the names of their checks, in the order in which they were met. */
export function foundByCheck({ pieces }: RangeJudgement): ReadonlyMap<string, ReadonlySet<string>> {
  const byCheck = new Map<string, Set<string>>();
  for (const { result } of pieces) {
    for (const key of result.found) {
      const name = key.slice(0, key.indexOf(" "));
      const same = byCheck.get(name);
      if (same) same.add(key);
      else byCheck.set(name, new Set([key]));
    }
  }
  return byCheck;
}

/** Checks and places found at one point; the checks across the range are left aside. */
export function foundIn({ checks }: RangeWork, context: RecipeContext): Set<string> {
  const keys = new Set<string>();
  for (const check of checks.for(context.runs)) {
    if (check.across) continue;
    try {
      for (const found of anyFound(check.find(context)) ?? []) keys.add(foundKey(check, found.at));
    } catch {
      // Told with its reason when the ordinary run meets it; here it only has to stand out.
      keys.add(foundKey(check, context.recipe.head));
    }
  }
  return keys;
}

/** Checks in two parts: a good half has nothing to say unless a certain thing happened on the bench, and is not walked through for it. */
export class AskedChecks {
  private readonly always: readonly RecipeCheck[];
  private readonly ofKind = new Map<HappeningKind, RecipeCheck[]>();

  constructor(readonly all: readonly RecipeCheck[]) {
    this.always = all.filter((check) => check.happening === undefined);
    for (const check of all) {
      const { happening } = check;
      if (happening === undefined) continue;
      const same = this.ofKind.get(happening);
      if (same) same.push(check);
      else this.ofKind.set(happening, [check]);
    }
  }

  /** Those that may have something to say of these runs. */
  for(runs: readonly Run[]): readonly RecipeCheck[] {
    const asked = [...this.always];
    for (const kind of kindsHappened(runs)) {
      const same = this.ofKind.get(kind);
      if (same) asked.push(...same);
    }
    return asked;
  }
}

/** An end that does not belong to its piece is looked at so close to it, as a part of the piece's width. */
const besideEnd = Exact.ratio(1, 1_000_000_000);

/** Points for the checks that look at the whole range at once: the corners of every piece, where a figure is least and most. */
export function pointsAcross(recipe: Recipe, { axes, pieces, undecided }: RangeJudgement): OrderPoint[] {
  const ordered = pieces.filter((p) => p.result.ordered);
  // Where not all is decided, no least and no most is known whatever is looked at.
  if (axes.length > 1 && undecided.length > 0) return ordered.map((p) => p.orderPoint);
  const known = new Map<string, readonly Exact[]>();
  for (const piece of ordered) {
    for (const values of cornersOf(piece)) known.set(values.map((v) => v.key()).join(" "), values);
  }
  return [...known.values()].sort(comparePoints).map((values) => pointOf(recipe, axes, values));
}

/** A figure is a quotient of two straight lines in each input, so that its least and its most stand at the corners. */
function cornersOf({ box }: JudgedPiece): (readonly Exact[])[] {
  return box.reduce<(readonly Exact[])[]>(
    (corners, interval) => corners.flatMap((corner) => endsOf(interval).map((end) => [...corner, end])),
    [[]],
  );
}

function endsOf({ low, high, lowIn, highIn }: Interval): Exact[] {
  if (low.equals(high)) return [low];
  const beside = high.minus(low).times(besideEnd);
  return [lowIn ? low : low.plus(beside), highIn ? high : high.minus(beside)];
}
