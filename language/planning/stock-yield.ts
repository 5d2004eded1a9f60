/** How much drug one container of a stock yields by its label, and at which strength it is drawn. */
import { amountOf, isRefusal, keptAs, strengthOf } from "../bench/amounts.ts";
import { givenForm, labelledForm } from "../bench/labelled-form.ts";
import type { AmountKind } from "../bench/liquid.ts";
import { densityOf } from "../bench/setup.ts";
import type { Drug, Stock } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";

export interface StockYield {
  stock: Stock;
  kind: AmountKind;
  /** Drug to be drawn from one container, in the base unit of its kind. */
  yields: Exact;
  /** Drug in a mL as it is drawn; undefined for a powder whose label gives no strength. */
  perMl: Exact | undefined;
}

/** @returns the figures, or in words what the label does not say */
export function yieldOf(stock: Stock, drug: Drug): StockYield | string {
  const { facts } = stock;
  const strength = facts.one("strength")?.slots;
  const content = facts.one("content")?.slots;
  if (strength?.strength.quantity) {
    const kind = keptAs(drug, strength.strength.quantity);
    const perMl = strengthOf(
      strength.strength.quantity,
      kind,
      drug.substance,
      labelledForm(stock, "strength"),
      densityOf(stock),
    );
    const fill = facts.one("fill")?.slots.fill.quantity;
    if (isRefusal(perMl)) return perMl.reason;
    if (!fill) return "its label states no fill";
    return { stock, kind, yields: perMl.times(inBase(fill)), perMl };
  }
  if (!content?.content.quantity) return "its label states neither strength nor content";
  const kind = keptAs(drug, content.content.quantity);
  const whole = amountOf(content.content.quantity, kind, drug.substance, labelledForm(stock, "content"));
  if (isRefusal(whole)) return whole.reason;
  const gives = stock.reconstitute?.one("gives")?.slots.strength.quantity;
  const withdrawable = stock.reconstitute?.one("withdrawable")?.slots.volume.quantity;
  const perMl = gives ? strengthOf(gives, kind, drug.substance, givenForm(stock)) : undefined;
  if (perMl && isRefusal(perMl)) return perMl.reason;
  const drawn = perMl && withdrawable ? perMl.times(inBase(withdrawable)) : whole;
  return { stock, kind, yields: Exact.least(whole, drawn), perMl };
}

/** Every stock of a drug in the library, by name. */
export function stocksOf(drug: string, lookup: Lookup): Stock[] {
  return [...new Set(lookup.names("stock"))].sort().flatMap((name) => {
    const stock = lookup.find("stock", name);
    return stock?.facts.one("drug")?.slots.drug.name === drug ? [stock] : [];
  });
}

/** Every other stock that holds the same drug, or the same fluid in the same kind of container. */
export function stocksHolding(stock: Stock, lookup: Lookup): Stock[] {
  const drug = stock.facts.one("drug")?.slots.drug.name;
  const fluid = stock.facts.one("fluid")?.slots.fluid.name;
  return [...new Set(lookup.names("stock"))].sort().flatMap((name) => {
    const other = name === stock.name.name ? undefined : lookup.find("stock", name);
    if (!other) return [];
    const same =
      (drug !== undefined && other.facts.one("drug")?.slots.drug.name === drug) ||
      (drug === undefined &&
        fluid !== undefined &&
        other.facts.one("fluid")?.slots.fluid.name === fluid &&
        other.facts.one("container")?.slots.kind.choice === stock.facts.one("container")?.slots.kind.choice);
    return same ? [other] : [];
  });
}
