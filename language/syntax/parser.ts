/**
 * The grammar: lines, and blocks that open with `{` at the end of a line and close with `}`. What a line says is left to the
 * forms of its block. The grammar takes every sequence of tokens, so there is always a tree, nothing is skipped, and a
 * broken line breaks only itself.
 */
import { EmbeddedActionsParser, type IToken } from "chevrotain";
import { mended, type Thought } from "./mend.ts";
import {
  Close,
  DeclarationWord,
  Faulty,
  lex,
  Newline,
  Open,
  Plain,
  Stray,
  TrailingWord,
  tokenTypes,
  toToken,
} from "./tokens.ts";
import type { Block, Entry, Line, SyntaxProblem, Token, Tree } from "./tree.ts";
import { longestLine, longestText } from "./words.ts";

/** Blocks inside blocks beyond this many are no recipe; a fixed limit keeps the stack safe on any text. */
const deepest = 16;

/** What a rule gives while Chevrotain takes down the grammar and nothing is read. */
const neverRead: Block = {
  kind: "block",
  head: { kind: "line", tokens: [], start: 0, end: 0 },
  open: { kind: "open", text: "", start: 0, end: 0 },
  body: [],
  close: undefined,
  start: 0,
  end: 0,
};

export class ChunkParser extends EmbeddedActionsParser {
  problems: SyntaxProblem[] = [];
  /** How many of the open blocks, counted from the outside, stand up to and with `steps`; 0 outside steps. */
  private stepsDepth = 0;
  private depth = 0;

  /** Chevrotain's own validation of the grammar is left to a test: it costs every start of the command line. */
  constructor(skipValidations = true) {
    super(tokenTypes, { maxLookahead: 1, recoveryEnabled: false, skipValidations });
    this.performSelfAnalysis();
  }

  begin(tokens: IToken[]): void {
    this.input = tokens;
    this.problems = [];
    this.stepsDepth = 0;
    this.depth = 0;
  }

  /*
   * What a rule is made of stands in fields, made once, and what its parts hand on to each other too: made anew for every line, these
   * small functions would be a sixth of all that reading a library makes.
   */

  /** The whole chunk; a `}` that closes nothing was marked as stray. */
  readonly chunk = this.RULE("chunk", (): Entry[] => {
    const entries: Entry[] = [];
    this.entries = entries;
    this.MANY(this.lineOrEntry);
    return entries;
  });

  /** Inside a block: up to its `}`, written or thought, the end of the text, or a declaration in column 1. */
  private readonly body = this.RULE("body", (): Entry[] => {
    const around = this.entries;
    const entries: Entry[] = [];
    this.entries = entries;
    this.MANY(this.linesOrEntries);
    this.entries = around;
    return entries;
  });

  /** Where an entry goes that is read now. */
  private entries: Entry[] = [];
  private readonly lineOrEntry = () => {
    this.OR(this.emptyOrEntry);
  };
  private readonly emptyOrEntry = [
    { ALT: () => this.CONSUME(Newline) as unknown },
    { ALT: () => this.SUBRULE(this.entry) as unknown },
  ];
  private readonly linesOrEntries = {
    GATE: () => this.LA(1).tokenType !== DeclarationWord,
    DEF: this.lineOrEntry,
  };

  private readonly entry = this.RULE("entry", (): void => {
    this.OR(this.entryWays);
  });

  private readonly entryWays = [
    {
      ALT: () => {
        const line = this.SUBRULE(this.line);
        this.head = line;
        this.behind = undefined;
        this.OPTION1(this.blockBehind);
        this.entries.push(this.behind ?? line);
      },
    },
    {
      ALT: () => {
        this.head = undefined;
        this.entries.push(this.SUBRULE2(this.block));
      },
    },
    { ALT: () => this.SUBRULE(this.stray) },
  ];
  /** The head of a block that is read next. */
  private head: Line | undefined;
  /** The block that stood behind the line read last. */
  private behind: Block | undefined;
  private readonly blockBehind = () => {
    this.behind = this.SUBRULE1(this.block);
  };

