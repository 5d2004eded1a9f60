/** Who must get no preservative, and what the products say that reach them. */
import { inputRanges } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe, Stock } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { NameSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { isNotKnown } from "../unread-facts.ts";
import { isGuarded } from "./guarded-routes.ts";

/** The neonatal period: the first 28 days of life (World Health Organization, from memory). */
const newbornUntil = Exact.of(28 * 24);
const daysInMonth = 30;

/** A newborn by its word, or by an age that begins within the first 28 days. */
export function isForNewborn(recipe: Recipe): boolean {
  if (recipe.order?.one("population")?.slots.who.choice === "neonate") return true;
  return inputRanges(recipe).some(({ input, range }) => {
    const youngest = input === "age" ? hours(range.from.quantity, daysInMonth) : undefined;
    return youngest?.isBelow(newbornUntil) ?? false;
  });
}

/** `route epidural`, `a neonate`: to whom no preservative may go; undefined where one may. */
export function unpreservedFor(recipe: Recipe): string | undefined {
  const route = recipe.order?.one("route")?.slots.route.name ?? "";
  if (isGuarded(route)) return `route ${route}`;
  return isForNewborn(recipe) ? "a neonate" : undefined;
}

/** Each product of which something is in a finished container, once, at its first line of materials. */
export function* productsGiven(recipe: Recipe, run: Run, lookup: Lookup): Iterable<{ at: NameSlot; stock: Stock }> {
  const reached = new Set(run.finals.flatMap((v) => v.liquid.stocks));
  for (const { item } of recipe.materials) {
    const stock = reached.delete(item.name) ? lookup.find("stock", item.name) : undefined;
    if (stock) yield { at: item, stock };
  }
}

/** `none`, the name of a preservative, or undefined where the product does not say or what it says cannot be read. */
export function preservativeOf({ facts }: Stock): string | undefined {
  return facts.one("preservative")?.slots.what.name;
}

/** Nothing is said, and no line that cannot be read might say it. */
export function saysNothing({ facts }: Stock): boolean {
  return facts.one("preservative") === undefined && !isNotKnown(facts, "preservative");
}

/** A product for several doses, which is taken to be preserved until it says that it is not. */
export function isMultiple({ facts }: Stock): boolean {
  return facts.one("doses")?.slots.doses.choice === "multiple";
}
