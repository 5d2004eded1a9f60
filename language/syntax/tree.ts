/**
 * The tree of one chunk of a file. A chunk is a top-level declaration and all that follows it up to the next one
 * (see chunks.ts); offsets are UTF-16 code units from the start of the chunk, `end` exclusive.
 *
 * Invariant: tokens and comments stand in order, never overlap, and what lies between them is blank
 * (spaces of any width, tabs, newlines, byte order mark), so that the tree prints back the exact text.
 */

export type TokenKind =
  | "word" // a name or a word of the language; which of the two is decided by position
  | "number" // broad (also 1½, 1/2, 10^6, 10 000): judged by quantities/notation.ts, never here
  | "unit" // only directly after a number or ratio on the same line
  | "ratio" // 1:1000
  | "date" // 2027-04 or 2027-04-30, not yet checked against the calendar
  | "string" // with its quotes, closed on the same line
  | "comma"
  | "equals"
  | "open" // {
  | "close" // }
  | "faulty"; // anything else; `fault` says what

/** Why a token is faulty. */
export type TokenFault =
  | "name-begins-with-digit" // 5-fluorouracil
  | "name-ends-badly" // sodium-chloride-0.9.   mag#2   name--twice
  | "name-not-ascii" // naïve letters in a name
  | "hyphen-range" // 60-100
  | "date-shape" // 2027-04-lot, 03/04/26
  | "string-not-closed"
  | "symbol"; // @ > < & + ½ and the like

export interface Token {
  kind: TokenKind;
  text: string;
  start: number;
  end: number;
  fault?: TokenFault;
}

/** One statement: the tokens of its line and of the lines that continue it (first word source, because, by, until, when). */
export interface Line {
  kind: "line";
  tokens: Token[];
  start: number;
  end: number;
  /** A brace, or a head with its brace, that is one too many: told as such, it says nothing else. */
  isStray?: true;
}

/** A head line ending in `{`, the entries inside, and `}`, each brace if the author wrote it. */
export interface Block {
  kind: "block";
  head: Line; // without the brace; may have no tokens
  open: Token; // without text where the author forgot it
  body: Entry[];
  close: Token | undefined;
  start: number;
  end: number;
  /** The kind of block that it plainly is, where its head is missing or says something else. */
  readAs?: string;
}

/** The first word of a block's head, or the one that should stand there. As written, capital letters included. */
export function headWord({ readAs, head }: Block): string | undefined {
  return readAs ?? head.tokens[0]?.text;
}

export type Entry = Line | Block;

/** What is wrong with the layout of braces and lines; each becomes the finding of the same name. */
export interface SyntaxProblem {
  name:
    | "block-not-closed"
    | "brace-missing" // `steps` without its `{`, read as the block
    | "head-missing" // lines of `steps` without any head, read as the block
    | "head-of-another-block" // lines of `steps` below `ste` or `materials {`, read as the block
    | "stray-closing-brace"
    | "stray-opening-brace" // `{` without a head, or a head once more inside its own block
    | "nested-too-deeply"
    | "text-too-long" // nothing of it is read
    | "brace-not-at-line-end" // text after `{` on its line
    | "closing-brace-not-alone" // `}` shares its line
    | "stray-continuation"; // a trailing word with no statement above it
  start: number;
  end: number;
  /**
   * Of an unclosed block: what stands where it should have been closed, absent at the end of the text; where its last entry ends; and the
   * blocks in it that end there without their braces too, from the outside.
   */
  before?: { start: number; end: number };
  lastEntryEnd?: number;
  within?: readonly { word: string; start: number }[];
  /** The kind of block that a missing head begins, or that a stray brace stands in. */
  word?: string;
}

export interface Tree {
  text: string;
  entries: Entry[];
  /** Set aside unread: comments, and the whole of a text that is too long. */
  comments: { start: number; end: number }[];
  problems: SyntaxProblem[];
}
