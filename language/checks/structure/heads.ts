/** The head of a block as it should be written. */
import { isHeadOf } from "../../syntax/blocks.ts";

/** Whether a block of this kind has something behind its word, which the author alone knows. */
export function isNamed(kind: string): boolean {
  return !isHeadOf(kind, [{ kind: "word", word: kind }]);
}

export function writtenHead(kind: string): string {
  if (!isNamed(kind)) return `${kind} {`;
  return kind === "example" ? `${kind} "TEXT" {` : `${kind} NAME {`;
}
