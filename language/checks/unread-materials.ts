/** Names in lines of materials that cannot be read, which is told at the line: the material is not missing. */
import type { ChunkReading, Recipe } from "../model/declaration.ts";
import { headWord } from "../syntax/tree.ts";

/** Words of the recipe's lines of materials that could not be read. */
export function wordsNotRead(reading: ChunkReading, recipe: Recipe): ReadonlySet<string> {
  const read = new Set(recipe.materials.map((m) => m.start));
  const own = reading.blocks.find((b) => b.start <= recipe.head.start && recipe.head.end <= b.end);
  const words = new Set<string>();
  for (const block of own?.body ?? []) {
    if (block.kind !== "block" || headWord(block) !== "materials") continue;
    for (const line of block.body) {
      if (line.kind === "line" && !read.has(line.start)) for (const { text } of line.tokens) words.add(text);
    }
  }
  return words;
}
