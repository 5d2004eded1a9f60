/** What a shortage of a stock would change: which recipes use it, and with which other stock each of them still works. */
import { endsOf } from "../bench/order.ts";
import { runRecipe } from "../bench/run.ts";
import type { Surroundings } from "../checks/chunk-finding.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Recipe, Stock } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import { nearNames } from "../model/near.ts";
import type { SheetRefusal } from "../sheet/sheet.ts";
import { type Against, errorsAgainst, errorsOfName } from "../sheet/standing-findings.ts";
import { lotChoice } from "./lots.ts";
import { type Replacement, replaced } from "./replaced-stock.ts";
import { stocksHolding } from "./stock-yield.ts";

export interface Alternative extends Replacement {
  /** Some lot of it is in date on the shelf. */
  isOnShelf: boolean;
}

export interface ShortRecipe {
  recipe: string;
  /** Those that work first; of those, the ones on the shelf first. */
  alternatives: readonly Alternative[];
  /** A stock on the shelf with which nothing new above a note is found. */
  stillWorks: boolean;
}

/** A recipe that uses the stock. One with an error of its own works with no stock. */
export interface UsingRecipe extends ShortRecipe {
  against: readonly Against[];
}

export interface Shortage {
  stock: string;
  asOf: string;
  /** Errors of what is declared under the stock's name: with any of them nobody knows which stock the answer is about. */
  against: readonly Against[];
  recipes: readonly UsingRecipe[];
}

export function shortageOf(library: Library, name: string): Shortage | SheetRefusal {
  const around = library.surroundings();
  const stock = around.lookup.find("stock", name);
  if (!stock) {
    const near = nearNames(name, around.lookup.names("stock"));
    const hint = near.length > 0 ? ` Did you mean ${near.join(" or ")}?` : "";
    return { refusal: `No stock is called "${name}" here.${hint}` };
  }
  const recipes = library
    .ofKind("recipe")
    .filter((d): d is Recipe => d.kind === "recipe")
    .filter((recipe) => recipe.materials.some((m) => m.item.name === name))
    .map((recipe): UsingRecipe => {
      const short = withoutStock(recipe, stock, around);
      const against = errorsNow(library, recipe, around);
      return { ...short, against, stillWorks: short.stillWorks && against.length === 0 };
    });
  return { stock: name, asOf: dateText(around.asOf), against: errorsOfName(library, name), recipes };
}

function errorsNow(library: Library, recipe: Recipe, { lookup, policy }: Surroundings): Against[] {
  const runs = endsOf(recipe).map((point) => runRecipe(recipe, lookup, policy, { point, overfill: "label" }));
  return errorsAgainst(library, recipe, runs);
}

export function withoutStock(recipe: Recipe, stock: Stock, around: Surroundings): ShortRecipe {
  const alternatives = stocksHolding(stock, around.lookup)
    .flatMap((other): Alternative[] => {
      const found = replaced(recipe, stock.name.name, other.name.name, around);
      return found ? [{ ...found, isOnShelf: isOnShelf(other.name.name, around.lookup, around) }] : [];
    })
    .sort((a, b) => rank(a) - rank(b) || (a.by < b.by ? -1 : 1));
  const stillWorks = alternatives.some((a) => a.verdict === "works" && a.isOnShelf);
  return { recipe: recipe.name.name, alternatives, stillWorks };
}

function rank({ verdict, isOnShelf: onShelf }: Alternative): number {
  return (verdict === "works" ? 0 : 2) + (onShelf ? 0 : 1);
}

function isOnShelf(stock: string, lookup: Lookup, { asOf }: Surroundings): boolean {
  return lotChoice(stock, lookup, asOf).use.length > 0;
}
