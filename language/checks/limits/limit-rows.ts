/**
 * Declared limits laid against a finished container. Rows for the same route, access and use belong together and leave the gaps
 * between them forbidden; rows for different circumstances, or of another measure, each hold on their own, so that the strictest wins.
 */
import { amountOf, isRefusal, kindOf, strengthOf } from "../../bench/amounts.ts";
import { isGivenAtOnce } from "../../bench/given-at-once.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import { holds, rowAt } from "../../bench/order-rows.ts";
import { oncePerRun } from "../../bench/remembered-run.ts";
import type { Run } from "../../bench/run.ts";
import { shortened } from "../../bench/spoken.ts";
import { ionHeld } from "../../bench/targets.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import type { RecipeContext } from "../context.ts";
import { strength } from "../showing.ts";
import { followsDose, type Side } from "./follows-dose.ts";
import { circumstances, formText, type LimitRow, limitsText } from "./limit-row.ts";
import { isSameRoute, routeMeant } from "./route-words.ts";
import { volumeThatFits } from "./would-fit.ts";

export interface Breach {
  at: Spot;
  drug: Drug;
  vessel: Vessel;
  /** What is limited: the drug, or an ion. */
  what: string;
  kind: AmountKind;
  /** Amount in base unit of `kind` per mL; undefined where nobody knows how much of the ion there is. */
  now: Exact | undefined;
  side: Side;
  rows: readonly LimitRow[];
  /** mL up to which it would have to be diluted; undefined where that is not known, or would not help. */
  enough?: string | undefined;
}

/** The rows that may hold for this patient and dose: all whose condition is not known to fail. */
export function rowsFor(rows: readonly LimitRow[], { point, doses }: Run): readonly LimitRow[] {
  if (rows.every(({ when }) => !when)) return rows;
  return rows.filter(({ when }) => !when || holds(when, point, doses) !== false);
}

/** The rows that hold for this order, in groups of like circumstances. What the order leaves open is taken as possible. */
export function groupsFor(rows: readonly LimitRow[], run: Run): readonly (readonly LimitRow[])[] {
  const { recipe } = run;
  const { order } = recipe;
  const route = order?.one("route")?.slots.route.name ?? "";
  const access = rowAt(order?.all("access"), run)?.slots.access.choice;
  const use = useOf(recipe);
  const circumstances = `${route} ${access ?? ""} ${use ?? ""}`;
  const known = groupsOf(rows);
  const before = known.get(circumstances);
  if (before) return before;
  const groups = grouped(rows, route, access, use);
  known.set(circumstances, groups);
  return groups;
}

/** The rows of a drug are one list as long as its text stays the same, and hundreds of recipes are laid against it. */
const groupsOf = keptWith<readonly LimitRow[], Map<string, readonly (readonly LimitRow[])[]>>(() => new Map());

function grouped(
  rows: readonly LimitRow[],
  route: string,
  access: string | undefined,
  use: string | undefined,
): LimitRow[][] {
  const alike = new Map<string, LimitRow[]>();
  for (const row of rows) {
    const { slots } = row;
    if (slots.route && !isSameRoute(slots.route.name, route)) continue;
    if (slots.access && access !== undefined && slots.access.choice !== access) continue;
    if (slots.use && use !== undefined && slots.use.choice !== use) continue;
    const of = slots.ion ? `${slots.ion.name} ${kindOfLimit(row)} ` : "";
    const key = `${of}${slots.route ? routeMeant(slots.route.name) : "any"} ${slots.access?.choice ?? "any"} ${slots.use?.choice ?? "any"}`;
    alike.set(key, [...(alike.get(key) ?? []), row]);
  }
  return [...alike.values()].flatMap(byMeasure);
}

/** A limit per kg does not lift the limit of the whole rate: only rows that measure alike add up. */
function byMeasure(rows: LimitRow[]): LimitRow[][] {
  const measures = new Set(rows.flatMap((row) => measureOf(row) ?? []));
  if (measures.size < 2) return [rows];
  return [...measures].map((measure) => rows.filter((row) => (measureOf(row) ?? measure) === measure));
}

/** Undefined where the row allows anything. */
function measureOf({ slots: { limits } }: LimitRow): string | undefined {
  return (limits.high ?? limits.low)?.measure.quantity?.unit.dimension.key;
}

