/** What a finding of a ranged order says beside itself: at which point it is shown, and for which orders it is so. */

import type { JudgedRange } from "../../shared/finding.ts";
import type { Spot } from "../model/slots.ts";
import type { OrderAxis } from "../proof/order-axes.ts";
import { boxText, pointText, restOf, stretchesText } from "../proof/range-text.ts";
import type { Exact } from "../quantities/exact.ts";
import { checkFailed, failureText } from "./check-failed.ts";
import type { ChunkFinding } from "./evaluate.ts";
import type { JudgedPiece, RangeJudgement } from "./over-range.ts";

/** Figures that a point is written with: 50 kg has one, 47.3 kg three. The fewer, the rounder. */
export function figuresOf(point: readonly Exact[]): number {
  const figures = point.map(
    (v) =>
      v
        .toText()
        .replace(".", "")
        .replace(/^0+|0+$/g, "").length,
  );
  return figures.reduce((sum, n) => sum + n, 0);
}

/** The message with its point, and the same as data. */
export function overRange(
  message: string,
  axes: readonly OrderAxis[],
  pieces: readonly JudgedPiece[],
  failing: readonly JudgedPiece[],
  shown: JudgedPiece,
): Pick<ChunkFinding, "message" | "overRange"> {
  const shownAt = pointText(axes, shown.point);
  const ordered = pieces.filter((p) => p.result.ordered);
  const [axis, ...others] = axes;
  if (failing.length === ordered.length) {
    return {
      message: `${message} So for every order; shown for ${shownAt}.`,
      overRange: { shownAt, fails: "every order", holds: "" },
    };
  }
  if (!axis || others.length > 0) {
    const fails = `${failing.length} of the ${ordered.length} pieces of the range`;
    return {
      message: `${message} Shown for ${shownAt}; it is not so for every order.`,
      overRange: { shownAt, fails, holds: "" },
    };
  }
  const stretches = failing.map((p) => p.box[0]!);
  const fails = stretchesText(axis, stretches);
  const holds = stretchesText(axis, restOf(axis, stretches));
  const word = axis.input.replace("-", " ");
  return {
    message: `${message} Shown for ${shownAt}; so for ${word} ${fails}, and not for ${word} ${holds}.`,
    overRange: { shownAt, fails, holds },
  };
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
  const { name, family, severity } = checkFailed;
  const at = { start: head.start, end: head.end };
  const reason = new Error(
    `over the range and for ${pointText(axes, shown.point)} alone it comes to different answers`,
  );
  return {
    check: checkFailed,
    name,
    family,
    severity,
    at,
    message: failureText(check, reason),
    related: [],
    fixes: [],
    subject: subject(at),
    silencedBy: undefined,
  };
}
