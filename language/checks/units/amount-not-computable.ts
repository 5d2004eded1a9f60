import { amountOf, isRefusal, kindOf, kindUnits, strengthOf } from "../../bench/amounts.ts";
import { labelledForm } from "../../bench/labelled-form.ts";
import { orderedRate } from "../../bench/rates.ts";
import { happened, type Run } from "../../bench/run.ts";
import { densityOf, heldNotStated, isContentUnread } from "../../bench/setup.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import type { Chunk, Drug, Stock } from "../../model/declaration.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isLeftPowder } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { isPowderSlip } from "../powder-slips.ts";
import { isInSameFile } from "../same-file.ts";
import { isNotKnown } from "../unread-facts.ts";
import { mayHaveDone } from "../unread-steps.ts";
import { expectedOf } from "./expected.ts";

interface NotComputable {
  at: Spot;
  reason: string;
  /** The stock whose figures cannot be read. */
  label?: Stock;
}

export const amountNotComputable = recipeCheck<NotComputable>({
  name: "amount-not-computable",
  family: "units",
  severity: "error",
  title: "An amount that does not follow from what is declared",
  why: "mg, units, mmol and mEq are turned into each other only through facts of the drug; a guess is a wrong dose.",
  source: "common practice",
  bad: example(["draw 4 g from mag", "draw 4,000 units from mag"]),
  good: example(),
  *find(context) {
    const { runs, chunk } = context;
    for (const run of runs) {
      yield* ofOrder(run);
      yield* ofRate(run);
      yield* ofSteps(run, context);
      yield* ofLabels(run, chunk);
    }
  },
  say: ({ reason, label }) =>
    label
      ? {
          text: reason,
          related: [{ at: { start: label.name.start, end: label.name.end, chunk: label.chunk }, text: "the stock" }],
        }
      : { text: reason },
});

/** The dose against the unit in which the drug's strength is declared, whether or not a step asks for it. */
function* ofOrder({ doses, setup }: Run): Iterable<NotComputable> {
  for (const dose of doses) {
    const { quantity, written } = dose.measure;
    if (dose.byConcentration && !dose.given && quantity?.unit.dimension.key === "mass/mass") {
      yield {
        at: { start: dose.measure.start, end: dose.measure.end },
        reason: `The ordered strength ${written} counts ${dose.drug} by the weight of the liquid, so how much of it the volume must hold is not known, and what the steps bring was laid against nothing. Order it in % w/v or mg/mL.`,
      };
    }
    const kind = setup.kinds.get(dose.drug);
    const drug = setup.drugs.get(dose.drug);
    if (!dose.given || !kind || !drug) continue;
    const amount = amountOf(dose.given, kind, drug.substance, dose.as, dose.ion);
    // A dose in hours or in percent is named by wrong-dimension, a form that the drug does not declare by salt-not-known.
    if (isCountingUnread(drug)) continue;
    if (isRefusal(amount) && amount.rule !== "form-not-declared" && isDose(dose.given)) {
      yield {
        at: { start: dose.measure.start, end: dose.measure.end },
        reason: `The dose of ${dose.drug}: ${amount.reason}${isByTime(dose.given) ? " Write the amount that the container holds, such as `4 g per bag`, or the time that it is for, such as `4 g per 24 h`." : ""}`,
      };
    }
  }
}

/** `4 g/day per bag`. */
function isByTime({ unit }: Quantity): boolean {
  return unit.parts.some(({ row, power }) => row.axis === "time" && power < 0);
}

function isDose({ unit }: Quantity): boolean {
  return expectedOf({ block: "order", word: "dose", slot: "dose" })!.fits.has(unit.dimension.key);
}

/** A rate that counts a form by something else than its mass. */
function* ofRate(run: Run): Iterable<NotComputable> {
  const { rate, as } = orderedRate(run) ?? {};
  const numerator = rate?.quantity && kindOf(rate.quantity);
  if (!rate || as === undefined || !numerator || numerator === "volume") return;
  for (const drug of new Set(run.doses.map((dose) => dose.drug))) {
    const kind = run.setup.kinds.get(drug);
    const substance = run.setup.drugs.get(drug)?.substance;
    const one = { value: Exact.one, unit: kindUnits[numerator] };
    const amount = kind && substance && amountOf(one, kind, substance, as);
    if (amount && isRefusal(amount) && amount.rule === "form-of-no-mass")
      yield { at: rate, reason: `The rate ${rate.written}: ${amount.reason}` };
  }
}

