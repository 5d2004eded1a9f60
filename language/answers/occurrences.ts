/**
 * Every place where a name stands, over a whole library: declared names (drugs, stock, devices …), and the names that a recipe
 * gives to its materials, which mean nothing outside it.
 */
import { planOf } from "../bench/plan.ts";
import { namesUsed } from "../checks/names-used.ts";
import type { Library, PlacedChunk } from "../library.ts";
import type { Chunk, Declaration, DeclarationKind, Place, Recipe } from "../model/declaration.ts";
import { keptWith } from "../model/kept-with.ts";
import type { NameSlot } from "../model/slots.ts";
import { placeAt } from "./place.ts";

export interface Occurrence {
  name: string;
  at: Place;
  /** The name is made here, not only used. */
  declares: boolean;
  /** Kinds that fit here; `material` for names of a recipe's own, `check` for names of findings. */
  kinds: readonly (DeclarationKind | "material" | "check")[];
  /** The recipe in which a material's name holds. */
  recipe: Recipe | undefined;
}

/** Names in one declaration, in order of place. */
export const occurrencesIn = keptWith<Declaration, readonly Occurrence[]>(collect);

function collect(declaration: Declaration): Occurrence[] {
  const { chunk } = declaration;
  const found = new Map<string, Occurrence>();
  const put = (slot: NameSlot | undefined, declares: boolean, kinds: Occurrence["kinds"], recipe?: Recipe) => {
    if (!slot) return;
    const key = `${slot.start} ${slot.end}`;
    if (!found.has(key)) found.set(key, { name: slot.name, at: place(slot, chunk), declares, kinds, recipe });
  };
  if (declaration.kind !== "site" && declaration.kind !== "lots") put(declaration.name, true, [declaration.kind]);
  for (const use of namesUsed(declaration)) put(use.name, false, use.kinds);
  if (declaration.kind === "recipe") ofMaterials(declaration, put);
  return [...found.values()].sort((a, b) => a.at.start - b.at.start);
}

function place(slot: NameSlot, chunk: Chunk): Place {
  return { start: slot.start, end: slot.end, chunk };
}

/** Slots of steps that name a substance or a person, never a thing on the bench. */
const notThings = new Set(["ion", "as", "salt", "drug", "role"]);

function ofMaterials(
  recipe: Recipe,
  put: (slot: NameSlot | undefined, declares: boolean, kinds: Occurrence["kinds"], recipe?: Recipe) => void,
): void {
  const names = new Set(recipe.materials.map((m) => m.name.name));
  const use = (slot: NameSlot | undefined) => {
    if (slot && names.has(slot.name)) put(slot, false, ["material"], recipe);
  };
  for (const material of recipe.materials) put(material.name, true, ["material"], recipe);
  for (const fact of recipe.order?.every() ?? []) {
    const slots = fact.slots as Record<string, NameSlot | undefined>;
    use(slots.container);
    use(fact.word === "makes" ? slots.what : undefined);
  }
  for (const step of planOf(recipe).steps) eachName(step.slots, (slot, key) => !notThings.has(key) && use(slot));
  for (const preparation of recipe.preparations) use(preparation.name);
  for (const intermediate of recipe.intermediates) use(intermediate.facts.one("in")?.slots.container);
  for (const example of recipe.examples) {
    for (const { slots } of example.facts.all("expect")) {
      use((slots as { from?: NameSlot }).from);
      use((slots as { things?: NameSlot }).things);
    }
  }
  for (const deviation of recipe.deviations) {
    put(deviation.check, false, ["check"]);
    use(deviation.on);
  }
}

function eachName(slots: unknown, see: (slot: NameSlot, key: string) => void): void {
  for (const [key, value] of Object.entries(slots as Record<string, unknown>)) {
    for (const one of Array.isArray(value) ? value : [value]) {
      if (one && typeof one === "object" && "name" in one && typeof one.name === "string") see(one as NameSlot, key);
    }
  }
}

/** The name that an offset touches. */
export function occurrenceAt(library: Library, file: string, offset: number): Occurrence | undefined {
  const at = placeAt(library, file, offset);
  if (!at?.declaration) return undefined;
  return occurrencesIn(at.declaration).find((o) => o.at.start <= at.at && at.at <= o.at.end);
}

/** The declarations that a name stands for at its place. */
export function meantBy(library: Library, occurrence: Occurrence): Declaration[] {
  if (occurrence.recipe || occurrence.kinds.includes("check")) return [];
  return library.declared(occurrence.name).filter((d) => occurrence.kinds.includes(d.kind));
}

/** Every place of the same name and meaning. For a material those of its recipe. In order of file and place. */
export function sameName(library: Library, occurrence: Occurrence): Occurrence[] {
  if (occurrence.recipe) {
    return occurrencesIn(occurrence.recipe).filter((o) => o.recipe && o.name === occurrence.name);
  }
  if (occurrence.kinds.includes("check")) return [];
  const kinds = new Set<string>(meantBy(library, occurrence).map((d) => d.kind));
  if (kinds.size === 0) for (const kind of occurrence.kinds) kinds.add(kind);
  const found: Occurrence[] = [];
  for (const file of library.files()) {
    for (const chunk of library.chunks(file)) {
      // A cheap look first: most chunks never say the name.
      if (!chunk.text.includes(occurrence.name)) continue;
      for (const declaration of chunk.reading.declarations) {
        for (const other of occurrencesIn(declaration)) {
          if (other.name === occurrence.name && !other.recipe && other.kinds.some((k) => kinds.has(k)))
            found.push(other);
        }
      }
    }
  }
  return found;
}

/** Names of recipes that use a declaration, directly or through stock. */
export function recipesUsing(library: Library, name: string): string[] {
  const through = new Set([name]);
  for (const stock of library.ofKind("stock")) {
    if (occurrencesIn(stock).some((o) => !o.declares && o.name === name)) through.add(stock.name.name);
  }
  const found: string[] = [];
  for (const head of library.headsOf("recipe")) {
    const { chunk } = head;
    if (!("reading" in chunk) || ![...through].some((word) => chunk.text.includes(word))) continue;
    for (const recipe of (chunk as PlacedChunk).reading.declarations) {
      if (
        recipe.kind === "recipe" &&
        occurrencesIn(recipe).some((o) => !o.recipe && !o.declares && through.has(o.name))
      ) {
        found.push(recipe.name.name);
      }
    }
  }
  return found;
}
