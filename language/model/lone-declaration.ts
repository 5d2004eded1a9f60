/**
 * Kind and name of a declaration without reading the rest of it. A library knows its names that way, and reads only what is
 * looked into: of ten thousand recipes and hundreds of stocks, one recipe needs a dozen declarations.
 */
import { chunkHead, splitChunks } from "../syntax/chunks.ts";
import { declarationWords } from "../syntax/words.ts";
import type { DeclarationKind } from "./declaration.ts";
import type { NameSlot } from "./slots.ts";

export interface LoneDeclaration {
  kind: Exclude<DeclarationKind, "site">;
  name: NameSlot;
}

/**
 * Wherever a declaration can begin, one of its words stands on the line of an opening brace; where the brace was forgotten, in column 1
 * or as the first word of all. Finds more than that, never less.
 */
const words = declarationWords.join("|");
const mayDeclare = new RegExp(`\\b(?:${words})\\b[^\\r\\n]*\\{|^\\uFEFF?(?:${words})\\b`, "gim");
const beginsWithOne = new RegExp(`^(?:[\\s{}]|#[^\\r\\n]*[\\r\\n])*(?:${words})\\b`, "i");

/** Where the chunk declares just one thing with a name and nothing else; undefined where that cannot be told by a glance. */
export function loneDeclaration(text: string): LoneDeclaration | undefined {
  const head = chunkHead(text);
  if (!head || head.word === "site" || head.name === undefined || mayDeclareTimes(text) > 1) return undefined;
  return { kind: head.word, name: { name: head.name, start: head.nameStart, end: head.nameEnd } };
}

/** Whether a glance shows that there is nothing to read for names: a stretch of comments, most often. */
export function declaresNothing(text: string): boolean {
  return mayDeclareTimes(text) === 0;
}

/** The names that a file declares where it declares nothing but recipes that can be told by a glance; undefined otherwise. */
export function recipesOnly(text: string): string[] | undefined {
  const names: string[] = [];
  for (const chunk of splitChunks(text)) {
    const lone = loneDeclaration(chunk.text);
    if (lone?.kind === "recipe") names.push(lone.name.name);
    else if (mayDeclareTimes(chunk.text) > 0) return undefined;
  }
  return names;
}

/** Up to 2: more need not be known. */
function mayDeclareTimes(text: string): number {
  mayDeclare.lastIndex = 0;
  if (!mayDeclare.test(text)) return beginsWithOne.test(text) ? 1 : 0;
  return mayDeclare.test(text) ? 2 : 1;
}
