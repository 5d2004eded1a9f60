import type { DoseSlots } from "../../bench/dose-asked.ts";
import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { followsAnotherStep, followsSlip, isTold } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { behindStep } from "../figures-behind.ts";
import { mostHeld } from "../fitting-syringes.ts";
import { ml } from "../showing.ts";
import { mayHaveDone } from "../unread-steps.ts";

/** At least how many fillings of the syringe it takes, in words where a person would say them so. */
function loads(asked: Exact, already: Exact, capacity: Exact): string {
  const count = asked.plus(already).over(capacity).ceil().toText();
  return count === "2" ? "two" : count === "3" ? "three" : count;
}

const emptiesSyringe = ["inject", "fill", "make", "expel", "discard", "pass", "reconstitute"] as const;

export const drawBeyondSyringe = recipeCheck({
  name: "draw-beyond-syringe",
  family: "volumes",
  severity: "error",
  title: "More liquid than the syringe can hold",
  why: "The plunger comes out, or the volume is guessed.",
  source: "common practice",
  bad: example(["    syringe      syringe-10mL", "    syringe      syringe-5mL"]),
  good: example(),
  happening: "draw-beyond-syringe",
  *find(context) {
    for (const { spot, step, data } of happened(context.run, "draw-beyond-syringe")) {
      if (followsSlip(step, context.run)) continue;
      if (isTold("claim-differs", context) && followsAnotherStep(step, context.run)) continue;
      // What was drawn before may have gone on by a step that cannot be read.
      if (data.already.isPositive() && mayHaveDone(emptiesSyringe, context.run, step)) continue;
      const { figure, drug } = step.slots as DoseSlots;
      const isDose = figure?.choice === "dose" && step.verb === "draw";
      yield {
        at: spot,
        most: mostHeld(data.syringe, context.run),
        rest: isDose ? `rest of ${drug?.name ?? "dose"}` : undefined,
        behind: behindStep(step, context.run),
        ...data,
      };
    }
  },
  say: ({ syringe, asked, already, capacity, rest, behind }) => {
    const before = already.isPositive() ? ` on top of ${ml(already)}` : "";
    return {
      text: `Draws ${ml(asked)}${before} into ${thingName(syringe)}, which holds ${ml(capacity)}. ${rest !== undefined ? `Use a larger syringe, or draw a volume into one and the \`${rest}\` into another` : `Use a larger syringe, or draw in ${loads(asked, already, capacity)} steps and inject between them`}.`,
      related: behind,
    };
  },
  fixes({ syringe, asked, already, most }, { lookup, policy }) {
    const total = Exact.greatest(asked.plus(already), most);
    const fitting = lookup
      .names("device")
      .flatMap((name) => lookup.find("device", name) ?? [])
      .filter((d) => d.facts.one("kind")?.slots.kind.choice === "syringe")
      .map((d) => ({ name: d.name.name, holds: d.facts.one("capacity")?.slots.capacity.quantity }))
      .flatMap((d) => (d.holds ? [{ name: d.name, holds: inBase(d.holds) }] : []))
      .filter((d) => total.isAtMost(d.holds.times(policy.largestShare)))
      .sort((a, b) => a.holds.compare(b.holds));
    const best = fitting[0];
    return best ? [{ title: `Use ${best.name}`, edits: [replaceText(syringe.material.item, best.name)] }] : [];
  },
});
