/**
 * What of an order with a range is met only where the ordered dose is told as one that nobody gets. It is left out for all of it: met
 * for one value at which the dose is in order, it is told for all at which it is met.
 */
import { inputRanges } from "../bench/order.ts";
import { planOf } from "../bench/plan.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import type { RecipeCheck } from "./check.ts";
import type { JudgedPiece } from "./over-range.ts";

/**
 * @param failing all pieces of the range in which the check finds its fault
 * @param pieces all of the range
 */
export function isForDoseTold(
  check: Pick<RecipeCheck, "name" | "severity">,
  failing: readonly JudgedPiece[],
  pieces: readonly JudgedPiece[],
  recipe: Recipe,
  policy: Policy,
): boolean {
  if (!restsOnDose.has(check.name) || !isDrawnAsOrdered(recipe)) return false;
  const isError = (policy.severities.get(check.name) ?? check.severity) === "error";
  return dosesTold.some((told) => {
    if (!isShownAsError(told, recipe, policy)) return false;
    const isTold = ({ result }: JudgedPiece) => [...result.found].some((key) => key.startsWith(`${told} `));
    // Most of the order being wrong, a warning waits until it is mended; what is an error for a dose in order is told at once.
    return failing.every(isTold) || (!isError && isMost(pieces.filter(isTold), pieces, recipe));
  });
}

/** More than half of the range's first input, such as of its weights. */
function isMost(some: readonly JudgedPiece[], all: readonly JudgedPiece[], recipe: Recipe): boolean {
  const step = inputRanges(recipe)[0]?.step;
  const each = step ? inBase(step) : Exact.zero;
  return widthOf(some, each).isAbove(widthOf(all, each).over(Exact.of(2)));
}

function widthOf(pieces: readonly JudgedPiece[], step: Exact): Exact {
  return pieces.reduce(
    (sum, { box: [first] }) => (first ? sum.plus(first.high.minus(first.low)).plus(step) : sum),
    Exact.zero,
  );
}

export const dosesTold = ["dose-outside-window", "dose-rounded-to-nothing"] as const;

/** What a step moves, and what comes of it in the container; nothing of how the work is done. */
export const restsOnDose: ReadonlySet<string> = new Set([
  "additive-over-share",
  "concentration-above-limit",
  "concentration-below-limit",
  "concentration-unusual",
  "container-overfilled",
  "dose-not-delivered",
  "draw-beyond-syringe",
  "filter-shared",
  "needle-too-many-punctures",
  "not-on-graduation",
  "nothing-to-push",
  "osmolarity-too-high-for-peripheral",
  "push-beyond-content",
  "rate-above-limit",
  "rate-below-limit",
  "rate-not-settable",
  "rounding-moves-dose",
  "syringe-too-full",
  "too-few-containers",
  "too-small-to-measure",
]);

/** One drug, drawn by the order's own dose: the figures of the steps then follow the dose and nothing else. */
function isDrawnAsOrdered(recipe: Recipe): boolean {
  const { order } = recipe;
  if (!order?.one("drug") || order.all("additive").length > 0) return false;
  return planOf(recipe).steps.some(
    ({ slots }) => (slots as { figure?: { choice?: string } }).figure?.choice === "dose",
  );
}
