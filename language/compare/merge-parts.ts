/**
 * A text as parts that can be moved: statements and blocks, each with the comments and blank lines that stand above it. Printing the
 * parts in order gives the text again, exactly.
 */
import type { Declaration } from "../model/declaration.ts";
import { readChunk } from "../model/read-chunk.ts";
import { splitChunks } from "../syntax/chunks.ts";
import type { Block, Entry } from "../syntax/tree.ts";
import { canonicalJson, wordsOf } from "./canonical.ts";
import { meaningOf, type Statement } from "./meaning.ts";

interface Part {
  /** Blank lines and comments above. */
  lead: string;
  /** Equal for parts that say the same; of a block only what its head says. */
  key: string;
  /** Which part it is, whatever it says: block and word of a fact, kind and name of a declaration. */
  identity: string;
}

export interface LinePart extends Part {
  kind: "line";
  /** With its newline, and the comment behind it. */
  text: string;
  /** The word of a fact, for facts that may stand more than once. */
  statement: Statement | undefined;
  word: string;
  block: string;
  declarationKind: string;
}

export interface BlockPart extends Part {
  kind: "block";
  /** Head line with its newline. */
  head: string;
  body: MergePart[];
  /** What stands before the closing brace, and the brace with its newline. */
  tail: string;
  /** Steps: their order is what they mean. */
  isOrdered: boolean;
}

export type MergePart = LinePart | BlockPart;

/** A stretch that two people gave another meaning. */
export interface Conflicting {
  conflict: { base: MergePart[]; ours: MergePart[]; theirs: MergePart[] };
}

export interface MergedBlock extends Omit<BlockPart, "body"> {
  body: MergeEntry[];
}

export type MergeEntry = LinePart | MergedBlock | Conflicting;

/** @param text with newlines as LF and sound blocks; what stands after the last declaration is the `lead` of an empty last part */
export function partsOf(text: string): MergePart[] {
  const parts: MergePart[] = [];
  let lead = "";
  for (const { text: chunk } of splitChunks(text)) {
    const reading = readChunk({ text: chunk });
    let at = 0;
    for (const block of reading.blocks) {
      const start = lineStart(chunk, block.start);
      const declaration = reading.declarations.find((d) => d.head.start === block.head.start);
      const cutter = new Cutter(chunk, declaration);
      parts.push(cutter.block(block, lead + chunk.slice(at, start), start, ""));
      lead = "";
      at = cutter.at;
    }
    lead += chunk.slice(at);
  }
  if (lead !== "") parts.push(empty(lead));
  return parts;
}

function empty(lead: string): LinePart {
  const none = {
    key: "end",
    identity: "end",
    text: "",
    statement: undefined,
    word: "",
    block: "",
    declarationKind: "",
  };
  return { kind: "line", lead, ...none };
}

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf("\n", offset - 1) + 1;
}

/** Just behind the newline of the row in which `offset` lies. */
function rowEnd(text: string, offset: number): number {
  const end = text.indexOf("\n", offset);
  return end < 0 ? text.length : end + 1;
}

class Cutter {
  /** Offset up to which the chunk was cut. */
  at = 0;
  private readonly statements = new Map<number, Statement & { block?: string; word?: string }>();
  private readonly kind: string;

  constructor(
    private readonly text: string,
    declaration: Declaration | undefined,
  ) {
    this.kind = declaration?.kind ?? "";
    if (!declaration) return;
    const { facts, steps } = meaningOf(declaration);
    for (const statement of [...facts, ...steps]) this.statements.set(statement.start, statement);
  }

  block(block: Block, lead: string, start: number, path: string): BlockPart {
    const words = wordsOf(block.head.tokens);
    const [word = ""] = words.split(" ");
    const own = this.statements.get(block.head.start);
    // A block without a name is told from its neighbours by what it speaks of, which its first statement's place says.
    const first = block.body.find((e) => e.kind === "line" && this.statements.has(e.start));
    const place = word === "stable" && first ? this.statements.get(first.start)!.block : undefined;
    const identity = place ?? own?.block ?? words;
    this.at = rowEnd(this.text, block.open.start);
    const head = this.text.slice(start, this.at);
    const isOrdered = word === "steps" || word === "only";
    const inside = path === "" ? words : `${path}, ${words}`;
    const body = this.entries(block.body, inside);
    const end = rowEnd(this.text, block.close ? block.close.start : block.end);
    const tail = this.text.slice(this.at, end);
    this.at = end;
    return { kind: "block", lead, head, body, tail, key: canonicalJson(["block", identity]), identity, isOrdered };
  }

  private entries(entries: readonly Entry[], path: string): MergePart[] {
    return entries.flatMap((entry): MergePart[] => {
      const first = lineStart(this.text, entry.start);
      if (entry.kind === "block") return [this.block(entry, this.text.slice(this.at, first), first, path)];
      if (entry.tokens.every((t) => t.kind === "close")) return [];
      return [this.line(entry.start, entry.end, first, wordsOf(entry.tokens))];
    });
  }

  private line(start: number, end: number, first: number, words: string): LinePart {
    const lead = this.text.slice(this.at, first);
    this.at = rowEnd(this.text, end);
    const text = this.text.slice(first, this.at);
    const statement = this.statements.get(start);
    const word = statement?.word ?? words.split(" ")[0]!;
    const block = statement?.block ?? "";
    const key = statement?.key ?? canonicalJson(["words", words]);
    const identity = canonicalJson([block, word]);
    return { kind: "line", lead, text, statement, key, identity, word, block, declarationKind: this.kind };
  }
}