/** An ion's limit in mmol and another in mEq do not make one interval. */
function kindOfLimit({ slots: { limits } }: LimitRow): AmountKind | undefined {
  const quantity = (limits.high ?? limits.low)?.measure.quantity;
  return quantity && kindOf(quantity);
}

export interface Limited {
  /** The drug, or the ion. */
  what: string;
  kind: AmountKind;
  /** All of it in the container; undefined where nobody knows how much. */
  held: Exact | undefined;
}

/**
 * What a group of rows speaks of in a container that holds so much of the drug: the drug itself, an ion over all its sources, or, of a rate
 * in mL/h or mL/kg/h, the liquid that holds the drug.
 */
export function limitedBy(
  rows: readonly LimitRow[],
  { drug, vessel, kind }: { drug: Drug; vessel: Vessel; kind: AmountKind },
  run: Run,
): Limited {
  const [row] = rows;
  const ion = row?.slots.ion?.name;
  if (!row || ion === undefined) {
    const what = drug.name.name;
    // A share by volume (`up to 10 % v/v`) is one of the drug.
    if (row && kindOfLimit(row) === "volume" && /\btime\b/.test(measureOf(row) ?? ""))
      return { what, kind: "volume", held: vessel.liquid.volume };
    return { what, kind, held: vessel.liquid.amounts.get(what) };
  }
  const counted = kindOfLimit(row) ?? "moles";
  return { what: ion, kind: counted, held: ionHeld(vessel, ion, counted, run) };
}

function useOf(recipe: Recipe): "bolus" | "infusion" | undefined {
  const { order } = recipe;
  const stated = order?.one("use")?.slots.use.choice;
  if (isGivenAtOnce(recipe)) return "bolus";
  if (stated === "infusion" || stated === "titrated") return "infusion";
  return order?.one("infuse-over") || order?.one("infuse-at") ? "infusion" : undefined;
}

/** The end of a row that a value on this side of it is laid against. */
export function nearestEnd({ slots: { limits } }: LimitRow, side: Side | "unknown"): MeasureSlot | undefined {
  const { high, low } = limits;
  return (side === "below" ? (low ?? high) : (high ?? low))?.measure;
}

/**
 * The strength in the unit of the limit, so that the two can be compared at a glance.
 */
export function strengthLike(
  now: Exact | undefined,
  rows: readonly LimitRow[],
  kind: AmountKind,
  drug: Drug,
  side: Side | "unknown" = "above",
): string {
  if (!now) return "not known";
  const unit = nearestEnd(rows[0]!, side)?.quantity?.unit;
  const one = unit && perMillilitreOf({ value: Exact.one, unit }, kind, drug, rows[0]);
  return unit && one
    ? `${showQuantity({ value: shortened(now.over(one).plain()), unit })}${formText(rows[0]!)}`
    : strength(now, Exact.one, kind);
}

/** Where a value stands to a group of intervals: undefined inside one of them, `unknown` where an end cannot be compared. */
export function sideOf(
  value: Exact,
  rows: readonly LimitRow[],
  read: (measure: MeasureSlot, row: LimitRow) => Exact | undefined,
): Side | "unknown" | undefined {
  let above = false;
  let below = false;
  for (const row of rows) {
    const { low, high } = row.slots.limits;
    const least = low ? read(low.measure, row) : undefined;
    const most = high ? read(high.measure, row) : undefined;
    if ((low && !least) || (high && !most)) return "unknown";
    const tooLow = least !== undefined && (value.isBelow(least) || (value.equals(least) && !low!.included));
    const tooHigh = most !== undefined && (value.isAbove(most) || (value.equals(most) && !high!.included));
    if (!tooLow && !tooHigh) return undefined;
    above ||= tooHigh;
    below ||= tooLow;
  }
  return above && below ? "between" : above ? "above" : "below";
}

