/**
 * All that a recipe means: its own declaration, and what it rests on through stock, drug, fluid, device, bands, sources and the
 * site. Lots and inventories are never part of it: the shelf changes daily, a recipe does not. A comparison tells them on their own.
 *
 * Followed are the names that lead to facts which are computed or judged with. A name that is only compared (a drug that another
 * is incompatible with) is a fact of the declaration that says it, and is not followed; a look-alike is followed only as far as the
 * sheet prints its words (look-alikes.ts).
 */
import type { Library } from "../library.ts";
import type { Declaration, DeclarationKind, Recipe } from "../model/declaration.ts";
import type { Facts } from "../model/facts.ts";
import { keptWith } from "../model/kept-with.ts";
import type { NameSlot, SourceSlot } from "../model/slots.ts";

/** One declaration that a recipe rests on, and how it is reached: `materials vials`, `stock vancomycin-vial-500`, … */
export interface Reached {
  declaration: Declaration;
  /** From the recipe: each step says by what. The first is the recipe's own fact. */
  path: readonly string[];
}

interface Edge {
  kinds: readonly DeclarationKind[];
  name: string;
  by: string;
}

/** Without the recipe itself, each once, by the shortest path; in order of kind and name. */
export function restsOn(recipe: Recipe, library: Library): Reached[] {
  const reached = new Map<Declaration, Reached>();
  for (const site of library.ofKind("site")) reached.set(site, { declaration: site, path: ["the site's decisions"] });
  let rim: Reached[] = [{ declaration: recipe, path: [] }, ...reached.values()];
  while (rim.length > 0) {
    const next: Reached[] = [];
    for (const { declaration, path } of rim) {
      for (const { kinds, name, by } of edgesOf(declaration)) {
        for (const found of library.declared(name)) {
          if (!kinds.includes(found.kind) || reached.has(found)) continue;
          const step = { declaration: found, path: [...path, by] };
          reached.set(found, step);
          next.push(step);
        }
      }
    }
    rim = next;
  }
  return [...reached.values()].sort((a, b) => (nameOf(a.declaration) < nameOf(b.declaration) ? -1 : 1));
}

/** `stock vancomycin-vial-500`; the site has no name of its own. */
export function nameOf({ kind, name }: Declaration): string {
  return kind === "site" ? "site" : `${kind} ${name.name}`;
}

const product: readonly DeclarationKind[] = ["stock", "device"];
const substance: readonly DeclarationKind[] = ["drug", "fluid"];

const edgesOf = keptWith<Declaration, readonly Edge[]>(edgesIn);

function edgesIn(declaration: Declaration): Edge[] {
  switch (declaration.kind) {
    case "recipe":
      return recipeEdges(declaration);
    case "stock":
      return [
        ...named(declaration.facts as Facts, ["drug", "fluid", "contains"], substance),
        ...(declaration.reconstitute ? named(declaration.reconstitute as Facts, ["with"], substance) : []),
        ...sources(declaration.facts as Facts),
        ...(declaration.reconstitute ? sources(declaration.reconstitute as Facts) : []),
      ];
    case "drug":
      return [...sources(declaration.facts as Facts), ...declaration.stable.flatMap((s) => sources(s as Facts))];
    case "lots":
    case "reference":
      return [];
    default:
      return sources(declaration.facts as Facts);
  }
}

function recipeEdges(recipe: Recipe): Edge[] {
  const materials = recipe.materials.map(({ name, item }) => ({
    kinds: product,
    name: item.name,
    by: `material ${name.name}`,
  }));
  const order = recipe.order as Facts | undefined;
  const ordered = order ? named(order, ["drug", "additive", "diluent", "dose"], [...substance, "bands"]) : [];
  const blocks = [
    recipe.facts,
    order,
    ...recipe.preparations.map((p) => p.facts),
    ...recipe.examples.map((e) => e.facts),
  ];
  return [...ordered, ...materials, ...blocks.flatMap((facts) => (facts ? sources(facts as Facts) : []))];
}

/** Every name in these facts that a declaration of these kinds bears. */
function named(facts: Facts, words: readonly string[], kinds: readonly DeclarationKind[]): Edge[] {
  return words.flatMap((word) =>
    facts
      .all(word)
      .flatMap((fact) =>
        (Object.values(fact.slots as object) as Partial<NameSlot>[])
          .filter((slot) => typeof slot?.name === "string")
          .map((slot) => ({ kinds, name: slot.name!, by: word })),
      ),
  );
}

function sources(facts: Facts): Edge[] {
  return facts.every().flatMap((fact) => {
    const own = (fact.slots as { source?: SourceSlot }).source;
    return [fact.source, own]
      .filter((source) => source?.reference !== undefined)
      .map((source) => ({ kinds: ["reference" as const], name: source!.reference!.name, by: "source" }));
  });
}

const shared: readonly DeclarationKind[] = ["site", "drug", "fluid", "stock", "device", "bands"];

/** By these a sheet warns of another product. */
function warnings(declaration: Declaration): Edge[] {
  if (declaration.kind === "stock") return named(declaration.facts as Facts, ["looks-like"], ["stock"]);
  return declaration.kind === "drug" ? named(declaration.facts as Facts, ["confused"], ["drug"]) : [];
}

/** The names themselves, and those of all declarations but recipes that rest on one of them or warn of it; `site` where the site does. */
export function namesLeadingTo(names: ReadonlySet<string>, library: Library): Set<string> {
  const leading = new Set(names);
  const declarations = shared.flatMap((kind) => library.ofKind(kind));
  for (let found = true; found; ) {
    found = false;
    for (const declaration of declarations) {
      const edges = () => [...edgesOf(declaration), ...warnings(declaration)];
      if (leading.has(declaration.name.name) || !edges().some((e) => leading.has(e.name))) continue;
      leading.add(declaration.name.name);
      found = true;
    }
  }
  return leading;
}
