/**
 * The working of how fast a finished container is given. The figures are those of bench/rates.ts; here they are only put into lines,
 * with the two roundings named: to what the pump can be set to, and to whole drops.
 */
import { inForm, isRefusal } from "../bench/amounts.ts";
import { rowAt } from "../bench/order-rows.ts";
import { doseRateTable, givingRate, orderedRate } from "../bench/rates.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import { substanceIn } from "./amount-words.ts";
import { alike, type Content, contentsOf } from "./contents.ts";
import { line, millilitres, shown, type Working, type WorkingLine } from "./working.ts";

const pumpUnit = findUnit("mL/h").unit!;
const hour = findUnit("h").unit!;

export interface PumpRate {
  /** mL/h. */
  exact: Quantity;
  /** As the site's pumps can be set. */
  set: Quantity;
  lines: WorkingLine[];
}

/** The rate at the order's own point; undefined where none is ordered or figures are not known. */
export function pumpRateOf(run: Run, vessel: Vessel): PumpRate | undefined {
  const giving = givingRate(run, vessel, run.policy);
  if (!giving) return undefined;
  const { order } = run.recipe;
  const exact = giving.rate;
  const { rate: ordered, as } = orderedRate(run) ?? {};
  if (ordered?.quantity && ordered.quantity.unit.dimension.key !== "volume/time") {
    const byDose = rateAtWeight(run, vessel, ordered.quantity, run.point.get("weight"), as);
    const text = `${ordered.written}, on this giving set = ${shown(exact)}`;
    return (
      byDose ?? {
        exact,
        set: giving.pump,
        lines: [line("computed", text, exact), ...rounding(run, exact, giving.pump)],
      }
    );
  }
  const time = rowAt(order?.all("infuse-over"), run)?.slots.time.written ?? shown({ value: giving.hours, unit: hour });
  const how = ordered
    ? line("ordered", `as ordered: ${ordered.written}`, exact)
    : line("computed", `${shown(millilitres(giving.volume))} ÷ ${time} = ${shown(exact)}`, exact);
  // The bare rate of an order needs no working on paper.
  return { exact, set: giving.pump, lines: [how, ...rounding(run, exact, giving.pump)] };
}

/** For a container of one drug given at a dose rate, counted as the form `as`; undefined where no such rate can be said. */
export function rateAtWeight(
  run: Run,
  vessel: Vessel,
  ordered: Quantity,
  weight: Quantity | undefined,
  as: string | undefined,
): PumpRate | undefined {
  const [content, second] = contentsOf(run, vessel);
  if (!content || second) return undefined;
  const weights = weight ? [weight] : [];
  const table = doseRateTable(run, vessel, content.drug, [ordered], weights, run.policy, as);
  const cell = typeof table === "string" ? undefined : table.rows[0]?.cells[0];
  if (!cell) return undefined;
  const by = isPerWeight(ordered) && weight ? ` × ${showQuantity(weight)}` : "";
  const strength = strengthAs(run, content, as);
  if (!strength) return undefined;
  const form = as === undefined ? "" : ` as ${as}`;
  const text = `${showQuantity(ordered)}${form}${by} ÷ ${shown(strength)}${form} = ${shown(cell.exact)}`;
  const turned = strength === content.concentration ? [] : [inFormLine(content.concentration, strength, form)];
  const lines = [...turned, line("computed", text, cell.exact), ...rounding(run, cell.exact, cell.pump)];
  return { exact: cell.exact, set: cell.pump, lines };
}

/** The strength counted as the form that the rate names. */
function strengthAs(run: Run, { drug, concentration }: Content, as: string | undefined): Quantity | undefined {
  const turned = inForm(concentration, substanceIn(run, drug), undefined, as);
  if (isRefusal(turned)) return undefined;
  return turned.value.equals(concentration.value) ? concentration : turned;
}

function inFormLine(own: Quantity, strength: Quantity, form: string): WorkingLine {
  return line("converted", `${shown(own)} = ${shown(strength)}${form}`, strength);
}

export function isPerWeight(rate: Quantity): boolean {
  return rate.unit.dimension.key.split("/").includes("bodyWeight");
}

function rounding(run: Run, exact: Quantity, set: Quantity): WorkingLine[] {
  if (set.value.equals(exact.value)) return [];
  const steps = showQuantity({ value: run.policy.pumpStep, unit: pumpUnit });
  const text = `pump set half up to the nearest ${steps}: ${shown(exact)} becomes ${showQuantity(set)}`;
  return [line("rounded", text, set)];
}

/** Rate of the pump and, with a giving set whose drops are declared, drops a minute. At the order's own point only. */
export function rateWorkings(run: Run): Working[] {
  const [first, second] = alike(run);
  // Containers that differ would need a rate each; none is guessed.
  if (!first || second) return [];
  const rate = pumpRateOf(run, first.vessel);
  if (!rate) return [];
  return [
    {
      kind: "rate",
      of: [],
      key: "pump rate",
      label: `Pump rate of ${first.name}`,
      step: undefined,
      value: rate.set,
      text: showQuantity(rate.set),
      lines: rate.lines,
    },
    ...dropWorkings(run, first.vessel),
  ];
}

function dropWorkings(run: Run, vessel: Vessel): Working[] {
  const giving = givingRate(run, vessel, run.policy);
  const drops = giving?.drops;
  if (!giving || !drops) return [];
  const { exact, counted, factor, set } = drops;
  const text = `${shown(giving.rate)} × ${showQuantity(factor)} ÷ 60 min/h = ${shown(exact)}`;
  const rounded = line("rounded", `rounded half up to whole drops: ${showQuantity(counted)}`, counted);
  return [
    {
      kind: "drops",
      of: [set],
      key: `drops ${set}`,
      label: `Drops by ${set}`,
      step: undefined,
      value: counted,
      text: showQuantity(counted),
      lines: [line("computed", text, exact), ...(counted.value.equals(exact.value) ? [] : [rounded])],
    },
  ];
}