  private readonly stray = this.RULE("stray", (): void => {
    const token = toToken(this.CONSUME(Stray));
    if (this.RECORDING_PHASE) return;
    const { start, end } = token;
    const { entries } = this;
    const last = entries[entries.length - 1];
    // The words of a stray head and its brace are one line.
    if (last?.kind === "line" && last.isStray && last.tokens[0]!.kind === "word" && token.kind !== "close") {
      last.tokens.push(token);
      last.end = end;
    } else entries.push({ kind: "line", tokens: [token], start, end, isStray: true });
  });

  private readonly line = this.RULE("line", (): Line => {
    this.count = 0;
    const first = this.LA(1);
    this.AT_LEAST_ONE(this.plain);
    this.MANY1(this.joinedLines);
    // What grows by pushes has room for sixteen more, in tens of thousands of lines.
    const tokens = this.tokens.slice(0, this.count);
    const line: Line = { kind: "line", tokens, start: tokens[0]!.start, end: tokens[tokens.length - 1]!.end };
    if (first.tokenType === TrailingWord && this.standsAlone(tokens[0]!, this.entries)) {
      this.problem("stray-continuation", line.start, line.end);
    }
    return line;
  });

  /** Those of the line that is read now, and how many they are; behind them what longer lines have left. */
  private readonly tokens: Token[] = [];
  private count = 0;
  private readonly plain = () => {
    this.tokens[this.count++] = toToken(this.CONSUME1(Plain));
  };
  private readonly joinedLines = {
    GATE: () => this.LA(2).tokenType === TrailingWord && this.stepsDepth === 0 && !this.nextLineOpensBlock(),
    DEF: () => {
      this.CONSUME(Newline);
      this.tokens[this.count++] = toToken(this.CONSUME(TrailingWord));
      this.MANY2(this.plainBehind);
    },
  };
  private readonly plainBehind = () => {
    this.tokens[this.count++] = toToken(this.CONSUME2(Plain));
  };

  private readonly block = this.RULE("block", (): Block => {
    const { head } = this;
    const opening = this.CONSUME(Open);
    if (!this.RECORDING_PHASE) this.enters(head, opening);
    const body = this.SUBRULE(this.body);
    this.closing = undefined;
    this.OPTION(this.closingBehind);
    return this.RECORDING_PHASE ? neverRead : this.finished(head, opening, body, this.closing);
  });

  /** The brace that closed the block read last. */
  private closing: IToken | undefined;
  private readonly closingBehind = () => {
    const before = this.LA(0);
    const closing = this.CONSUME(Close);
    this.closing = closing;
    if (!this.RECORDING_PHASE && closing.image !== "") this.closingLayout(before, closing);
  };

  private deeper(word: string | undefined): void {
    this.depth++;
    if (this.stepsDepth === 0 && word === "steps") this.stepsDepth = this.depth;
  }

  private higher(): void {
    if (this.stepsDepth === this.depth) this.stepsDepth = 0;
    this.depth--;
  }

  private enters(head: Line | undefined, opening: IToken): void {
    this.deeper(readAs(opening) ?? head?.tokens[0]?.text.toLowerCase());
    const next = this.LA(1);
    if (opening.image !== "" && next.tokenType !== Newline && next.image !== "" && this.isToken(next)) {
      const open = this.LA(0).startOffset;
      this.problem("brace-not-at-line-end", open, open + 1);
    }
  }

  private finished(given: Line | undefined, opening: IToken, body: Entry[], closing: IToken | undefined): Block {
    this.higher();
    const open = toToken(opening);
    const head: Line = given ?? { kind: "line", tokens: [], start: open.start, end: open.start };
    const close = closing && closing.image !== "" ? toToken(closing) : undefined;
    const end = close?.end ?? body.at(-1)?.end ?? open.end;
    const block: Block = { kind: "block", head, open, body, close, start: head.start, end };
    const kind = readAs(opening);
    if (kind !== undefined) block.readAs = kind;
    return block;
  }

