/** What is asked at a place, what has been found for it so far, and how a suggestion is put there. */
import type { Library } from "../../library.ts";
import type { Recipe } from "../../model/declaration.ts";
import { valueColumns } from "../../syntax/words.ts";
import { type NameWish, namesFor } from "../names-fitting.ts";
import type { PlaceInFile, TypedRow } from "../place.ts";
import type { Peer } from "../vocabulary.ts";

export type SuggestionKind = "declaration" | "block" | "fact" | "verb" | "word" | "name" | "value" | "unit" | "line";

export interface Suggestion {
  label: string;
  kind: SuggestionKind;
  /** Text put in place of `start` to `end`; `$0` marks where writing goes on. */
  insert: string;
  start: number;
  end: number;
  detail: string;
  /** A library name whose facts explain the suggestion. */
  about: string | undefined;
}

export interface Asked {
  library: Library;
  place: PlaceInFile;
  row: TypedRow;
  recipe: Recipe | undefined;
  block: string;
  peers: readonly Peer[];
  found: Map<string, Suggestion>;
}

export function put(asked: Asked, label: string, kind: SuggestionKind, options: Partial<Suggestion> = {}): void {
  if (asked.found.has(label) || label === "") return;
  const { start, end } = asked.row;
  asked.found.set(label, { label, kind, insert: label, start, end, detail: "", about: undefined, ...options });
}

export function names(asked: Asked, wish: NameWish): string[] {
  return namesFor(asked.library, asked.recipe, wish);
}

export function aligned(word: string, block: string): string {
  const column = valueColumns[block] ?? 0;
  return word.length < column ? word.padEnd(column) : `${word}  `;
}
