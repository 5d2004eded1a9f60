/**
 * Other products that the sheet of a recipe warns of: what looks like one of its stocks, and what the drug of one of them is taken for.
 * Of such a product only those facts count that the caution prints (sheet/product.ts), so that a new storage or a new source of a
 * look-alike leaves every approval of its neighbours standing.
 */
import type { Library } from "../library.ts";
import type { Declaration, Drug, Recipe, Stock } from "../model/declaration.ts";
import { canonicalJson, type NameOf, type Plain, sameName } from "./canonical.ts";
import { type FactMeaning, meaningOf } from "./meaning.ts";
import { nameOf, type Reached, restsOn } from "./whole-meaning.ts";

/** Facts that a caution prints of each kind of declaration. */
const printed: { [kind: string]: ReadonlySet<string> } = {
  stock: new Set(["drug", "fluid", "strength", "content", "container", "fill", "capacity", "made-of"]),
  drug: new Set(["name"]),
  fluid: new Set(["name"]),
};

/** Without what the recipe itself rests on, each once, by the shortest path; in order of kind and name. */
export function lookAlikesOf(recipe: Recipe, library: Library): Reached[] {
  const rests = restsOn(recipe, library);
  const own = new Set<Declaration>(rests.map((r) => r.declaration));
  const found = new Map<Declaration, Reached>();
  const put = (kind: "stock" | "drug" | "fluid", name: string | undefined, path: readonly string[]) => {
    for (const declaration of name === undefined ? [] : library.declared(name)) {
      if (declaration.kind !== kind || found.has(declaration) || own.has(declaration)) continue;
      found.set(declaration, { declaration, path });
    }
  };
  const stocks = rests.flatMap(({ declaration, path }) =>
    declaration.kind === "stock" ? [{ stock: declaration, path }] : [],
  );
  for (const { stock, path } of stocks) {
    for (const { slots } of stock.facts.all("looks-like")) {
      const way = [...path, "looks-like"];
      put("stock", slots.stock.name, way);
      for (const other of declaredStocks(library, slots.stock.name)) {
        put("drug", other.facts.one("drug")?.slots.drug.name, [...way, "drug"]);
        put("fluid", other.facts.one("fluid")?.slots.fluid.name, [...way, "fluid"]);
      }
    }
    const drug = stock.facts.one("drug")?.slots.drug.name;
    for (const { facts } of drug === undefined ? [] : declaredDrugs(library, drug))
      for (const { slots } of facts.all("confused")) put("drug", slots.drug.name, [...path, "drug", "confused"]);
  }
  return [...found.values()].sort((a, b) => (nameOf(a.declaration) < nameOf(b.declaration) ? -1 : 1));
}

/** What a caution prints of the declaration: kind, name, and the facts by their values, without their sources. */
export function printedOf(declaration: Declaration, name: NameOf = sameName): Plain {
  const { kind, facts, ...meaning } = meaningOf(declaration, name);
  const words = printed[kind];
  const counted = facts.filter((f) => f.block === "" && words?.has(f.word)).map((f) => canonicalJson(bare(f)));
  return { kind, name: meaning.name, printed: counted.sort() };
}

/** What stands behind a value (source, by, until) bears a sign before its word: see meaning.ts. */
function bare({ word, value }: FactMeaning): Plain {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return [word, value];
  return [word, Object.fromEntries(Object.entries(value).filter(([key]) => !key.startsWith("…")))];
}

function declaredStocks(library: Library, name: string): Stock[] {
  return library.declared(name).filter((d): d is Stock => d.kind === "stock");
}

function declaredDrugs(library: Library, name: string): Drug[] {
  return library.declared(name).filter((d): d is Drug => d.kind === "drug");
}
