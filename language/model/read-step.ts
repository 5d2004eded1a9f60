/** A step as it was read. */
import { lex, toToken } from "../syntax/tokens.ts";
import type { Token } from "../syntax/tree.ts";
import type { Chunk, Step } from "./declaration.ts";
import type { ConditionSlot } from "./slots.ts";

/** Its tokens can be let go of, and are read again from the text of the step when somebody asks for them. */
export class ReadStep implements Step {
  private held: Token[] | undefined;

  constructor(
    private readonly chunk: Chunk,
    readonly number: number,
    tokens: Token[],
    readonly only: ConditionSlot[],
    readonly start: number,
    readonly end: number,
  ) {
    this.held = tokens;
  }

  get tokens(): Token[] {
    this.held ??= tokensBetween(this.chunk.text, this.start, this.end);
    return this.held;
  }

  forgetTokens(): void {
    this.held = undefined;
  }
}

function tokensBetween(text: string, start: number, end: number): Token[] {
  return lex(text.slice(start, end)).tokens.map((from) => {
    const token = toToken(from);
    return { ...token, start: token.start + start, end: token.end + start };
  });
}
