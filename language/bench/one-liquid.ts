/** Packs of one drug in one strength and form hold one and the same liquid: an ampoule of 5 mL beside one of 10 mL. */
import type { Stock } from "../model/declaration.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import { givenForm, labelledForm } from "./labelled-form.ts";

/**
 * Whether what two stocks hold may be drawn together as one liquid: the same drug, counted in the same form and equally strong, with the
 * same other contents and preservative. Powders are one liquid where their labels dissolve them in the same fluid to the same strength.
 */
export function isOneLiquid(one: Stock, other: Stock): boolean {
  if (one.name.name === other.name.name) return true;
  const drug = one.facts.one("drug")?.slots.drug.name;
  if (drug === undefined || drug !== other.facts.one("drug")?.slots.drug.name) return false;
  return (
    isPowder(one) === isPowder(other) &&
    formOf(one) === formOf(other) &&
    isSame(strengthOf(one), strengthOf(other)) &&
    otherwiseHeld(one) === otherwiseHeld(other) &&
    isPreservedAlike(one, other)
  );
}

function isPowder({ facts }: Stock): boolean {
  return facts.one("container")?.slots.kind.choice === "powder-vial";
}

/** In which the compared strength is counted. */
function formOf(stock: Stock): string | undefined {
  return isPowder(stock) ? givenForm(stock) : labelledForm(stock, "strength");
}

function strengthOf(stock: Stock): Quantity | undefined {
  return isPowder(stock)
    ? stock.reconstitute?.one("gives")?.slots.strength.quantity
    : stock.facts.one("strength")?.slots.strength.quantity;
}

/** What is not stated is not known to be the same. */
function isSame(one: Quantity | undefined, other: Quantity | undefined): boolean {
  return !!one && !!other && one.unit.dimension === other.unit.dimension && inBase(one).equals(inBase(other));
}

function otherwiseHeld({ facts, reconstitute }: Stock): string {
  const contains = facts.all("contains").map(({ slots }) => `${slots.what.name} ${slots.amount.written}`);
  return [...contains.sort(), reconstitute?.one("with")?.slots.fluid.name ?? ""].join("; ");
}

/** Where one of them does not say, that is told of it by a check of its own. */
function isPreservedAlike(...stocks: readonly [Stock, Stock]): boolean {
  const [one, other] = stocks.map(({ facts }) => facts.one("preservative")?.slots.what.name);
  return one === undefined || other === undefined || one === other;
}
