import { inputRanges } from "../../bench/order.ts";
import type { Spot } from "../../model/slots.ts";
import { boxText } from "../../proof/range-text.ts";
import { recipeCheck } from "../check.ts";
import { fineSyringe, perWeight } from "./weight-example.ts";

export const rangeNotDecided = recipeCheck<{ at: Spot; where: string; reason: string }>({
  name: "range-not-decided",
  family: "structure",
  severity: "error",
  across: "pieces",
  title: "A part of the order's range for which nothing could be decided",
  why: "Not proven is not safe: it is said, never passed over.",
  source: "common practice",
  bad: perWeight("20 kg to 80 kg in steps of 0.1 kg", "fine-syringe", fineSyringe),
  good: perWeight("50 kg to 60 kg in steps of 1 kg", "fine-syringe", fineSyringe),
  *find({ recipe, range }) {
    const [first] = inputRanges(recipe);
    if (!range || !first) return;
    const [undecided] = range.undecided;
    if (!undecided) return;
    const more = range.undecided.length - 1;
    const where = boxText(range.axes, undecided.box) + (more > 0 ? ` and ${more} more stretches` : "");
    yield { at: first, where, reason: undecided.reason };
  },
  say: ({ where, reason }) => ({
    text: `Not decided for ${where}: ${reason}. No check is known to hold there. State the range in steps, narrow it, or round the dose.`,
  }),
});
