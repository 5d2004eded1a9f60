/** How fast each drug is given, and the declared rates laid against it. All rates in base unit of the drug's kind per hour. */
import { amountOf, isRefusal, kindOf, kindUnits } from "../../bench/amounts.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import { forPatient } from "../../bench/order.ts";
import { rowAt } from "../../bench/order-rows.ts";
import { givingRate, orderedRate } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import { shortened } from "../../bench/spoken.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Policy } from "../../model/policy.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import type { RecipeContext } from "../context.ts";
import { amount } from "../showing.ts";
import { followsDose, type Side } from "./follows-dose.ts";
import { formText, type LimitRow } from "./limit-row.ts";
import { baseAmount, concentrations, groupsFor, keyOf, limitedBy, nearestEnd, rowsFor, sideOf } from "./limit-rows.ts";
import { type ReadAtTheMark, readAtTheMark } from "./read-at-the-mark.ts";
import { timeThatFits } from "./would-fit.ts";

export interface RateFound {
  at: Spot;
  drug: Drug;
  vessel: Vessel;
  /** What is limited: the drug, or an ion. */
  what: string;
  kind: AmountKind;
  /** All of it in the container; undefined where nobody knows how much of the ion there is. */
  held: Exact | undefined;
  /** Undefined where the order says nothing from which a rate follows. */
  rate: Exact | undefined;
  /** The rate in the unit of the limit, so that the two can be compared at a glance. */
  shown: string;
  side: Side | "unknown";
  rows: readonly LimitRow[];
  /** The order states the rate itself, and no time. */
  isByRate: boolean;
  /** The time of giving at which it would be allowed; undefined where the order states none, or none would help. */
  over?: string | undefined;
  /** The limit is broken only because a syringe is read at its mark, and the rate that was ordered. */
  mark?: { draw: ReadAtTheMark["draw"]; ordered: string } | undefined;
}

/** Every drug given outside a declared rate, or whose rate or limit cannot be worked out. */
export function rateBreaches({ recipe, runs, policy }: RecipeContext): RateFound[] {
  const found = new Map<string, RateFound>();
  const { order } = recipe;
  if (!order) return [];
  const isStarted = order.all("infuse-at").length > 0 || order.all("infuse-over").length > 0;
  // What is titrated has no rate of its own; the one that it is started at must be allowed all the same.
  if (!isStarted && order.one("use")?.slots.use.choice === "titrated") return [];
  for (const run of runs) {
    if (run.unknown) continue;
    const [over, pump] = [rowAt(order.all("infuse-over"), run), rowAt(order.all("infuse-at"), run)];
    const at = over ?? pump ?? order.one("dose") ?? order.one("use") ?? order.spot;
    for (const holding of concentrations(run)) {
      const { vessel, drug } = holding;
      for (const rows of groupsFor(rowsFor(drug.facts.all("rate") as readonly LimitRow[], run), run)) {
        const { what, kind, held } = limitedBy(rows, holding, run);
        const own = rateOf(recipe, run, vessel, drug, holding.kind, holding.now, policy);
        // All that is in the container runs in together, an ion and the liquid in proportion to the drug.
        const whole = vessel.liquid.amounts.get(drug.name.name);
        const isOfDrug = what === drug.name.name && kind === holding.kind;
        const rate = isOfDrug ? own : whole?.isPositive() && held ? own?.times(held).over(whole) : undefined;
        // Where any rate is allowed, an order that says none leaves nothing open.
        if (!rate && rows.some(({ slots }) => !slots.limits.low && !slots.limits.high)) continue;
        const hourly = perHourOf(kind, drug, run);
        const side = rate ? sideOf(rate, rows, hourly) : "unknown";
        const key = keyOf(rows, vessel, drug);
        const sideAt = (factor: Exact) => (rate ? sideOf(rate.times(factor), rows, hourly) : "unknown");
        if (side && side !== "unknown" && followsDose(drug.name.name, vessel, run, "rate", sideAt)) continue;
        const fits = (factor: Exact) => sideAt(factor) === undefined;
        if (side && !found.has(key)) {
          const show = (each: Exact) => rateLike(each, rows, hourly, kind, side);
          const read = side === "above" ? readAtTheMark(drug.name.name, vessel, run, fits) : undefined;
          const mark = read && rate ? { draw: read.draw, ordered: show(rate.times(read.share)) } : undefined;
          const shown = rate ? show(rate) : "";
          const end = side === "unknown" ? undefined : nearestEnd(rows[0]!, side);
          const limit = end && hourly(end, rows[0]!);
          const hours = hoursOfGiving(over?.slots.time.quantity);
          const fitting =
            hours && rate && limit?.isPositive() ? timeThatFits(hours, rate.over(limit), fits) : undefined;
          found.set(key, {
            at,
            drug,
            vessel,
            what,
            kind,
            held,
            rate,
            shown,
            side,
            rows,
            isByRate: !over && pump !== undefined,
            mark,
            over: fitting,
          });
        }
      }
    }
  }
  return [...found.values()];
}

