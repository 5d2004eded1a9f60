/**
 * Lines that cannot be read in the declarations on which a recipe rests and that stand in other files. Whoever checks the recipe alone
 * would take it for clean, so that it says which of them it was not judged by; what would only say again that the fact is missing is
 * left out.
 */
import { isContentUnread } from "../bench/setup.ts";
import type { Chunk, Declaration, Recipe } from "../model/declaration.ts";
import type { Facts } from "../model/facts.ts";
import { keptWith } from "../model/kept-with.ts";
import type { Lookup } from "../model/lookup.ts";
import { nearNames } from "../model/near.ts";
import type { NameSlot } from "../model/slots.ts";
import { declarationsBehind } from "./declarations-behind.ts";
import { isInSameFile } from "./same-file.ts";
import { lacksValue } from "./unread-facts.ts";

export interface UnreadElsewhere {
  at: NameSlot;
  of: Exclude<Declaration, { kind: "recipe" }>;
  /** Words of the lines, in quotes; `a line` where it has none. */
  words: readonly string[];
  /** The fluid of a product, which the library does not declare: what it is filled with is not known. */
  undeclared?: string;
}

/** Each declaration once, with the name in the recipe that leads to it. */
export function unreadElsewhere(recipe: Recipe, lookup: Lookup, chunk: Chunk): readonly UnreadElsewhere[] {
  const found: UnreadElsewhere[] = [];
  const add = (of: UnreadElsewhere["of"], at: NameSlot) => {
    const words = unreadIn(of);
    if (words.length === 0 || found.some((each) => each.of === of)) return;
    if (isInSameFile(of.chunk, chunk) || (of.kind === "stock" && isContentUnread(of))) return;
    found.push({ at, of, words });
  };
  const own = new Set((recipe.order?.all("diluent") ?? []).map(({ slots }) => slots.fluid.name));
  const site = lookup.site();
  if (site) add(site, recipe.name);
  for (const { of, at } of declarationsBehind(recipe, lookup)) {
    add(of, at);
    const fluid = of.kind === "stock" ? of.facts.one("fluid")?.slots.fluid.name : undefined;
    const isToldHere = fluid === undefined || own.has(fluid) || isInSameFile(of.chunk, chunk);
    if (isToldHere || lookup.find("fluid", fluid) || found.some((each) => each.of === of)) continue;
    found.push({ at, of, words: ["`fluid`"], undeclared: fluid });
  }
  return found;
}
/** A declaration is one object as long as its text stays the same, and many recipes rest on it. */
const unreadIn = keptWith(readUnread);

function readUnread(of: UnreadElsewhere["of"]): string[] {
  const words = factsOf(of).flatMap((facts) => [
    ...facts.unread,
    ...facts.every().flatMap((fact) => (lacksValue(fact) ? [fact.word] : [])),
  ]);
  return [...new Set(words)]
    .filter((word) => !isIdle(word, of.kind))
    .map((word) => (word === "" ? "a line" : `\`${word}\``));
}

function factsOf(of: UnreadElsewhere["of"]): Facts[] {
  if (of.kind === "drug") return [of.facts, ...of.stable];
  return of.kind === "stock" && of.reconstitute ? [of.facts, of.reconstitute] : [of.facts];
}

/** Nothing is computed from a note, from what a thing is called in print, or from where it is said. */
function isIdle(word: string, kind: Declaration["kind"]): boolean {
  const idle = ["note", "name", "source", "invented"];
  return nearNames(word, kind === "site" ? [...idle, "approvals"] : idle).length > 0;
}
