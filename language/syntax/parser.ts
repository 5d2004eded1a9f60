/**
 * The grammar: lines, and blocks that open with `{` at the end of a line and close with `}`. What a line says is left to the
 * forms of its block. The grammar takes every sequence of tokens, so there is always a tree, nothing is skipped, and a
 * broken line breaks only itself.
 */
import { EmbeddedActionsParser, type IToken } from "chevrotain";
import {
  Close,
  DeclarationWord,
  Faulty,
  lex,
  Newline,
  Open,
  Plain,
  TrailingWord,
  tokenTypes,
  toToken,
  Word,
} from "./tokens.ts";
import type { Block, Entry, Line, SyntaxProblem, Token, Tree } from "./tree.ts";
import { longestLine, longestText, recipeBlocks } from "./words.ts";

/** Blocks that may stand in a declaration. */
const blocksInside: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ["recipe", new Set<string>(recipeBlocks)],
  ["drug", new Set(["stable"])],
  ["stock", new Set(["reconstitute"])],
]);

/** What stands behind the word of a block in its head: nothing, a name, or a text. */
const namedBlocks: ReadonlyMap<string, "" | "word" | "string"> = new Map([
  ["order", ""],
  ["materials", ""],
  ["steps", ""],
  ["label-text", ""],
  ["stable", ""],
  ["reconstitute", ""],
  ["preparation", "word"],
  ["intermediate", "word"],
  ["example", "string"],
]);

/** A declaration has few blocks; a text with more heads without braces is no recipe, and each look ahead costs its length. */
const mostLooksAhead = 20;

/** Blocks inside blocks beyond this many are no recipe; a fixed limit keeps the stack safe on any text. */
const deepest = 16;