/** A declared limit of rate that so many mL/h of a finished container would break. */
export interface RateLimit {
  drug: string;
  /** The rate that the mL/h bring, in the unit of the limit. */
  shown: string;
  /** `10 mg/min`. */
  limit: string;
}

export function rateLimitBroken(run: Run, volumeRate: Exact): RateLimit | undefined {
  for (const holding of run.unknown ? [] : concentrations(run)) {
    const { vessel, drug } = holding;
    for (const rows of groupsFor(rowsFor(drug.facts.all("rate") as readonly LimitRow[], run), run)) {
      const { kind, held } = limitedBy(rows, holding, run);
      const rate = held?.times(volumeRate).over(vessel.liquid.volume);
      const hourly = perHourOf(kind, drug, run);
      if (!rate || sideOf(rate, rows, hourly) !== "above") continue;
      const limit = nearestEnd(rows[0]!, "above")?.written;
      if (limit === undefined) continue;
      const shown = rateLike(rate, rows, hourly, kind, "above");
      return { drug: drug.name.name, shown, limit: `${limit}${formText(rows[0]!)}` };
    }
  }
  return undefined;
}

function rateLike(
  rate: Exact,
  rows: readonly LimitRow[],
  hourly: ReturnType<typeof perHourOf>,
  kind: AmountKind,
  side: Side | "unknown",
): string {
  const unit = nearestEnd(rows[0]!, side)?.quantity?.unit;
  const one = unit && hourly({ quantity: { value: Exact.one, unit } }, rows[0]!);
  return unit && one
    ? `${showQuantity({ value: shortened(rate.over(one).plain()), unit })}${formText(rows[0]!)}`
    : `${amount(rate, kind)}/h`;
}

function rateOf(
  recipe: Recipe,
  run: Run,
  vessel: Vessel,
  drug: Drug,
  kind: AmountKind,
  now: Exact,
  policy: Policy,
): Exact | undefined {
  const order = recipe.order!;
  const ordered = orderedRate(run);
  const pump = ordered?.rate.quantity;
  if (pump?.unit.dimension.key === "drops/time") {
    const rate = givingRate(run, vessel, policy)?.rate;
    return rate && now.times(inBase(rate));
  }
  if (pump && kindOf(pump) === "volume") {
    const rate = forPatient(pump, run.point);
    return rate?.unit.dimension.key === "volume/time" ? now.times(inBase(rate)) : undefined;
  }
  if (pump) return isOfWhichNotSaid(recipe, run, vessel) ? undefined : perHour(pump, kind, drug, run, ordered?.as);
  const dose = run.doses.find((d) => d.drug === drug.name.name);
  const counted = dose?.given && amountOf(dose.given, kind, drug.substance, dose.as, dose.ion);
  const given = counted && !isRefusal(counted) ? counted : undefined;
  if (dose && "time" in dose.per) {
    const time = hoursOfGiving(dose.per.time?.quantity);
    return given && time ? given.over(time) : undefined;
  }
  const time = hoursOfGiving(rowAt(order.all("infuse-over"), run)?.slots.time?.quantity);
  if (!time) return undefined;
  const part = order.one("use")?.slots.use.choice === "part-of-container";
  if (isPartNotSaid(recipe, run)) return undefined;
  const whole = part ? given : vessel.liquid.amounts.get(drug.name.name);
  return whole?.over(time);
}

/** An order by strength says what the container holds, and not how much of it one patient gets. */
export function isPartNotSaid({ order }: Recipe, run: Run): boolean {
  return order?.one("use")?.slots.use.choice === "part-of-container" && run.doses.some((dose) => dose.byConcentration);
}

/** `1 mg/h` of a syringe that holds two drugs is the rate of one of them, and nobody knows of which. */
export function isOfWhichNotSaid({ order }: Recipe, run: Run, vessel: Vessel): boolean {
  const pump = rowAt(order?.all("infuse-at") ?? [], run)?.slots.rate.quantity;
  return (
    pump !== undefined && kindOf(pump) !== "volume" && kindOf(pump) !== undefined && vessel.liquid.drugs.length > 1
  );
}

/** `150 mg/min`, `20 mg/kg/h`, `500 mg/m2/day` as an amount per hour for this patient. */
function perHour(
  quantity: Quantity | undefined,
  kind: AmountKind,
  drug: Drug,
  run: Run,
  as: string | undefined,
): Exact | undefined {
  if (!quantity) return undefined;
  const rate = forPatient(quantity, run.point);
  const numerator = kindOf(quantity);
  const below = rate?.unit.dimension.key.split("/").slice(1);
  if (!rate || !numerator || below?.join() !== "time") return undefined;
  return baseAmount({ value: inBase(rate), unit: kindUnits[numerator] }, kind, drug, as);
}

/** The ends of a row, in the form of the drug that it counts. */
function perHourOf(kind: AmountKind, drug: Drug, run: Run) {
  return ({ quantity }: Pick<MeasureSlot, "quantity">, { slots }: LimitRow) =>
    perHour(quantity, kind, drug, run, slots.salt?.name);
}
