import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { TextSlot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { inBase, measure, type Quantity } from "../../quantities/quantity.ts";
import { type Found, recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { figuresIn } from "../written/figures-in-text.ts";

type Method = "steam" | "dry heat" | "gas" | "radiation";

interface Misfit extends Found {
  step: StepRun;
  vessel: string;
  text: string;
}

/** Least and most of cycles in use, wide, so that only a slip lies outside (European Pharmacopoeia 5.1.1: steam at 121 C for 15 min, dry heat at 160 C for 2 h; from memory). */
const cycles: Partial<Record<Method, { heat: readonly [string, string]; time: readonly [string, string] }>> = {
  steam: { heat: ["105 C", "140 C"], time: ["2 min", "3 h"] },
  "dry heat": { heat: ["140 C", "400 C"], time: ["2 min", "12 h"] },
};

const sealed = "    seal bag\n";
const appearance = "    appearance ";
const terminally: [string, string] = [appearance, `    sterility      terminally-sterilised\n${appearance}`];
const by = (method: string): [string, string] => [sealed, `${sealed}    sterilise bag by ${method}\n`];

export const sterilisingDoesNotFit = recipeCheck<Misfit>({
  name: "sterilising-does-not-fit",
  family: "technique",
  severity: "error",
  title: "A way of sterilising that does not suit what is in the container, or what the preparation is called",
  why: "Heat that boils the liquid or curdles the drug spoils it, gas does not get into a closed bottle, and a cycle too cool leaves germs alive.",
  source: "European Pharmacopoeia, chapter 5.1.1 Methods of preparation of sterile products (from memory)",
  bad: example(terminally, by("dry heat")),
  good: example(terminally, by('steam "121 C for 15 min"')),
  *find({ recipe, run }) {
    if (run.plan.broken) return;
    for (const step of run.steps) {
      if (step.verb !== "sterilise" || step.skipped) continue;
      const { method, cycle } = step.slots as { method: { choice: Method }; cycle?: TextSlot };
      for (const vessel of step.touched) {
        if (vessel.is !== "vessel") continue;
        const text =
          byMethod(vessel, method.choice, step, run) ??
          (cycle && byCycle(method.choice, cycle)) ??
          calledOtherwise(vessel, recipe.preparations, step, run);
        if (text === undefined) continue;
        yield { at: step.step, step, vessel: vessel.name, text };
        break;
      }
    }
  },
  say: ({ step, vessel, text }) => ({ text: `Step ${step.number} sterilises ${vessel}${text}.` }),
});

/** What the way of sterilising does to what the container holds at that step. */
function byMethod(vessel: Vessel, method: Method, step: StepRun, run: Run): string | undefined {
  const liquid = step.after.get(vessel) ?? vessel.liquid;
  const isWet = liquid.volume.isPositive();
  if (isWet && method === "dry heat")
    return " by dry heat, which boils a liquid. Dry heat is for empty containers and for powders; take steam, or write what is done";
  if (isWet && method === "gas")
    return " by gas, which does not get into the liquid of a closed container. Take steam where the drug bears it, or write what is done";
  const tender = liquid.drugs.find((name) => {
    const nature = run.setup.drugs.get(name)?.facts.one("nature")?.slots.nature.choice;
    return nature === "protein" || nature === "lipid-complex";
  });
  if (tender === undefined || method !== "steam") return undefined;
  const nature = run.setup.drugs.get(tender)!.facts.one("nature")!.slots.nature.choice.replace("-", " ");
  return ` by steam, and ${tender} is a ${nature}, which heat destroys. Filter it and work aseptically`;
}

/** `121 C for 15 s`, `12 C for 15 min`: no cycle in use. */
function byCycle(method: Method, { text }: TextSlot): string | undefined {
  const known = cycles[method];
  if (!known) return undefined;
  for (const { written, quantity } of figuresIn(text)) {
    const isHeat = quantity.unit.dimension.key === "temperature";
    const isTime = hours(quantity) !== undefined;
    const bounds = isHeat ? known.heat : isTime ? known.time : undefined;
    if (bounds && !isBetween(quantity, bounds))
      return ` by ${method} with ${written}, and cycles have ${bounds.join(" to ")}. Look at the figure and its unit`;
  }
  return undefined;
}

function isBetween(value: Quantity, [least, most]: readonly [string, string]): boolean {
  const size = (quantity: Quantity): Exact => hours(quantity) ?? inBase(quantity);
  return size(value).isAtLeast(size(measure(least))) && size(value).isAtMost(size(measure(most)));
}

function calledOtherwise(
  vessel: Vessel,
  preparations: Recipe["preparations"],
  step: StepRun,
  run: Run,
): string | undefined {
  const isFull = (step.after.get(vessel) ?? vessel.liquid).volume.isPositive() || vessel.powder !== undefined;
  if (!run.finals.includes(vessel))
    return vessel.stock && isFull ? " as it comes from its maker, who has sterilised it. Take the step out" : undefined;
  const preparation = preparations.find(({ name }) => name.name === vessel.name);
  if (!preparation) return undefined;
  const process = preparation.facts.one("sterility")?.slots.process.choice;
  if (process === "terminally-sterilised") return undefined;
  const filled = run.steps.find(
    ({ number, movements }) => number > step.number && movements.some(({ to }) => to === vessel),
  );
  // Empty containers are sterilised to be filled.
  if (filled && !isFull) return undefined;
  if (filled)
    return `, and step ${filled.number} puts more into it afterwards, so that it is made aseptically all the same. Take the step out, or sterilise it once it is filled and sealed`;
  const called = process === undefined ? "does not say so, and so counts as aseptic" : "is called aseptic";
  return `, and the preparation ${called}. Write \`sterility terminally-sterilised\`, or take the step out`;
}
