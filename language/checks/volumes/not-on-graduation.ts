import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { isConsequence } from "../consequences.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { slipsOf } from "../slips.ts";

/** The amount to be drawn is told as another than ordered. */
function drawsWrong(step: StepRun, run: Run): boolean {
  return slipsOf(run).wrong.get(step) === "amount";
}

export const notOnGraduation = recipeCheck({
  name: "not-on-graduation",
  family: "volumes",
  severity: "warning",
  title: "A volume between the marks of the scale",
  why: "The rounding is done silently at the bench.",
  source: "from memory: the draw is a whole number of graduations",
  rows: ["technique-rules syringe-graduation"],
  bad: example(
    ["    dose            4 g per bag", "    dose            4.05 g per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 4.05 g from mag into syringe  = 8.2 mL"],
    ["    concentration  37.04 mg/mL", "    concentration  37.89 mg/mL"],
    ["magnesium-4g {", "magnesium-sulfate-bag {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate"],
  ),
  good: example(),
  happening: "not-on-graduation",
  // A difference that four figures do not show is no difference at the scale.
  find: (context) =>
    happened(context.run, "not-on-graduation")
      .filter(({ data }) => !agrees(data.asked, data.reading) && (data.stated || isSeen(data)))
      .filter(
        ({ step, data }) =>
          !(
            (step.verb === "withdraw" ||
              drawsWrong(step, context.run) ||
              slipsOf(context.run).follows(step) ||
              isFarFromClaim(step, data)) &&
            isConsequence(step, context.run, context)
          ),
      )
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ syringe, asked, reading, interval, stated, byLabel, how }) => ({
    text: byLabel
      ? `Adds the label's ${ml(asked)}, which cannot be read on ${thingName(syringe)}, marked every ${ml(interval)}. Use a syringe with finer marks.`
      : `${stated ? "States" : "Needs"} ${ml(asked)}, which cannot be read on ${thingName(syringe)}, marked every ${ml(interval)}; ${reading.isPositive() ? ml(reading) : "nothing"} is ${how}. ${stated && reading.isPositive() ? `Write ${ml(reading)}, or use` : "Use"} a syringe with finer marks, or round the dose.`,
  }),
});

const perThousand = Exact.ratio(1, 1000);
const partOfMark = Exact.ratio(1, 20);

/**
 * Can anybody see the difference? 150 mmol of 8.4 % sodium bicarbonate, which is labelled 1 mmol/mL, are 150.01 mL: a hundredth of a mark,
 * and less than a thousandth of the volume. What is seen at a scale: common practice.
 */
function isSeen({ asked, reading, interval }: { asked: Exact; reading: Exact; interval: Exact }): boolean {
  const off = asked.minus(reading).abs();
  return off.isAbove(interval.times(partOfMark)) || off.isAbove(asked.times(perThousand));
}

/** More than a mark away: what is wrong is no rounding. */
function isFarFromClaim(step: StepRun, { asked, interval }: { asked: Exact; interval: Exact }): boolean {
  return step.claims.every(({ kind, from, to }) => {
    if (kind !== "moves" || !from.quantity || !to.quantity) return true;
    if (from.quantity.unit.dimension.key !== "volume" || to.quantity.unit.dimension.key !== "volume") return true;
    const [least, most] = [inBase(from.quantity), inBase(to.quantity)];
    return asked.isBelow(least.minus(interval)) || asked.isAbove(most.plus(interval));
  });
}
