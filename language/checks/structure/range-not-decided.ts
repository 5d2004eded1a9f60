import { inputRanges } from "../../bench/order.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { shareOf, type Undecided } from "../../proof/cover.ts";
import { boxText, inputWord, merged, stretchesText } from "../../proof/range-text.ts";
import { recipeCheck } from "../check.ts";
import type { RangeJudgement } from "../over-range.ts";
import { fineSyringe, perWeight, roundedOutOfStep } from "./weight-example.ts";

const rounded = { syringe: "fine-syringe", dose: roundedOutOfStep, more: fineSyringe };

export const rangeNotDecided = recipeCheck<{ at: Spot; where: string; reason: string; remedy: string }>({
  name: "range-not-decided",
  family: "structure",
  severity: "error",
  across: "pieces",
  title: "A part of the order's range for which nothing could be decided",
  why: "Not proven is not safe: it is said, never passed over.",
  source: "common practice",
  bad: perWeight("20 kg to 80 kg in steps of 0.1 kg", rounded),
  good: perWeight("50 kg to 60 kg in steps of 1 kg", rounded),
  *find({ recipe, range }) {
    const [first] = inputRanges(recipe);
    const undecided = range && widest(range);
    if (!first || !undecided) return;
    yield { at: first, where: whereOf(range, undecided), reason: undecided.reason, remedy: remedyFor(recipe) };
  },
  say: ({ where, reason, remedy }) => ({
    text: `Not decided for ${where}: ${reason}. No check is known to hold there. ${remedy}`,
  }),
});

/** Only what the order does not do already. */
function remedyFor(recipe: Recipe): string {
  const isStepped = inputRanges(recipe).every(({ step }) => step);
  const isRounded = (recipe.order?.all("round").length ?? 0) > 0;
  const round = isRounded ? "round the dose to a coarser step" : "round the dose";
  return isStepped
    ? `${capital(round)}, or write a recipe for each part of the range.`
    : `State the range in steps, narrow it, or ${round}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** All of it, where the order has one input; else the largest part. */
function whereOf({ axes, undecided }: RangeJudgement, { box }: Undecided): string {
  const [axis, ...others] = axes;
  if (axis && others.length === 0) {
    const stretches = merged(
      axis,
      undecided.map((each) => each.box[0]!),
    );
    return `${inputWord(axis.input)} ${stretchesText(axis, stretches)}`;
  }
  const more = undecided.length - 1;
  return boxText(axes, box) + (more > 0 ? ` and ${more} more part${more === 1 ? "" : "s"} of the range` : "");
}

function widest({ axes, undecided }: RangeJudgement): Undecided | undefined {
  let best: Undecided | undefined;
  let most = -1;
  for (const each of undecided) {
    const share = shareOf(each.box, axes);
    if (share > most) [best, most] = [each, share];
  }
  return best;
}
