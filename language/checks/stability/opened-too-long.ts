import { limitOnceOpened } from "../../bench/opened-products.ts";
import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { UseLimit } from "../../bench/use-limit.ts";
import { inTime } from "../../bench/waited.ts";
import type { Policy } from "../../model/policy.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { powderExample } from "../example.ts";
import { stoodIn } from "./standing.ts";

interface TooLong {
  at: Spot;
  step: StepRun;
  vessel: Vessel;
  opened: StepRun;
  waited: Exact;
  /** Undefined of an ampoule, which is not kept at all. */
  limit: UseLimit | undefined;
}

/** Hours that an opened ampoule may stand while its own work is done: common practice, from memory. */
const workAtAmpoule = Exact.of(1);

const draw = "    draw 500 mg from vial into measure at equal pressure  = 10 mL\n";
const forSeveral: [string, string] = [
  "  content    500 mg\n  doses      single\n",
  '  content    500 mg\n  doses      multiple\n  in-use     6 h  source guide "vancomycin"\n',
];
const later = (time: string): [string, string] => [draw, `    wait ${time}\n    disinfect vial\n${draw}`];

export const openedTooLong = recipeCheck<TooLong>({
  name: "opened-too-long",
  family: "stability",
  severity: "error",
  title: "A product is entered again after the time that it may be used once opened",
  why: "What an opened container lets in grows; its limit runs from the first needle, whoever put it there.",
  source:
    "California Code of Regulations, Title 16, section 1751.9 Single-dose and multi-dose containers (State of California, operative 1 January 2017)",
  bad: powderExample(forSeveral, later("8 h")),
  good: powderExample(forSeveral, later("5 h")),
  *find({ recipe, run, policy }) {
    const found = new Set<Vessel>();
    const stood = isTold("stood-longer-than-stable", { recipe, policy }) ? stoodIn(run) : [];
    for (const step of run.steps) {
      for (const { from: vessel } of step.movements) {
        if (!vessel?.stock || found.has(vessel) || run.finals.includes(vessel)) continue;
        const opened = firstEntered(vessel, run);
        if (!opened || opened.number >= step.number) continue;
        const waited = waitedBetween(opened, step, run);
        if (!waited.isPositive()) continue;
        if (stood.some(({ drug }) => isOf(vessel, drug.name.name))) continue;
        const limit = limitOf(vessel, run, policy);
        const isAmpoule = vessel.kind === "ampoule";
        const most = isAmpoule ? workAtAmpoule : limit?.hours;
        if (!most || !waited.isAbove(most)) continue;
        found.add(vessel);
        yield { at: step.step, step, vessel, opened, waited, limit: isAmpoule ? undefined : limit };
      }
    }
  },
  say: ({ step, vessel, opened, waited, limit }) => ({
    text: `Step ${step.number} draws from ${vessel.name}, which step ${opened.number} opened. The steps wait ${showQuantity(inTime(waited))} between, and ${
      limit
        ? `once opened it serves for ${limit.written} (${limit.footing === "declared" ? `\`in-use\` of ${limit.name}` : limit.source})`
        : "what is left in an opened ampoule is not kept"
    }. Take a new one, or draw it before the waiting.`,
    related: [{ at: opened.step, text: "opened here" }],
  }),
});

/** Its own limit; the site's table only where no row of its drug says how long it keeps once opened or dissolved. */
function limitOf(vessel: Vessel, run: Run, policy: Policy): UseLimit | undefined {
  const limit = vessel.stock && limitOnceOpened(vessel.stock, vessel, policy);
  if (limit?.footing === "declared") return limit;
  const isStudied = [...run.setup.drugs].some(
    ([name, drug]) =>
      isOf(vessel, name) && drug.stable.some((row) => row.one("counted-from")?.slots.event.choice !== "mixing"),
  );
  return isStudied ? undefined : limit;
}

function isOf({ stock }: Vessel, drug: string): boolean {
  return stock?.facts.one("drug")?.slots.drug.name === drug;
}

function firstEntered(vessel: Vessel, { steps }: Run): StepRun | undefined {
  return steps.find(
    (step) =>
      !step.skipped &&
      (vessel.opened === step || step.movements.some(({ from, to }) => from === vessel || to === vessel)),
  );
}

function waitedBetween(first: StepRun, last: StepRun, { steps }: Run): Exact {
  return steps
    .filter(({ number, skipped, verb }) => number > first.number && number < last.number && !skipped && verb === "wait")
    .reduce(
      (sum, { slots }) => sum.plus(hours((slots as { time?: MeasureSlot }).time?.quantity, 28) ?? Exact.zero),
      Exact.zero,
    );
}
