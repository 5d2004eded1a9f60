/** Where a file's recipes stand: the chunk of each, told apart by the chunk itself, which stays the same object as long as its text does. */
import { knownIn } from "../language/library/known.ts";
import type { Library, PlacedChunk } from "../language/library.ts";
import type { Recipe } from "../language/model/declaration.ts";
import type { Finding } from "../shared/finding.ts";

/** Recipes by name; most are told by a glance. */
export function recipesOf(chunks: readonly PlacedChunk[]): Map<string, PlacedChunk> {
  const found = new Map<string, PlacedChunk>();
  for (const chunk of chunks)
    for (const known of knownIn(chunk)) if (known.kind === "recipe") found.set(known.name.name, chunk);
  return found;
}

export function recipeIn({ reading }: PlacedChunk, name: string): Recipe | undefined {
  return reading.declarations.find((d): d is Recipe => d.kind === "recipe" && d.name.name === name);
}

export function headIn(chunks: readonly PlacedChunk[], name: string, library: Library) {
  const chunk = recipesOf(chunks).get(name);
  const recipe = chunk && recipeIn(chunk, name);
  return recipe && library.spanOf({ ...recipe.head, chunk: recipe.chunk });
}

export function moved(finding: Finding, by: number): Finding {
  const { file, start, end } = finding.span;
  return by === 0 ? finding : { ...finding, span: { file, start: start + by, end: end + by } };
}

let nextNumber = 1;
const numbers = new WeakMap<object, number>();

/** One number for each chunk, to write many of them in one line. */
export function numberOf(chunk: object): number {
  let number = numbers.get(chunk);
  if (number === undefined) {
    number = nextNumber++;
    numbers.set(chunk, number);
  }
  return number;
}
