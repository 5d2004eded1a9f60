/** In which form of its drug a product's label counts what it holds: `strength 2 mg/mL as noradrenaline-tartrate`. */
import type { Stock } from "../model/declaration.ts";

/** Behind the figure itself, else behind the drug's name; undefined where the label names none. */
export function labelledForm({ facts }: Stock, figure: "strength" | "content"): string | undefined {
  const own = figure === "strength" ? facts.one("strength")?.slots.salt : facts.one("content")?.slots.salt;
  return (own ?? facts.one("drug")?.slots.salt)?.name;
}

/** Of what the dissolved powder gives: behind that figure itself, else the form in which the label counts the content. */
export function givenForm(stock: Stock): string | undefined {
  return stock.reconstitute?.one("gives")?.slots.salt?.name ?? labelledForm(stock, "content");
}
