/**
 * Between tokens and tree: where braces or heads are out of place, the tokens are set right for the grammar, and each slip is told
 * once. Nothing is written into the text: what is thought of has no letters, and what is one too many stays as a line that says
 * nothing.
 */
import type { IToken } from "chevrotain";
import { type Element, stretchesOf } from "./elements.ts";
import { type Act, likeliestReading, plainReading } from "./mend-search.ts";
import { Close, Newline, Open, Stray } from "./tokens.ts";
import type { SyntaxProblem } from "./tree.ts";

/** Of a brace or head that nobody wrote: the kind of block that begins, where its head does not say so. */
export interface Thought {
  readAs?: string;
}

/** A declaration has some eighty elements; one of thousands is a list, and is read as it stands. */
const longestSearched = 1_500;

export interface Mended {
  tokens: IToken[];
  problems: SyntaxProblem[];
}

export function mended(tokens: IToken[]): Mended {
  const problems: SyntaxProblem[] = [];
  const out: IToken[] = [];
  let taken = 0;
  for (const elements of stretchesOf(tokens)) {
    const plain = plainReading(elements);
    if (plain.isSound) continue;
    const acts = elements.length > longestSearched ? plain.acts : likeliestReading(elements, plain.cost);
    taken = new Mending(tokens, out, problems).apply(elements, acts, taken);
  }
  if (taken === 0 && problems.length === 0) return { tokens, problems };
  for (; taken < tokens.length; taken++) out.push(tokens[taken]!);
  return { tokens: out, problems };
}

/** A block that is open while the acts are gone through. */
interface OpenBlock {
  word: string;
  /** Of its head, brace included. */
  start: number;
  end: number;
}

class Mending {
  private readonly open: OpenBlock[] = [];
  private lastEnd = 0;
  private strayEnd = -1;

  constructor(
    private readonly tokens: readonly IToken[],
    private readonly out: IToken[],
    private readonly problems: SyntaxProblem[],
  ) {}

  /** @returns how many tokens have been taken over */
  apply(elements: readonly Element[], acts: readonly Act[], from: number): number {
    let taken = from;
    for (const [i, element] of elements.entries()) {
      while (taken < element.from) this.out.push(this.tokens[taken++]!);
      this.element(element, acts[i]!);
      taken = element.end;
      this.lastEnd = endOf(this.tokens[element.end - 1]!);
    }
    let next = taken;
    while (this.tokens[next]?.tokenType === Newline) next++;
    this.notClosed(this.open.length, next < this.tokens.length ? next : undefined);
    return taken;
  }

  private element(element: Element, act: Act): void {
    const first = this.tokens[element.from]!;
    const last = this.tokens[element.end - 1]!;
    const start = first.startOffset;
    const end = endOf(last);
    if (act.closes > 0) this.notClosed(act.closes, element.from);
    if (act.opens !== undefined) {
      this.thought(Open, start, { readAs: act.opens });
      this.open.push({ word: act.opens, start, end: start });
      const word = element.kind === "head" ? this.tokens[element.end - 2]! : last;
      this.problems.push({ name: "head-missing", start, end: endOf(word), word: act.opens });
    }
    if (act.how === "not read") {
      this.stray(element, start, end);
      return;
    }
    this.take(element);
    if (element.kind === "close") this.open.pop();
    else if (element.kind === "head") this.head(element, act, start, end);
    else if (act.how === "head") this.headWithoutBrace(element, act.kind!, start, end);
  }

  private head(element: Element, act: Act, start: number, end: number): void {
    const word = act.kind ?? element.words[0]?.word ?? "";
    this.open.push({ word, start, end });
    if (act.how !== "head") return;
    this.out[this.out.length - 1]!.payload = { readAs: word } satisfies Thought;
    const { length } = this.tokens[element.from]!.image;
    this.problems.push({ name: "head-of-another-block", start, end: start + length, word });
  }

  private headWithoutBrace(element: Element, kind: string, start: number, end: number): void {
    const isWhole = element.words[0]?.word === kind;
    this.thought(Open, end, isWhole ? {} : { readAs: kind });
    this.open.push({ word: kind, start, end });
    if (isWhole) this.problems.push({ name: "brace-missing", start, end });
    else this.problems.push({ name: "head-of-another-block", start, end, word: kind });
  }

  private stray(element: Element, start: number, end: number): void {
    const [last] = this.problems.slice(-1);
    // A row of stray braces is one slip, not one finding for each.
    if (element.kind === "close" && last?.name === "stray-closing-brace" && this.strayEnd === start) last.end = end;
    else {
      const problem: SyntaxProblem = {
        name: element.kind === "close" ? "stray-closing-brace" : "stray-opening-brace",
        start,
        end,
      };
      const inside = this.open[this.open.length - 1]?.word;
      if (inside !== undefined) problem.word = inside;
      this.problems.push(problem);
    }
    this.strayEnd = end;
    for (let i = element.from; i < element.end; i++) {
      const token = this.tokens[i]!;
      token.payload = token.tokenType;
      token.tokenType = Stray;
      token.tokenTypeIdx = Stray.tokenTypeIdx!;
      this.out.push(token);
    }
  }

  private take({ from, end }: Element): void {
    for (let i = from; i < end; i++) this.out.push(this.tokens[i]!);
  }

  /** Of blocks that end at one place without their braces the outermost is told, with what stands where it should have ended. */
  private notClosed(count: number, before: number | undefined): void {
    if (count === 0) return;
    const [outermost, ...within] = this.open.splice(this.open.length - count) as [OpenBlock, ...OpenBlock[]];
    const next = before === undefined ? undefined : this.tokens[before];
    for (let i = 0; i < count; i++) this.thought(Close, this.lastEnd, {});
    const { start, end } = outermost;
    const problem: SyntaxProblem = { name: "block-not-closed", start, end, lastEntryEnd: Math.max(end, this.lastEnd) };
    if (next) problem.before = { start: next.startOffset, end: endOf(next) };
    if (within.length > 0) problem.within = within;
    this.problems.push(problem);
  }

  private thought(type: typeof Open, startOffset: number, payload: Thought): void {
    const tokenTypeIdx = type.tokenTypeIdx!;
    this.out.push({ image: "", startOffset, tokenType: type, tokenTypeIdx, payload } satisfies IToken);
  }
}

function endOf(token: IToken): number {
  return token.startOffset + token.image.length;
}
