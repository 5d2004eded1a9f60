/**
 * Limits of dose, strength and rate. From language/LANGUAGE.md and tests/spec/products.md: `from` and `up to` include the figure, `above`
 * and `below` do not; rows for the very same circumstances add up and leave the gap between them forbidden; rows for wider and narrower
 * circumstances each hold on their own; a limit per kg and one of the whole both hold.
 */
import { measureOf } from "../oracle/figure.ts";
import { Fraction } from "../oracle/fraction.ts";
import { counted, heldOf, inHours, ionHeld, patientPart, perHour, size, volumeOf } from "./amounts.ts";
import type { LimitKind, LimitRow, Limits, Monograph, Scenario, Verdict } from "./scenario.ts";

export const isWithin = (limits: Limits, value: Fraction): boolean =>
  !isBelow(limits, value) && !isAbove(limits, value);

function isBelow({ low }: Limits, value: Fraction): boolean {
  if (!low) return false;
  const against = value.against(low.value);
  return against < 0 || (against === 0 && !low.included);
}

function isAbove({ high }: Limits, value: Fraction): boolean {
  if (!high) return false;
  const against = value.against(high.value);
  return against > 0 || (against === 0 && !high.included);
}

/** What a row would allow of this order, in the row's own unit; undefined where the order lacks a figure for it. */
export function measured(
  scenario: Scenario,
  drug: string,
  row: Pick<LimitRow, "kind" | "unit" | "ion" | "as">,
): Fraction | undefined {
  const [top = "", ...below] = row.unit.split("/");
  const asked = { ...row, unit: top };
  const held = { drug: heldOf(scenario, drug), ion: (ion: string) => ionHeld(scenario, ion) };
  const volume = volumeOf(scenario);
  const over = (value: Fraction | undefined, part: Fraction | undefined) =>
    value && part ? value.over(part) : undefined;
  if (row.kind === "dose") {
    const given = scenario.additives.find((each) => each.drug === drug)!.given ?? held.drug;
    const dose = counted(scenario, drug, { ...held, drug: given }, asked);
    return below.reduce((value, part) => over(value, patientPart(scenario, part)), dose);
  }
  if (row.kind !== "rate") return over(counted(scenario, drug, held, asked), volume.over(size(below[0]!)));
  const hours = hoursAsSet(scenario);
  if (!hours) return undefined;
  const each = (amount: Fraction) => amount.over(hours);
  const perHourAll =
    top === "mL"
      ? each(volume)
      : counted(scenario, drug, { drug: each(held.drug), ion: (ion) => each(held.ion(ion)) }, asked);
  return below.reduce<Fraction | undefined>((value, part) => {
    const times = perHour[part];
    return times ? value?.over(times) : over(value, patientPart(scenario, part));
  }, perHourAll);
}

/** mL in an hour at the stated rate. */
export function speed(scenario: Scenario): Fraction | undefined {
  const { at } = scenario.order;
  if (!at) return undefined;
  const [top = "", ...below] = at.unit.split("/");
  const drug = scenario.additives[0]!.drug;
  const asked = { unit: top, ...(at.as ? { as: at.as } : {}) };
  const all =
    top === "mL"
      ? volumeOf(scenario)
      : counted(scenario, drug, { drug: heldOf(scenario, drug), ion: () => Fraction.zero }, asked)!;
  // At `number` of these a time, the whole runs in so long.
  let rate = at.number;
  for (const part of below) {
    const times = perHour[part];
    rate = times ? rate.times(times) : rate.times(patientPart(scenario, part)!);
  }
  return volumeOf(scenario).times(rate).over(all);
}

/** How long the whole container runs, as the order says first of all. */
export function hoursOfGiving(scenario: Scenario): Fraction | undefined {
  const { over } = scenario.order;
  return over ? inHours(over) : hoursAsSet(scenario);
}

/** The same at the rate that the pump is set to, where one is ordered. */
function hoursAsSet(scenario: Scenario): Fraction | undefined {
  const at = speed(scenario);
  if (at) return volumeOf(scenario).over(at);
  const { over } = scenario.order;
  return over && inHours(over);
}

function holdsWhen(scenario: Scenario, drug: string, { when }: LimitRow): boolean {
  if (!when) return true;
  const { weight, age } = scenario.order;
  if (when.input === "weight") return isWithin(when, weight!);
  if (when.input === "age") return isWithin(when, age!);
  const additive = scenario.additives.find((each) => each.drug === drug)!;
  return isWithin(when, (additive.given ?? heldOf(scenario, drug)).over(size(when.unit)));
}

function applies(scenario: Scenario, drug: string, row: LimitRow): boolean {
  const { access, use } = scenario.order;
  const manner = use.endsWith("bolus") ? "bolus" : "infusion";
  return (
    row.route !== "intramuscular" &&
    (row.access === undefined || row.access === access) &&
    (row.use === undefined || row.use === manner) &&
    holdsWhen(scenario, drug, row)
  );
}