  /** One finding a brace: what precedes it on its line, or what follows it; of two braces together the second is named. */
  private closingLayout(before: IToken, closing: IToken): void {
    const alone = before.tokenType === Newline || before.tokenType === Open || !this.isToken(before);
    const next = this.LA(1);
    const last = [Newline, Close, Stray].includes(next.tokenType) || !this.isToken(next);
    if (!alone || !last) this.problem("closing-brace-not-alone", closing.startOffset, closing.startOffset + 1);
  }

  /** `source` as the first line of a block speaks for the whole block; in steps every line is its own. */
  private standsAlone(first: Token, entries: readonly Entry[]): boolean {
    if (this.stepsDepth > 0) return false;
    return !(first.text.toLowerCase() === "source" && entries.length === 0 && this.depth > 0);
  }

  /** A line with a `{` begins a block; joined to the line above, it would spoil that one. */
  private nextLineOpensBlock(): boolean {
    for (let ahead = 2; ; ahead++) {
      const token = this.LA(ahead);
      if (token.tokenType === Open) return true;
      if (token.tokenType === Newline || token.tokenType === Close || !this.isToken(token)) return false;
    }
  }

  /** Chevrotain stands for the end (and the beginning) of the text by a token without a place. */
  private isToken(token: IToken): boolean {
    return !Number.isNaN(token.startOffset);
  }

  private problem(name: SyntaxProblem["name"], start: number, end: number): void {
    this.problems.push({ name, start, end });
  }
}

function readAs(opening: IToken): string | undefined {
  return (opening.payload as Thought | undefined)?.readAs;
}

const parser = new ChunkParser();

/** The tree of a chunk (or of a whole file). Never throws; any text has a tree, and the tree prints back the text. */
export function parseChunk(text: string): Tree {
  const tooLong = text.length > longestText ? { start: 0, end: text.length } : lineBeyondReading(text);
  if (tooLong) return unread(text, tooLong);
  const { tokens, comments } = lex(text);
  const tooDeep: SyntaxProblem[] = [];
  flattenDeepBraces(tokens, tooDeep);
  const set = mended(tokens);
  parser.begin(set.tokens);
  const entries = parser.chunk();
  // The grammar takes every sequence of tokens; an error is a fault of this file and must not pass as a short tree.
  if (parser.errors.length > 0) throw new Error(`The grammar left tokens unread: ${parser.errors[0]!.message}`);
  const problems = [...tooDeep, ...set.problems, ...parser.problems];
  parser.begin([]);
  if (problems.length > 1) problems.sort((a, b) => a.start - b.start || b.end - a.end);
  return { text, entries, comments, problems };
}

/** Nothing of it is looked at; the finding says so. */
function unread(text: string, tooLong: { start: number; end: number }): Tree {
  const comments = [{ start: 0, end: text.length }];
  return { text, entries: [], comments, problems: [{ name: "text-too-long", ...tooLong }] };
}

function lineBeyondReading(text: string): { start: number; end: number } | undefined {
  if (text.length <= longestLine) return undefined;
  for (let start = 0; start < text.length; ) {
    endOfLine.lastIndex = start;
    const end = endOfLine.exec(text)?.index ?? text.length;
    if (end - start > longestLine) return { start, end };
    start = end + 1;
  }
  return undefined;
}

const endOfLine = /[\r\n]/g;

/** Braces beyond the deepest level become signs in their line, with their counterparts, so that the levels above stay whole. */
function flattenDeepBraces(tokens: IToken[], problems: SyntaxProblem[]): void {
  let depth = 0;
  let flattened = 0;
  for (const token of tokens) {
    if (token.tokenType === DeclarationWord) {
      depth = 0;
      flattened = 0;
    } else if (token.tokenType === Open) {
      if (depth < deepest) depth++;
      else if (flattened++ === 0)
        problems.push({ name: "nested-too-deeply", start: token.startOffset, end: token.startOffset + 1 });
      if (flattened > 0) becomesSign(token);
    } else if (token.tokenType === Close) {
      if (flattened === 0) depth = Math.max(0, depth - 1);
      else {
        flattened--;
        becomesSign(token);
      }
    }
  }
}

function becomesSign(token: IToken): void {
  token.tokenType = Faulty;
  token.tokenTypeIdx = Faulty.tokenTypeIdx!;
  token.payload = "symbol";
}