export class ChunkParser extends EmbeddedActionsParser {
  problems: SyntaxProblem[] = [];
  /** How many of the open blocks, counted from the outside, stand up to and with `steps`; 0 outside steps. */
  private stepsDepth = 0;
  private depth = 0;
  /** First words of the open blocks, from the outside. */
  private readonly open: string[] = [];
  /** Blocks without their brace, each with the place where reading left it; one missing brace is told once. */
  private unclosed: { problem: SyntaxProblem; stop: number }[] = [];

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
    this.open.length = 0;
    this.lookedAhead = 0;
    this.lastLook = { at: -1, lacks: false };
    this.unclosed = [];
  }

  allProblems(): SyntaxProblem[] {
    return [...this.problems, ...this.unclosed.map((u) => u.problem)];
  }

  /** The whole chunk; a `}` here closes nothing. */
  readonly chunk = this.RULE("chunk", (): Entry[] => {
    const entries: Entry[] = [];
    this.MANY(() => {
      this.OR([
        { ALT: () => this.CONSUME(Newline) },
        {
          ALT: () => {
            const stray = this.CONSUME(Close);
            this.ACTION(() => this.strayClosing(stray, entries));
          },
        },
        { ALT: () => this.SUBRULE(this.entry, { ARGS: [entries] }) },
      ]);
    });
    return entries;
  });

  /** Inside a block: up to its `}`, the end of the text, a declaration in column 1, or a block that belongs to the recipe above. */
  private readonly body = this.RULE("body", (): Entry[] => {
    const entries: Entry[] = [];
    this.MANY({
      GATE: () => this.LA(1).tokenType !== DeclarationWord && !this.nextBelongsAbove(),
      DEF: () => {
        this.OR([{ ALT: () => this.CONSUME(Newline) }, { ALT: () => this.SUBRULE(this.entry, { ARGS: [entries] }) }]);
      },
    });
    return entries;
  });

  private readonly entry = this.RULE("entry", (entries: Entry[]): void => {
    this.OR([
      {
        ALT: () => {
          const line = this.SUBRULE(this.line, { ARGS: [entries] });
          let block: Block | undefined;
          this.OPTION1(() => {
            block = this.SUBRULE1(this.block, { ARGS: [line] });
          });
          this.OPTION2({
            GATE: () => block === undefined && this.lacksBrace(line.tokens),
            DEF: () => {
              block = this.SUBRULE(this.blockWithoutBrace, { ARGS: [line] });
            },
          });
          this.ACTION(() => entries.push(block ?? line));
        },
      },
      {
        ALT: () => {
          const block = this.SUBRULE2(this.block, { ARGS: [undefined] });
          this.ACTION(() => entries.push(block));
        },
      },
    ]);
  });

  private readonly line = this.RULE("line", (entries: Entry[]): Line => {
    const tokens: Token[] = [];
    const first = this.LA(1);
    this.AT_LEAST_ONE(() => {
      const raw = this.CONSUME1(Plain);
      this.ACTION(() => tokens.push(toToken(raw)));
    });
    this.MANY1({
      // `stable` without its brace and `source` below: that speaks for the block, and joins nothing.
      GATE: () =>
        this.LA(2).tokenType === TrailingWord &&
        this.stepsDepth === 0 &&
        !this.nextLineOpensBlock() &&
        !this.lacksBrace(tokens),
      DEF: () => {
        this.CONSUME(Newline);
        const joined = this.CONSUME(TrailingWord);
        this.ACTION(() => tokens.push(toToken(joined)));
        this.MANY2(() => {
          const raw = this.CONSUME2(Plain);
          this.ACTION(() => tokens.push(toToken(raw)));
        });
      },
    });
    return this.ACTION(() => {
      const line: Line = { kind: "line", tokens, start: tokens[0]!.start, end: tokens[tokens.length - 1]!.end };
      if (first.tokenType === TrailingWord && this.standsAlone(tokens[0]!, entries)) {
        this.problem("stray-continuation", line.start, line.end);
      }
      return line;
    });
  });

  private readonly block = this.RULE("block", (head: Line | undefined): Block => {
    const opening = this.CONSUME(Open);
    this.ACTION(() => this.enters(head));
    const body = this.SUBRULE(this.body);
    let closing: IToken | undefined;
    this.OPTION(() => {
      const before = this.LA(0);
      closing = this.CONSUME(Close);
      this.ACTION(() => this.closingLayout(before, closing!));
    });
    return this.ACTION(() => this.finished(head, opening, body, closing));
  });

  /** `steps` without its `{`: read as the block that it is meant to be, and told once. */
  private readonly blockWithoutBrace = this.RULE("blockWithoutBrace", (head: Line): Block => {
    const end = this.CONSUME(Newline).startOffset;
    this.ACTION(() => {
      this.deeper(head);
      this.problem("brace-missing", head.start, head.end);
    });
    const body = this.SUBRULE(this.body);
    let closing: IToken | undefined;
    this.OPTION(() => {
      const before = this.LA(0);
      closing = this.CONSUME(Close);
      this.ACTION(() => this.closingLayout(before, closing!));
    });
    return this.ACTION(() => {
      this.higher();
      const close = closing && toToken(closing);
      const open: Token = { kind: "open", text: "", start: head.end, end: head.end };
      const last = close?.end ?? body.at(-1)?.end ?? end;
      return { kind: "block", head, open, body, close, start: head.start, end: last };
    });
  });

  /**
   * Whether a line is the head of a block whose `{` was forgotten: only its word (and name) stands there, no block of its kind can
   * be meant otherwise, and further down more blocks are closed than opened. Somebody who is still typing has closed nothing yet.
   */
  private lacksBrace([first, second, third]: readonly Token[]): boolean {
    if (this.depth !== 1 || !first) return false;
    const word = first.text.toLowerCase();
    const named = namedBlocks.get(word);
    if (named === undefined || third || (second?.kind ?? "") !== named) return false;
    if (blocksInside.get(this.open[0]!)?.has(word) !== true) return false;
    if (this.lastLook.at !== first.start) {
      if (this.lookedAhead >= mostLooksAhead) return false;
      this.lookedAhead++;
      this.lastLook = { at: first.start, lacks: this.closedBelow() >= 2 };
    }
    return this.lastLook.lacks;
  }
  private lookedAhead = 0;
  /** A head is asked about twice: before a line is joined to it, and when it ends. */
  private lastLook = { at: -1, lacks: false };

  /** How many blocks are closed below that are not opened below, up to the end of the declaration. */
  private closedBelow(): number {
    let depth = 0;
    let closed = 0;
    for (let ahead = 1; ; ahead++) {
      const token = this.LA(ahead);
      if (token.tokenType === DeclarationWord || !this.isToken(token)) return closed;
      if (token.tokenType === Open) depth++;
      else if (token.tokenType === Close) {
        if (depth > 0) depth--;
        else closed++;
      }
    }
  }

  /**
   * `preparation bag {` inside `steps` of a recipe, or `stable {` inside another one: no block of a declaration holds another one of
   * its blocks, so the brace of the open one is missing. Closing it here keeps one slip from spoiling the rest.
   */
  private nextBelongsAbove(): boolean {
    const next = this.LA(1);
    if (this.depth < 2 || next.tokenType !== Word) return false;
    const blocks = blocksInside.get(this.open[0]!);
    if (!blocks?.has(next.image.toLowerCase()) || !this.open.some((word) => blocks.has(word))) return false;
    return this.nextLineOpensBlock();
  }

  private deeper(head: Line | undefined): void {
    this.depth++;
    const word = head?.tokens[0]?.text.toLowerCase();
    this.open.push(word ?? "");
    if (this.stepsDepth === 0 && word === "steps") this.stepsDepth = this.depth;
  }

  private higher(): void {
    if (this.stepsDepth === this.depth) this.stepsDepth = 0;
    this.depth--;
    this.open.pop();
  }

  private enters(head: Line | undefined): void {
    this.deeper(head);
    const next = this.LA(1);
    if (next.tokenType !== Newline && this.isToken(next)) {
      const open = this.LA(0).startOffset;
      this.problem("brace-not-at-line-end", open, open + 1);
    }
  }

  private finished(given: Line | undefined, opening: IToken, body: Entry[], closing: IToken | undefined): Block {
    this.higher();
    const open = toToken(opening);
    const head: Line = given ?? { kind: "line", tokens: [], start: open.start, end: open.start };
    const close = closing && toToken(closing);
    if (!close) this.notClosed(head, open, body.at(-1)?.end ?? open.end);
    const end = close?.end ?? body.at(-1)?.end ?? open.end;
    return { kind: "block", head, open, body, close, start: head.start, end };
  }

  /** One missing brace leaves every block around it open; the outermost is told, with what it should have been closed before. */
  private notClosed(head: Line, open: Token, lastEntryEnd: number): void {
    const next = this.LA(1);
    const stop = next.startOffset;
    while (this.unclosed.length > 0) {
      const last = this.unclosed[this.unclosed.length - 1]!;
      if (last.problem.start < head.start || !Object.is(last.stop, stop)) break;
      this.unclosed.pop();
    }
    const problem: SyntaxProblem = { name: "block-not-closed", start: head.start, end: open.end, lastEntryEnd };
    if (this.isToken(next)) problem.before = { start: stop, end: stop + next.image.length };
    this.unclosed.push({ problem, stop });
  }

  /** One finding a brace: what precedes it on its line, or what follows it; of two braces together the second is named. */
  private closingLayout(before: IToken, closing: IToken): void {
    const alone = before.tokenType === Newline || before.tokenType === Open || !this.isToken(before);
    const next = this.LA(1);
    const last = next.tokenType === Newline || next.tokenType === Close || !this.isToken(next);
    if (!alone || !last) this.problem("closing-brace-not-alone", closing.startOffset, closing.startOffset + 1);
  }

  private strayClosing(stray: IToken, entries: Entry[]): void {
    const token = toToken(stray);
    const before = this.problems[this.problems.length - 1];
    // A row of stray braces is one slip, not one finding for each.
    if (before?.name === "stray-closing-brace" && this.strayEnd === token.start) before.end = token.end;
    else this.problem("stray-closing-brace", token.start, token.end);
    this.strayEnd = token.end;
    entries.push({ kind: "line", tokens: [token], start: token.start, end: token.end });
  }
  private strayEnd = -1;

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

const parser = new ChunkParser();

/** The tree of a chunk (or of a whole file). Never throws; any text has a tree, and the tree prints back the text. */
export function parseChunk(text: string): Tree {
  const tooLong = text.length > longestText ? { start: 0, end: text.length } : lineBeyondReading(text);
  if (tooLong) return unread(text, tooLong);
  const { tokens, comments } = lex(text);
  parser.begin(tokens);
  flattenDeepBraces(tokens, parser.problems);
  const entries = parser.chunk();
  // The grammar takes every sequence of tokens; an error is a fault of this file and must not pass as a short tree.
  if (parser.errors.length > 0) throw new Error(`The grammar left tokens unread: ${parser.errors[0]!.message}`);
  const problems = parser.allProblems();
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