/** Rows of one group say together what is allowed: of like circumstances, and measuring alike. */
function circumstances({ kind, route, access, use, unit, ion }: LimitRow): string {
  const [top, ...below] = unit.split("/");
  const patient = below.filter((part) => part === "kg" || part === "m2").join();
  const measure = [patient, ion, measureOf(top!)].join("|");
  // Of doses the rows for the route of the order go before those for any route.
  return kind === "dose" ? measure : [measure, route, access, use].join("|");
}

const names: Readonly<Record<LimitKind, readonly [above: string, below: string]>> = {
  dose: ["dose-outside-window", "dose-outside-window"],
  concentration: ["concentration-above-limit", "concentration-below-limit"],
  "usual-concentration": ["concentration-unusual", "concentration-unusual"],
  rate: ["rate-above-limit", "rate-below-limit"],
};

export function limitVerdicts(scenario: Scenario): Verdict[] {
  return scenario.drugs.flatMap((drug) => [
    ...Object.keys(names).flatMap((kind) => ofKind(scenario, drug, kind as LimitKind)),
  ]);
}

function ofKind(scenario: Scenario, { fact, limits }: Monograph, kind: LimitKind): Verdict[] {
  const { name } = fact;
  const groups = new Map<string, LimitRow[]>();
  for (const row of limits) {
    if (row.kind !== kind || !applies(scenario, name, row)) continue;
    const key = circumstances(row);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  const spots = kind === "rate" ? ["infuse-at", "infuse-over"] : [`dose ${name}`];
  const sides = [...groups.values()].map((rows) => sideOf(scenario, name, kind === "dose" ? ownRoute(rows) : rows));
  if (kind === "dose") return doseVerdicts(groups, sides, spots);
  const said = new Set<string>();
  return [...groups.values()].flatMap((rows, i): Verdict[] => {
    const side = sides[i];
    // The same words are said once.
    const words = [side, rows.map(wordsOf).join(), kind === "rate" ? "" : circumstances(rows[0]!)].join(" ");
    if (side === undefined || said.has(words)) return [];
    said.add(words);
    const of = rows[0]!.ion ?? name;
    return [{ name: side === "unknown" ? "limit-not-compared" : names[kind][side], at: spots, of }];
  });
}

const wordsOf = ({ unit, low, high, ion, as }: LimitRow): string =>
  [unit, low?.included, low?.value, high?.included, high?.value, ion, as].join(" ");

type Side = 0 | 1 | "unknown" | undefined;

/** Above all of the rows, below or between them, within one, or not to be laid against them. */
function sideOf(scenario: Scenario, drug: string, rows: readonly LimitRow[]): Side {
  const values = rows.map((row) => [row, measured(scenario, drug, row)] as const);
  if (values.some(([, value]) => !value)) return "unknown";
  if (values.some(([row, value]) => isWithin(row, value!) && isOrderedWithin(scenario, drug, row))) return undefined;
  if (values.some(([row]) => isOnlyRounded(scenario, drug, row))) return undefined;
  return values.every(([row, value]) => isAbove(row, value!)) ? 0 : 1;
}

/** A cap would hide ten times too much per kg: what is ordered per kg is laid against a limit per kg as it is written. */
function isOrderedWithin(scenario: Scenario, drug: string, row: LimitRow): boolean {
  const perKilogram = orderedPerKilogram(scenario, drug, row);
  return perKilogram === undefined || isWithin(row, perKilogram);
}

function orderedPerKilogram(
  { additives }: Scenario,
  drug: string,
  { kind, unit, ion }: LimitRow,
): Fraction | undefined {
  const { ordered } = additives.find((each) => each.drug === drug)!;
  return kind === "dose" && !ion && ordered && unit.endsWith("/kg")
    ? ordered.over(size(unit.split("/")[0]!))
    : undefined;
}

/** What is ordered is within the limit, and rounding moves it no further than a draw may: 5 %. */
function isOnlyRounded(scenario: Scenario, drug: string, row: LimitRow): boolean {
  const perKilogram = orderedPerKilogram(scenario, drug, row);
  const { given, calculated } = scenario.additives.find((each) => each.drug === drug)!;
  if (!perKilogram || !isWithin(row, perKilogram) || !given || !calculated) return false;
  const off = given.over(calculated).minus(Fraction.one);
  const allowed = Fraction.of("0.05");
  return off.against(allowed) <= 0 && off.against(Fraction.zero.minus(allowed)) >= 0;
}

function ownRoute(rows: readonly LimitRow[]): readonly LimitRow[] {
  const own = rows.filter(({ route }) => route !== "any");
  return own.length > 0 ? own : rows;
}

/** What is outside is told once of the drug and once of each ion; what no window measures is told where none of the others does either. */
function doseVerdicts(groups: Map<string, LimitRow[]>, sides: readonly Side[], at: readonly string[]): Verdict[] {
  const all = [...groups.values()].map(([row], i) => [row!.ion, sides[i]] as const);
  return [...new Set(all.map(([ion]) => ion))].flatMap((of) => {
    const own = all.filter(([ion]) => ion === of).map(([, side]) => side);
    if (own.some((side) => side === 0 || side === 1)) return [{ name: "dose-outside-window", at }];
    return own.every((side) => side === "unknown") ? [{ name: "dose-not-compared", at }] : [];
  });
}
