/** Where in a file an offset stands: its chunk, the blocks around it, its line, and the tokens before it. */
import type { Library, PlacedChunk } from "../library.ts";
import type { Declaration } from "../model/declaration.ts";
import { looseWord } from "../model/form-match.ts";
import type { Block, Entry, Line, Token } from "../syntax/tree.ts";

export interface PlaceInFile {
  file: string;
  chunk: PlacedChunk;
  /** Offset in the chunk. */
  at: number;
  declaration: Declaration | undefined;
  /** Blocks that hold the place, outermost first. */
  blocks: readonly Block[];
  /** The statement or head line that the place touches, continuation lines included. */
  line: Line | undefined;
  /** The block whose head line it is. */
  headOf: Block | undefined;
  /** In a comment. */
  inComment: boolean;
}

export function placeAt(library: Library, file: string, offset: number): PlaceInFile | undefined {
  const chunk = chunkAt(library, file, offset);
  return chunk && placeIn(file, chunk, offset - chunk.base);
}

/** @param at offset in the chunk */
export function placeIn(file: string, chunk: PlacedChunk, at: number): PlaceInFile {
  const { tree, declarations } = chunk.reading;
  const place: PlaceInFile = {
    file,
    chunk,
    at,
    declaration: undefined,
    blocks: [],
    line: undefined,
    headOf: undefined,
    inComment: tree.comments.some((c) => c.start < at && at <= c.end),
  };
  const blocks: Block[] = [];
  descend(tree.entries, at, chunk.text.length, blocks, place);
  place.blocks = blocks;
  const outer = blocks[0] ?? place.headOf;
  place.declaration = declarations.find((d) => outer && d.head.start >= outer.start && d.head.start <= outer.end);
  return place;
}

export function chunkAt(library: Library, file: string, offset: number): PlacedChunk | undefined {
  const chunks = library.chunks(file);
  for (let i = chunks.length - 1; i >= 0; i--) if (chunks[i]!.base <= offset) return chunks[i];
  return chunks[0];
}

function descend(entries: readonly Entry[], at: number, limit: number, blocks: Block[], place: PlaceInFile): void {
  for (const [i, entry] of entries.entries()) {
    if (entry.kind === "line") {
      // Blanks behind a statement still belong to its row: that is where the next word is being written.
      const gap = place.chunk.text.slice(entry.end, at);
      if (entry.start <= at && (at <= entry.end || !/[^ \t]/.test(gap))) place.line = entry;
      continue;
    }
    if (entry.head.start <= at && at <= entry.open.start) {
      place.headOf = entry;
      place.line = entry.head;
      return;
    }
    // A block that nobody closed goes on to what follows it.
    const end = entry.close ? entry.close.start : (entries[i + 1]?.start ?? limit);
    if (entry.open.end <= at && at <= end) {
      blocks.push(entry);
      descend(entry.body, at, end, blocks, place);
      return;
    }
  }
}

export function blockWordOf(block: Block | undefined): string {
  return block?.readAs ?? looseWord(block?.head.tokens[0]) ?? "";
}

/** Tokens of the row at the offset that end before it, and the word being typed there. A row is one written line. */
export interface TypedRow {
  /** Tokens of the statement left of the word being typed, earlier rows of the same statement included. */
  before: Token[];
  /** What is written left of the offset of the word it touches. */
  typed: string;
  /** Where that word begins and ends, offsets in the chunk. */
  start: number;
  end: number;
}

export function typedRow(place: PlaceInFile): TypedRow {
  const { at, chunk } = place;
  const tokens = place.line?.tokens ?? [];
  const touching = tokens.find((t) => t.start < at && at <= t.end && isWordLike(t));
  const before = tokens.filter((t) => t.end <= (touching?.start ?? at) && t !== touching);
  if (touching) {
    const typed = chunk.text.slice(touching.start, at);
    return { before, typed, start: touching.start, end: Math.max(at, touching.end) };
  }
  return { before, typed: "", start: at, end: at };
}

function isWordLike(token: Token): boolean {
  return token.kind === "word" || token.kind === "unit" || token.kind === "faulty" || token.kind === "date";
}

export function tokenAt(place: PlaceInFile): Token | undefined {
  const tokens = place.line?.tokens ?? [];
  // The token that begins here stands before the one that ends here.
  return (
    tokens.find((t) => t.start <= place.at && place.at < t.end) ??
    tokens.find((t) => t.end === place.at && t.end > t.start)
  );
}
