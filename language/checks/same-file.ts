/**
 * Where a line that cannot be read stands in the recipe's own file, it is told once, there. In another file it is told there too, but
 * whoever checks or opens the recipe's file alone would see nothing and take the recipe for clean, so that the recipe says it again.
 */
import type { Chunk } from "../model/declaration.ts";

/** Two declarations of which the one is seen whenever the other is. A text without a file is seen by itself only. */
export function isInSameFile(one: Chunk, other: Chunk): boolean {
  return one === other || (one.file !== undefined && one.file === other.file);
}
