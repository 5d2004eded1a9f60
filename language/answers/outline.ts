/** The outline of a file: declarations, and the blocks inside a recipe. Offsets are in the file. */
import type { Library } from "../library.ts";
import { looseWord } from "../model/form-match.ts";
import type { Block } from "../syntax/tree.ts";

export interface OutlineEntry {
  /** `recipe`, `stock`, `order` … */
  word: string;
  name: string;
  /** One line beside the name, such as a recipe's title. */
  detail: string;
  start: number;
  end: number;
  nameStart: number;
  nameEnd: number;
  children: OutlineEntry[];
}

export function outline(library: Library, file: string): OutlineEntry[] {
  return library
    .chunks(file)
    .flatMap((chunk) =>
      chunk.reading.tree.entries.flatMap((entry) => (entry.kind === "block" ? [entryOf(entry, chunk.base)] : [])),
    );
}

function entryOf(block: Block, base: number): OutlineEntry {
  const [first, second] = block.head.tokens;
  const word = block.readAs ?? looseWord(first) ?? "";
  const named = second ?? first ?? block.open;
  return {
    word,
    name: second ? second.text : (first?.text ?? "{"),
    detail: titleIn(block) ?? (second ? word : ""),
    start: base + block.start,
    end: base + block.end,
    nameStart: base + named.start,
    nameEnd: base + named.end,
    children: block.body.flatMap((entry) => (entry.kind === "block" ? [entryOf(entry, base)] : [])),
  };
}

function titleIn(block: Block): string | undefined {
  for (const entry of block.body) {
    if (entry.kind !== "line") continue;
    const [word, text] = entry.tokens;
    if ((word?.text === "title" || word?.text === "name") && text?.kind === "string") return text.text.slice(1, -1);
  }
  return undefined;
}