function* ofSteps(run: Run, context: RecipeContext): Iterable<NotComputable> {
  for (const { spot, step, data } of happened(run, "amount-not-computable")) {
    const { why, vessel, drug } = data;
    if (vessel && isLeftPowder(vessel, run)) continue;
    if (typeof why !== "string") {
      if (isCountingUnread(run.setup.drugs.get(drug))) continue;
      // The order's own dose is named there, where it cannot be counted; a step in hours or metres is named by wrong-dimension.
      if (asksForOrdered(step) ? [...ofOrder(run)].length > 0 : why.rule === "different-dimension") continue;
      yield { at: spot, reason: `Step ${step.number}: ${why.reason}` };
      continue;
    }
    if (why === "not-in-container" && isOfWrongKind(step)) continue;
    if (why === "no-powder-volume" && isPowderSlip(vessel?.stock, context)) continue;
    if (why === "no-powder-volume" && mayHaveDone(["reconstitute", "add", "inject"], run, step)) continue;
    const reason = labelRefused(why, vessel, drug, run) ?? inWords(why, vessel, drug);
    if (reason) yield { at: spot, reason: `Step ${step.number}: ${reason}` };
  }
}

/** `draw dose`, `draw rest of dose`. */
function asksForOrdered({ slots }: StepRun): boolean {
  return (slots as { figure?: unknown }).figure !== undefined;
}

/** The step asks in a unit that wrong-dimension names, such as `3 mL/kg`. */
function isOfWrongKind({ slots }: StepRun): boolean {
  const unit = (slots as { amount?: MeasureSlot }).amount?.quantity?.unit;
  return unit?.parts.some(({ power }) => power < 0) === true;
}

/** A fact by which amounts of the drug are turned into each other stands in a line that is told as unread. */
function isCountingUnread(drug: Drug | undefined): boolean {
  return ["formula", "ion", "counted-as", "salt", "density"].some((word) => isNotKnown(drug?.facts, word));
}

/** What cannot be read has its own finding at its own place: one for each stock, and only where that place is in another file. */
function* ofLabels(run: Run, chunk: Chunk): Iterable<NotComputable> {
  const told = new Set<string>();
  for (const { spot, step, data } of happened(run, "amount-not-computable")) {
    const stock = data.why === "content-unread" ? data.vessel?.stock : undefined;
    // Of a powder's label that is told by itself.
    if (!stock || !isContentUnread(stock) || told.has(stock.name.name)) continue;
    const lacking = isLineUnread(stock) ? undefined : heldNotStated(stock);
    // That a line is missing is no more than a warning at the stock.
    if (lacking === undefined && isInSameFile(stock.chunk, chunk)) continue;
    told.add(stock.name.name);
    const { name } = stock.name;
    const why =
      lacking === undefined
        ? `a line of stock ${name} cannot be read. Mend it there`
        : `stock ${name} states no ${lacking === "drug" ? "`drug` and no `fluid`" : "`fill`"}. State it there, from the label`;
    yield {
      at: spot,
      reason: `Step ${step.number}: the content of ${data.vessel!.name} is not known, because ${why}; until then nothing that these steps give is checked.`,
      label: stock,
    };
  }
}

function isLineUnread({ facts }: Stock): boolean {
  return (["drug", "fluid", "contains", "fill"] as const).some((word) => facts.isUnread(word));
}

/** The strength is declared, and counts what the drug's facts do not let it be counted in. */
function labelRefused(why: string, vessel: Vessel | undefined, drug: string, { setup }: Run): string | undefined {
  const label = why === "no-strength" ? vessel?.stock?.facts.one("strength")?.slots : undefined;
  const kind = setup.kinds.get(drug);
  const substance = setup.drugs.get(drug)?.substance;
  if (!label?.strength.quantity || !kind || !substance || !vessel?.stock) return undefined;
  const { stock } = vessel;
  const form = labelledForm(stock, "strength");
  const read = strengthOf(label.strength.quantity, kind, substance, form, densityOf(stock));
  if (!isRefusal(read)) return undefined;
  return `the strength of ${stock.name.name}, ${label.strength.written}, cannot be used: ${read.reason}`;
}

function inWords(why: string, vessel: Vessel | undefined, drug: string): string | undefined {
  const where = vessel ? thingName(vessel) : "the container";
  switch (why) {
    case "no-strength":
      return `how much ${drug} is in 1 mL of ${where} is not known. Declare the \`strength\` of its stock, or draw a volume.`;
    case "content-unread":
      return undefined;
    case "emptied":
      return `${where} has been emptied by the steps before, and gives no more ${drug}. Take another container, or leave the step out.`;
    case "no-powder-volume":
      return `${where} is still a powder, or the volume that it gives is not known. Reconstitute it before, and declare \`reconstitute\` with \`gives\`, or \`displacement\`.`;
    case "no-order":
      return `the order gives no dose of ${drug}. State it, or draw a volume.`;
    default:
      return `${where} holds ${drug === "" ? "no one drug" : `no ${drug}`} that this amount can speak of. Name a container that does, or draw a volume.`;
  }
}