/** Every finished container whose concentration lies outside a group of rows, in the first run that shows it. */
export function breaches(
  { recipe, runs }: RecipeContext,
  word: "concentration" | "usual-concentration",
): (Breach | (Omit<Breach, "side"> & { side: "unknown" }))[] {
  const found = new Map<string, Breach | (Omit<Breach, "side"> & { side: "unknown" })>();
  for (const run of runs) {
    if (run.unknown) continue;
    for (const holding of concentrations(run)) {
      const { vessel, drug } = holding;
      const limits = rowsFor(drug.facts.all(word) as readonly LimitRow[], run);
      if (limits.length === 0) continue;
      for (const rows of groupsFor(limits, run)) {
        const { what, kind, held } = limitedBy(rows, holding, run);
        const now = held?.over(vessel.liquid.volume);
        const side = now ? sideOf(now, rows, (m, row) => perMillilitre(m, kind, drug, row)) : "unknown";
        const key = keyOf(rows, vessel, drug);
        const sideAt = (factor: Exact) =>
          now ? sideOf(now.times(factor), rows, (m, row) => perMillilitre(m, kind, drug, row)) : "unknown";
        if (side && side !== "unknown" && followsDose(drug.name.name, vessel, run, "concentration", sideAt)) continue;
        if (side && !found.has(key)) {
          const end = side === "above" ? nearestEnd(rows[0]!, side) : undefined;
          const limit = end && perMillilitre(end, kind, drug, rows[0]!);
          const fits = (factor: Exact) => sideAt(factor) === undefined;
          const enough =
            now && limit?.isPositive() ? volumeThatFits(vessel.liquid.volume, now.over(limit), fits) : undefined;
          found.set(key, { at: statedAt(recipe, vessel, drug), drug, vessel, what, kind, now, side, rows, enough });
        }
      }
    }
  }
  return [...found.values()];
}

/** An ion's limit that several of its drugs state alike is told once. */
export function keyOf(rows: readonly LimitRow[], vessel: Vessel, drug: Drug): string {
  const [row] = rows;
  return row?.slots.ion
    ? `${vessel.name} ${row.slots.ion.name} ${limitsText(rows)} ${circumstances(row)}`
    : `${vessel.name} ${drug.name.name} ${row!.start}`;
}

export const concentrations = oncePerRun(inFinals);

function inFinals(run: Run): readonly { vessel: Vessel; drug: Drug; kind: AmountKind; now: Exact }[] {
  return run.finals.flatMap((vessel) =>
    [...vessel.liquid.amounts].flatMap(([name, held]) => {
      const drug = run.setup.drugs.get(name);
      const kind = run.setup.kinds.get(name);
      return drug && kind && vessel.liquid.volume.isPositive()
        ? [{ vessel, drug, kind, now: held.over(vessel.liquid.volume) }]
        : [];
    }),
  );
}

function perMillilitre(measure: MeasureSlot, kind: AmountKind, drug: Drug, row: LimitRow): Exact | undefined {
  return measure.quantity && perMillilitreOf(measure.quantity, kind, drug, row);
}

function perMillilitreOf(
  quantity: Quantity,
  kind: AmountKind,
  drug: Drug,
  row: LimitRow | undefined,
): Exact | undefined {
  const value = quantity.unit.dimension.key.endsWith("/volume")
    ? strengthOf(quantity, kind, drug.substance, row?.slots.salt?.name)
    : undefined;
  return value && !isRefusal(value) ? value : undefined;
}

/** The stated concentration of the drug in that container, else its dose, else the name of the preparation. */
export function statedAt(recipe: Recipe, vessel: Vessel, drug: Drug): Spot {
  const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
  const stated = preparation?.facts
    .all("concentration")
    .find((f) => !f.slots.ion && (!f.slots.drug || f.slots.drug.name === drug.name.name));
  const additive = recipe.order?.all("additive").find((f) => f.slots.drug.name === drug.name.name);
  return stated ?? additive ?? recipe.order?.one("dose") ?? preparation?.name ?? vessel.material.name;
}

/** Drawn from one product and nothing added: the strength is that of its label. */
export function isUndiluted(vessel: Vessel, run: Run): boolean {
  const [only, second] = vessel.liquid.stocks;
  if (only === undefined || second !== undefined) return false;
  for (const { item } of run.groups.values()) {
    if (item?.kind !== "stock" || item.name.name !== only) continue;
    return item.facts.one("premixed")?.slots.answer.choice !== "yes" && !item.reconstitute;
  }
  return false;
}

/** An amount quantity of the drug, counted as the form that it names, in base units of `kind`; undefined where it cannot be converted. */
export function baseAmount(quantity: Quantity, kind: AmountKind, drug: Drug, as?: string): Exact | undefined {
  const value = amountOf(quantity, kind, drug.substance, as);
  return isRefusal(value) ? undefined : value;
}
