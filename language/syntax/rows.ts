/**
 * A text as rows: one for each line of the file that holds something, with what the layout needs to know about it. Rows never
 * split or join, so that formatting cannot move a word into another statement.
 */
import { type Block, type Entry, headWord, type Line, type Token, type Tree } from "./tree.ts";
import { valueColumns } from "./words.ts";

export type RowRole =
  | "statement"
  | "continuation" // a trailing word's line, indented further than its statement
  | "head"
  | "close"
  | "comment";

/** What kind of block a row stands in: a key of `valueColumns`, or one of these. `top` is outside every block. */
export type BlockKind = string | "steps" | "unknown" | "top";

export interface Row {
  role: RowRole;
  tokens: Token[];
  comment: { start: number; end: number } | undefined;
  /** How many blocks are open around it. */
  depth: number;
  block: BlockKind;
  /** Something here is not understood: the row is indented, and its inside stays as written. */
  keepsInside: boolean;
  start: number;
  end: number;
}

interface Place {
  role: RowRole;
  depth: number;
  block: BlockKind;
  keepsInside: boolean;
}

/** The rows of a tree, in order. */
export function rowsOf(tree: Tree): Row[] {
  return new RowCollector(tree).collect();
}

class RowCollector {
  private readonly rows: Row[] = [];
  private readonly tree: Tree;
  private readonly spoilt: readonly number[];
  private nextComment = 0;

  constructor(tree: Tree) {
    this.tree = tree;
    this.spoilt = tree.problems.map((problem) => problem.start).sort((a, b) => a - b);
  }

  collect(): Row[] {
    this.entries(this.tree.entries, 0, "top", false);
    this.commentsBefore(this.tree.text.length + 1);
    return this.rows;
  }

  private entries(entries: readonly Entry[], depth: number, block: BlockKind, keepsInside: boolean): void {
    for (const entry of entries) {
      if (entry.kind === "line")
        this.line(entry, { role: "statement", depth, block, keepsInside: keepsInside || depth === 0 });
      else this.block(entry, depth, block);
    }
  }

  private line(line: Line, place: Place): void {
    let role = place.role;
    for (const token of line.tokens) {
      this.put(token, role, place);
      if (role === "statement") role = "continuation";
    }
  }

  private block(entry: Block, depth: number, around: BlockKind): void {
    const keepsInside = this.isSpoilt(entry);
    const kind = kindOf(entry, around);
    const head: Place = { role: "head", depth, block: around, keepsInside };
    this.line(entry.head, head);
    if (entry.open.text !== "") this.put(entry.open, "head", head);
    this.entries(entry.body, depth + 1, kind, keepsInside || kind === "unknown");
    if (entry.close) this.put(entry.close, "close", head);
  }

  /** Whether a layout problem lies directly in this block; one in a block inside it is that block's own. */
  private isSpoilt(block: Block): boolean {
    if (block.close === undefined) return true;
    let at = this.firstProblem(block.start);
    for (const entry of block.body) {
      if (entry.kind !== "block") continue;
      if (at < this.spoilt.length && this.spoilt[at]! < entry.start) return true;
      at = this.firstProblem(entry.end);
    }
    return at < this.spoilt.length && this.spoilt[at]! < block.end;
  }

  private firstProblem(from: number): number {
    let low = 0;
    let high = this.spoilt.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.spoilt[middle]! < from) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  private put(token: Token, role: RowRole, place: Place): void {
    this.commentsBefore(token.start);
    const row = this.rows[this.rows.length - 1];
    const faulty = token.kind === "faulty";
    if (row && this.sameRow(row.end, token.start)) {
      row.tokens.push(token);
      row.end = token.end;
      // What belongs to two statements on one row is left as it stands. In `}}` the first brace's block is sound, so its
      // layout problems alone would not show it.
      const together = place.depth === row.depth && (role === row.role || role === "continuation");
      row.keepsInside ||= faulty || !together;
      return;
    }
    const { depth, block } = place;
    const keepsInside = place.keepsInside || faulty;
    const { start, end } = token;
    this.rows.push({ role, tokens: [token], comment: undefined, depth, block, keepsInside, start, end });
  }

  private commentsBefore(offset: number): void {
    const { comments } = this.tree;
    for (; this.nextComment < comments.length && comments[this.nextComment]!.start < offset; this.nextComment++) {
      const comment = comments[this.nextComment]!;
      const row = this.rows[this.rows.length - 1];
      if (row && this.sameRow(row.end, comment.start)) {
        row.comment = comment;
        row.end = comment.end;
      } else {
        const depth = row ? depthAfter(row) : 0;
        const { start, end } = comment;
        this.rows.push({ role: "comment", tokens: [], comment, depth, block: "top", keepsInside: true, start, end });
      }
    }
  }

  private sameRow(from: number, to: number): boolean {
    const { text } = this.tree;
    for (let at = from; at < to; at++) {
      const c = text.charCodeAt(at);
      if (c === 10 || c === 13) return false;
    }
    return true;
  }
}

function depthAfter(row: Row): number {
  const last = row.tokens[row.tokens.length - 1];
  return last?.kind === "open" ? row.depth + 1 : row.depth;
}

function kindOf(block: Block, around: BlockKind): BlockKind {
  const word = headWord(block)?.toLowerCase() ?? "";
  if (word === "steps" || around === "steps") return "steps";
  return Object.hasOwn(valueColumns, word) ? word : "unknown";
}
