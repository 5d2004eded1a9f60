/** Matches the tokens of one statement against a form. Never throws; a misfit says how far the line made sense and what was awaited there. */
import { defaultHouse, readMeasure, readNumber } from "../quantities/notation.ts";
import type { Quantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { Token } from "../syntax/tree.ts";
import { edgeWords, glueWords } from "../syntax/words.ts";
import type { Form, FormNode, Match, Misfit } from "./form.ts";
import type { BoundSlot, ConditionSlot, MeasureSlot, NameSlot, RangeSlot, SourceSlot } from "./slots.ts";

/** Signs that a list of error-prone notation replaces by a word; read as that word so that the rest of the line keeps its meaning. */
const signWords: Readonly<Record<string, string>> = { "@": "at", "&": "and", "×": "x", ">": "above", "<": "below" };

const notNames = new Set<string>([...glueWords, ...edgeWords]);

/** Matches `tokens[from…]`. */
export function matchForm<F extends string>(target: Form<F>, tokens: readonly Token[], from = 0): Match<F> | Misfit {
  const walk = new Walk(tokens);
  if (walk.matches(target.start, from)) return { slots: walk.slots as Match<F>["slots"], loose: walk.loose };
  return { at: walk.furthest, expected: [...new Set(walk.expected)] };
}

export function isMisfit(result: object): result is Misfit {
  return "expected" in result;
}

class Walk {
  slots: Record<string, unknown> = {};
  loose: Token[] = [];
  furthest = -1;
  expected: string[] = [];

  constructor(readonly tokens: readonly Token[]) {}

  matches(node: FormNode, at: number): boolean {
    switch (node.kind) {
      case "end":
        return at === this.tokens.length || this.fails(at, "the end of the line");
      case "word": {
        const token = this.tokens[at];
        if (token === undefined) return this.fails(at, node.expected);
        if (token.text === node.word && token.kind === "word") return this.matches(node.next, at + 1);
        if (looseWord(token) !== node.word) return this.fails(at, node.expected);
        this.loose.push(token);
        if (this.matches(node.next, at + 1)) return true;
        this.loose.pop();
        return false;
      }
      case "optional": {
        if (this.matches(node.inner, at)) return true;
        this.forget(node.slots);
        return this.matches(node.next, at);
      }
      case "either": {
        for (const way of node.ways) {
          if (this.matches(way, at)) return true;
          this.forget(node.slots);
        }
        return false;
      }
      case "slot": {
        const reach = this.read(node, at);
        if (reach === undefined) return false;
        this.slots[node.slot] = reach.value;
        return this.matches(node.next, reach.next);
      }
    }
  }

  /** What a way that did not fit has read. Most ways end at their first word; an object from which things are deleted is slow. */
  private forget(slots: readonly string[]): void {
    for (const slot of slots) if (slot in this.slots) delete this.slots[slot];
  }

  private fails(at: number, expected: string): false {
    if (at > this.furthest) {
      this.furthest = at;
      this.expected = [];
    }
    if (at === this.furthest) this.expected.push(expected);
    return false;
  }

  private misses(at: number, expected: string): undefined {
    this.fails(at, expected);
    return undefined;
  }

  private read(node: FormNode & { kind: "slot" }, at: number): { value: unknown; next: number } | undefined {
    const token = this.tokens[at];
    switch (node.type) {
      case "name": {
        const name = nameAt(token);
        return name ? { value: name, next: at + 1 } : this.misses(at, "a name");
      }
      case "names":
        return this.readNames(at);
      case "measure": {
        const measure = measureAt(this.tokens, at);
        return measure ? { value: measure.value, next: measure.next } : this.misses(at, "a quantity with its unit");
      }
      case "strength":
        return this.readStrength(at);
      case "range":
        return this.readRange(at);
      case "number": {
        if (token?.kind !== "number") return this.misses(at, "a number");
        const value = readNumber(token.text, defaultHouse).value;
        return { value: { value, written: token.text, start: token.start, end: token.end }, next: at + 1 };
      }
      case "text": {
        if (token?.kind !== "string") return this.misses(at, "text between quotes");
        return { value: { text: unquote(token.text), start: token.start, end: token.end }, next: at + 1 };
      }
      case "date": {
        if (token?.kind !== "date") return this.misses(at, "a date such as 2027-04 or 2027-04-30");
        return { value: { text: token.text, start: token.start, end: token.end }, next: at + 1 };
      }
      case "bound":
        return this.readBound(at);
      case "condition":
        return this.readCondition(at);
      case "source":
        return this.readSource(at);
      default:
        return this.readChoice(node, at);
    }
  }

  private readNames(at: number) {
    const names: NameSlot[] = [];
    let next = at;
    for (;;) {
      const name = nameAt(this.tokens[next]);
      if (!name) return this.misses(next, "a name");
      names.push(name);
      next++;
      // What grows by pushes has room for sixteen more.
      if (this.tokens[next]?.kind !== "comma") return { value: names.slice(), next };
      next++;
    }
  }

  /** `50 mg/mL`, or an amount in a volume: 125 mg in 3 mL is kept exact, although its figure for one mL has no end. */
  private readStrength(at: number): { value: MeasureSlot; next: number } | undefined {
    const amount = measureAt(this.tokens, at);
    if (!amount) return this.misses(at, "a quantity with its unit");
    const joined = this.tokens[amount.next];
    if (joined?.kind !== "word" || joined.text !== "in") return amount;
    const volume = measureAt(this.tokens, amount.next + 1);
    if (!volume) return this.misses(amount.next + 1, "the volume that holds it, such as 3 mL");
    const quantity = inVolume(amount.value.quantity, volume.value.quantity);
    const isRead = amount.value.quantity !== undefined && volume.value.quantity !== undefined;
    if (isRead && !quantity)
      return this.misses(amount.next, "an amount such as 125 mg in front of `in`, and a volume behind it");
    const written = `${amount.value.written} in ${volume.value.written}`;
    return { value: { ...amount.value, quantity, written, end: volume.value.end }, next: volume.next };
  }

  private readRange(at: number): { value: RangeSlot; next: number } | undefined {
    const first = measureAt(this.tokens, at);
    if (!first) return this.misses(at, "a quantity with its unit");
    const joined = this.tokens[first.next];
    if (joined?.text !== "to" || joined.kind !== "word") {
      if (!first.value.unit) return this.misses(first.next, "a unit");
      const { start, end } = first.value;
      return { value: { from: first.value, to: first.value, isRange: false, start, end }, next: first.next };
    }
    const last = measureAt(this.tokens, first.next + 1);
    if (!last) return this.misses(first.next + 1, "the upper end of the range, with its unit");
    // "12 to 110 kg": both ends take the one unit; the missing unit is a finding of its own.
    const from =
      first.value.unit || !last.value.unit
        ? first.value
        : { ...first.value, quantity: judge(first.value.number, last.value.unit).quantity };
    const value = { from, to: last.value, isRange: true, start: from.start, end: last.value.end };
    return { value, next: last.next };
  }

  private readBound(at: number): { value: BoundSlot; next: number } | undefined {
    const first = this.tokens[at];
    if (first?.kind === "word" && first.text === "any") {
      return { value: { low: undefined, high: undefined, start: first.start, end: first.end }, next: at + 1 };
    }
    let low: BoundSlot["low"];
    let high: BoundSlot["high"];
    let next = at;
    let end = first?.end ?? 0;
    for (;;) {
      const edge = edgeAt(this.tokens, next);
      if (!edge || (edge.low ? low : high)) break;
      const measure = measureAt(this.tokens, edge.next);
      if (!measure) return this.misses(edge.next, "a quantity with its unit");
      if (edge.low) low = { measure: measure.value, included: edge.included };
      else high = { measure: measure.value, included: edge.included };
      next = measure.next;
      end = measure.value.end;
    }
    if (next === at) return this.misses(at, "`from`, `up to`, `above`, `below` or `any`");
    return { value: { low, high, start: first!.start, end }, next };
  }

  private readCondition(at: number): { value: ConditionSlot; next: number } | undefined {
    const input = nameAt(this.tokens[at], true);
    if (!input) return this.misses(at, "`dose` or an input of the order such as `weight`");
    const bound = this.readBound(at + 1);
    if (!bound) return undefined;
    return { value: { input, bound: bound.value, start: input.start, end: bound.value.end }, next: bound.next };
  }

  private readSource(at: number): { value: SourceSlot; next: number } | undefined {
    const token = this.tokens[at];
    const text = (t: Token) => ({ text: unquote(t.text), start: t.start, end: t.end });
    if (token?.kind === "string") {
      const value = { reference: undefined, where: text(token), start: token.start, end: token.end };
      return { value, next: at + 1 };
    }
    const reference = nameAt(token);
    if (!reference) return this.misses(at, "the name of a reference, or text between quotes");
    const place = this.tokens[at + 1];
    const where = place?.kind === "string" ? text(place) : undefined;
    const value = { reference, where, start: reference.start, end: where?.end ?? reference.end };
    return { value, next: at + (where ? 2 : 1) };
  }

  private readChoice({ choices, expected }: FormNode & { kind: "slot" }, at: number) {
    for (const phrase of choices) {
      if (!this.standsAt(phrase, at)) continue;
      const first = this.tokens[at]!;
      const last = this.tokens[at + phrase.length - 1]!;
      for (let i = 0; i < phrase.length; i++) {
        if (this.tokens[at + i]!.text !== phrase[i]) this.loose.push(this.tokens[at + i]!);
      }
      return { value: { choice: phrase.join(" "), start: first.start, end: last.end }, next: at + phrase.length };
    }
    return this.misses(at, expected);
  }

  private standsAt(phrase: readonly string[], at: number): boolean {
    for (let i = 0; i < phrase.length; i++) if (looseWord(this.tokens[at + i]) !== phrase[i]) return false;
    return true;
  }
}

/** The word a token is read as: small letters, or the word behind a sign. */
export function looseWord(token: Token | undefined): string | undefined {
  if (token === undefined) return undefined;
  if (token.kind === "word") return token.text.toLowerCase();
  if (token.kind === "faulty" && token.fault === "symbol") return signWords[token.text];
  return undefined;
}

function nameAt(token: Token | undefined, anyWord = false): NameSlot | undefined {
  if (token?.kind !== "word") return undefined;
  if (!anyWord && notNames.has(token.text)) return undefined;
  return { name: token.text, start: token.start, end: token.end };
}

function edgeAt(tokens: readonly Token[], at: number): { low: boolean; included: boolean; next: number } | undefined {
  const sign = tokens[at]?.kind === "faulty" ? tokens[at].text : undefined;
  if (sign === "≥" || sign === ">=") return { low: true, included: true, next: at + 1 };
  if (sign === "≤" || sign === "<=") return { low: false, included: true, next: at + 1 };
  const word = looseWord(tokens[at]);
  if (word === "from") return { low: true, included: true, next: at + 1 };
  if (word === "above") return { low: true, included: false, next: at + 1 };
  if (word === "below") return { low: false, included: false, next: at + 1 };
  if (word === "up" && looseWord(tokens[at + 1]) === "to") return { low: false, included: true, next: at + 2 };
  return undefined;
}

/** A number (or ratio) and the unit after it, if there is one. */
export function measureAt(tokens: readonly Token[], at: number): { value: MeasureSlot; next: number } | undefined {
  const number = tokens[at];
  if (number?.kind !== "number" && number?.kind !== "ratio") return undefined;
  const after = tokens[at + 1];
  const unit = after?.kind === "unit" ? after : undefined;
  const { quantity, decimals } = judge(number, unit);
  const written = unit ? `${number.text} ${unit.text}` : number.text;
  const value = { quantity, number, unit, written, decimals, start: number.start, end: (unit ?? number).end };
  return { value, next: at + (unit ? 2 : 1) };
}

function inVolume(amount: Quantity | undefined, volume: Quantity | undefined): Quantity | undefined {
  if (!amount || volume?.unit.dimension.key !== "volume" || !volume.value.isPositive()) return undefined;
  const { unit } = findUnit(`${amount.unit.spelling}/${volume.unit.spelling}`);
  return unit && { value: amount.value.over(volume.value), unit };
}

function judge(number: Token, unit: Token | undefined) {
  const gap = unit ? " ".repeat(Math.min(unit.start - number.end, 2)) : "";
  const reading = readMeasure(number.text, gap, unit?.text ?? "", defaultHouse);
  return { quantity: reading.quantity, decimals: readNumber(number.text, defaultHouse).decimals };
}

function unquote(text: string): string {
  return text.slice(1, -1).replace(/\\(["\\])/g, "$1");
}
