/**
 * What may stand next in a statement: the forms walked along what is written so far. One walk serves completion, signature help
 * and the choice of units, so that they follow the same forms as reading does.
 */
import { compileForm, type FormNode } from "../model/form-compile.ts";
import { looseWord } from "../model/form-match.ts";
import type { Token } from "../syntax/tree.ts";

export interface Awaited {
  kind: "word" | "slot" | "unit" | "end";
  /** The word, or the rest of a phrase of words. */
  text: string;
  /** The slot it belongs to, and its type. */
  slot: string;
  type: string;
  choices: readonly string[] | undefined;
  /** What the slots before it took, by slot. */
  taken: Readonly<Record<string, readonly Token[]>>;
  /** Another name of a list, after a comma that is not written yet. */
  further: boolean;
}

const bound = compileForm(
  "(any | from <low:measure> [(below <high:measure> | up to <high:measure>)] | above <low:measure> [(below <high:measure> | up to <high:measure>)] | up to <high:measure> | below <high:measure>)",
);
const inner: Readonly<Record<string, FormNode>> = {
  bound,
  condition: compileForm("<input:name> <limits:bound>"),
  range: compileForm("<from:measure> [to <to:measure>]"),
  source: compileForm("(<reference:name> [<where:text>] | <where:text>)"),
};

/** Everything that may follow `tokens` in a statement of this form. */
export function awaitedAfter(start: FormNode, tokens: readonly Token[]): Awaited[] {
  const found: Awaited[] = [];
  new Walk(tokens, found).go(start, 0, "", {}, (at, taken) => {
    if (at === tokens.length) found.push({ ...nothing, kind: "end", taken });
  });
  return found;
}

const nothing: Awaited = { kind: "end", text: "", slot: "", type: "", choices: undefined, taken: {}, further: false };

type Taken = Readonly<Record<string, readonly Token[]>>;
type Then = (at: number, taken: Taken) => void;

class Walk {
  constructor(
    private readonly tokens: readonly Token[],
    private readonly found: Awaited[],
  ) {}

  go(node: FormNode, at: number, owner: string, taken: Taken, then: Then): void {
    switch (node.kind) {
      case "end":
        then(at, taken);
        return;
      case "word":
        if (at === this.tokens.length)
          this.found.push({ ...nothing, kind: "word", text: node.word, slot: owner, taken });
        else if (looseWord(this.tokens[at]) === node.word) this.go(node.next, at + 1, owner, taken, then);
        return;
      case "optional":
        this.go(node.inner, at, owner, taken, then);
        this.go(node.next, at, owner, taken, then);
        return;
      case "either":
        for (const way of node.ways) this.go(way, at, owner, taken, then);
        return;
      case "slot":
        this.slot(node, at, owner || node.slot, taken, then);
    }
  }

  private slot(node: FormNode & { kind: "slot" }, at: number, name: string, taken: Taken, then: Then): void {
    const next = (to: number) =>
      this.go(node.next, to, name === node.slot ? "" : name, { ...taken, [name]: this.tokens.slice(at, to) }, then);
    const token = this.tokens[at];
    const within = inner[node.type];
    if (within) {
      this.go(within, at, name, taken, next);
      return;
    }
    if (!token) {
      const choices = node.type === "choice" ? node.choices.map((phrase) => phrase.join(" ")) : undefined;
      this.found.push({ ...nothing, kind: "slot", slot: name, type: node.type, choices, taken });
      return;
    }
    switch (node.type) {
      case "names":
        this.names(node, at, name, taken, next);
        return;
      case "measure":
        if (token.kind !== "number" && token.kind !== "ratio") return;
        if (this.tokens[at + 1]?.kind === "unit") next(at + 2);
        else {
          if (at + 1 === this.tokens.length)
            this.found.push({ ...nothing, kind: "unit", slot: name, type: "unit", taken });
          next(at + 1);
        }
        return;
      case "strength":
        if (token.kind !== "number" && token.kind !== "ratio") return;
        if (this.tokens[at + 2]?.text === "in" && this.tokens[at + 4]?.kind === "unit") next(at + 5);
        else if (this.tokens[at + 1]?.kind === "unit") next(at + 2);
        return;
      case "choice":
        for (const phrase of node.choices) this.phrase(phrase, at, name, taken, next);
        return;
      default:
        if (fits(token, node.type)) next(at + 1);
    }
  }

  private names(node: FormNode & { kind: "slot" }, at: number, name: string, taken: Taken, next: (to: number) => void) {
    let to = at;
    for (;;) {
      if (to === this.tokens.length) {
        const so = { ...taken, [name]: this.tokens.slice(at, to) };
        this.found.push({ ...nothing, kind: "slot", slot: name, type: node.type, taken: so });
        return;
      }
      if (this.tokens[to]!.kind !== "word") return;
      to++;
      if (this.tokens[to]?.kind !== "comma") break;
      to++;
    }
    if (to === this.tokens.length) {
      const so = { ...taken, [name]: this.tokens.slice(at, to) };
      this.found.push({ ...nothing, kind: "slot", slot: name, type: node.type, taken: so, further: true });
    }
    next(to);
  }

  private phrase(phrase: readonly string[], at: number, name: string, taken: Taken, next: (to: number) => void): void {
    for (const [i, word] of phrase.entries()) {
      const token = this.tokens[at + i];
      if (!token) {
        this.found.push({ ...nothing, kind: "word", text: phrase.slice(i).join(" "), slot: name, taken });
        return;
      }
      if (looseWord(token) !== word) return;
    }
    next(at + phrase.length);
  }
}

function fits(token: Token, type: string): boolean {
  switch (type) {
    case "name":
      return token.kind === "word";
    case "number":
      return token.kind === "number";
    case "text":
      return token.kind === "string";
    case "date":
      return token.kind === "date";
    default:
      return false;
  }
}
