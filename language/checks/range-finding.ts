/** What a finding of a ranged order says beside itself: at which point it is shown, and for which orders it is so. */

import type { JudgedRange } from "../../shared/finding.ts";
import type { Spot } from "../model/slots.ts";
import type { OrderAxis } from "../proof/order-axes.ts";
import {
  apart,
  boxText,
  inputWord,
  merged,
  pointText,
  restOf,
  safeStretchesText,
  stretchesText,
} from "../proof/range-text.ts";
import type { Exact } from "../quantities/exact.ts";
import type { ChunkFinding } from "./chunk-finding.ts";
import { failure } from "./gather.ts";
import type { JudgedPiece, RangeJudgement } from "./over-range.ts";

/** What cannot be written as a decimal is less round than anything that can. */
const endless = 1000;

/** Figures that a point is written with: 50 kg has one, 47.3 kg three. The fewer, the rounder. */
export function figuresOf(point: readonly Exact[]): number {
  const figures = point.map((v) =>
    v.decimalPlaces() === undefined
      ? endless
      : v
          .toText()
          .replace(".", "")
          .replace(/^0+|0+$/g, "").length,
  );
  return figures.reduce((sum, n) => sum + n, 0);
}

/** `60 kg to 60.4 kg in steps of 0.5 kg`: a range in form only. */
function isOneOrder(ordered: readonly JudgedPiece[]): boolean {
  const [only, second] = ordered;
  return only !== undefined && !second && only.box.every(({ low, high }) => low.equals(high));
}

/** The message with its point, and the same as data. */
export function overRange(
  message: string,
  { axes, pieces, undecided }: RangeJudgement,
  failing: readonly JudgedPiece[],
  shown: JudgedPiece,
): Pick<ChunkFinding, "message" | "overRange"> {
  const shownAt = pointText(axes, shown.point);
  const ordered = pieces.filter((p) => p.result.ordered);
  const told = (text: string, fails: string, holds: string) => ({
    message: `${message} ${text}`,
    overRange: { shownAt, fails, holds },
  });
  if (failing.length === ordered.length && undecided.length === 0)
    return told(
      isOneOrder(ordered) ? `So for ${shownAt}, the only order.` : `So for every order; shown for ${shownAt}.`,
      "every order",
      "",
    );
  const [axis, ...others] = axes;
  if (!axis || others.length > 0) {
    const { within, isExact } = withinAll(axes, ordered, failing);
    if (undecided.length > 0 || within === "")
      return told(`Shown for ${shownAt}; it is not so for every order.`, "some orders", "");
    return isExact
      ? told(`Shown for ${shownAt}; so for ${within}, and not for any other order.`, within, "every other order")
      : told(
          `Shown for ${shownAt}; only within ${within}, and not for all of these.`,
          `some orders within ${within}`,
          "",
        );
  }
  const stretches = failing.map((p) => p.box[0]!);
  const fails = stretchesText(axis, stretches);
  // What is not ordered, or not decided, is not said to hold.
  const left = [...pieces.filter((p) => !p.result.ordered), ...undecided].map((p) => p.box[0]!);
  const safe = restOf(axis, [...stretches, ...left]);
  const holds = safeStretchesText(axis, safe);
  const word = inputWord(axis.input);
  return told(
    `Shown for ${shownAt}; so for ${word} ${fails}${holds && `, and not for ${word} ${holds}`}.`,
    fails,
    holds,
  );
}

/**
 * Of orders with several inputs the stretch of each that all failing orders lie within, and whether everything within them fails.
 * An input of which all values fail is left out.
 */
function withinAll(
  axes: readonly OrderAxis[],
  ordered: readonly JudgedPiece[],
  failing: readonly JudgedPiece[],
): { within: string; isExact: boolean } {
  const sides = axes.map((axis, k) =>
    merged(
      axis,
      failing.map((p) => p.box[k]!),
    ),
  );
  const words = axes.flatMap((axis, k) =>
    restOf(axis, sides[k]!).length === 0 ? [] : [`${inputWord(axis.input)} ${stretchesText(axis, sides[k]!)}`],
  );
  const isWithin = ({ box }: JudgedPiece) => box.every((own, k) => sides[k]!.some((side) => !apart(own, side)));
  const isExact = !ordered.some((p) => !failing.includes(p) && isWithin(p));
  return { within: words.join(" and "), isExact };
}

/** How far a recipe was decided, as plain data. */
export function judgedRange(recipe: string, { axes, pieces, undecided }: RangeJudgement): JudgedRange {
  return {
    recipe,
    range: boxText(
      axes,
      axes.map((axis) => axis.range),
    ),
    pieces: pieces.filter((p) => p.result.ordered).length,
    undecided: undecided.map(({ box, reason }) => ({ where: boxText(axes, box), reason })),
  };
}

/** The traced run and the ordinary one do not agree: nothing of it may be believed, and it is said. */
export function contradiction(
  check: string,
  axes: readonly OrderAxis[],
  shown: JudgedPiece,
  head: Spot,
  subject: (at: Spot) => string,
): ChunkFinding {
  const reason = new Error(
    `over the range and for ${pointText(axes, shown.point)} alone it comes to different answers`,
  );
  return failure(check, reason, head, subject);
}
