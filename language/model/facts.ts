/**
 * Facts: the lines of a declaration, each introduced by a word from the closed list of its block. A block's definition says
 * which words there are, the form behind each, and what it means (read-facts.ts reads them).
 */
import { type Form, form, type Slots } from "./form.ts";
import { nearNames } from "./near.ts";
import type { ConditionSlot, DateSlot, NameSlot, SourceSlot, Spot, TextSlot } from "./slots.ts";

/** One kind of fact. */
export interface FactDef<F extends string = string> {
  form: Form<F>;
  /** May stand more than once. */
  many: boolean;
  /** May stand once for each name in this slot, and once without one. */
  onceFor: string | undefined;
  /** Must stand at least once for the declaration to be usable. */
  required: boolean;
  /** Is a claim about the outside world, and so needs a source. */
  sourced: boolean;
  /** What it means, one sentence, for hover and completion. */
  about: string;
}

interface FactOptions {
  many?: true;
  onceFor?: string;
  required?: true;
  sourced?: true;
}

export function fact<const F extends string>(text: F, about: string, options: FactOptions = {}): FactDef<F> {
  return {
    form: form(text),
    many: options.many ?? false,
    onceFor: options.onceFor,
    required: options.required ?? false,
    sourced: options.sourced ?? false,
    about,
  };
}

// biome-ignore lint/suspicious/noExplicitAny: a table of facts holds forms of every shape
export type FactTable = Record<string, FactDef<any>>;

/** A stated fact with its places. */
export interface Fact<F extends string = string> extends Spot {
  word: string;
  wordSpot: Spot;
  slots: Slots<F>;
  source: SourceSlot | undefined;
  when: ConditionSlot | undefined;
  because: TextSlot | undefined;
  by: NameSlot | undefined;
  until: DateSlot | undefined;
}

type FormOf<T extends FactTable, W extends keyof T> = T[W] extends FactDef<infer F> ? F : string;

/** What a place in the text does wrong as a statement. `data` carries the words for the message. */
export interface Problem extends Spot {
  name: ProblemName;
  data: Record<string, string | string[]>;
}

export type ProblemName =
  | "unknown-fact"
  | "fact-in-wrong-place"
  | "fact-not-understood"
  | "fact-stated-twice"
  | "fact-missing"
  | "step-not-understood"
  | "unknown-verb"
  | "unknown-block"
  | "block-stated-twice"
  | "declaration-without-name"
  | "unknown-declaration"
  | "capital-letters"
  | "line-outside-declaration"
  | "trailing-words-not-understood"
  | "empty-declaration";

/** The facts of one block, typed by its table. */
export class Facts<T extends FactTable = FactTable> {
  constructor(
    private readonly stated: ReadonlyMap<string, Fact[]>,
    readonly spot: Spot,
    /** Words whose line could not be read, which is told at the line: the fact is not missing. */
    readonly unread: ReadonlySet<string> = nothing,
    /** The words that the block knows. */
    private readonly table: FactTable = noTable,
  ) {}

  /** The first statement of a fact without regard to `when`, or undefined. */
  one<W extends keyof T & string>(word: W): Fact<FormOf<T, W>> | undefined {
    return this.stated.get(word)?.[0] as Fact<FormOf<T, W>> | undefined;
  }

  all<W extends keyof T & string>(word: W): readonly Fact<FormOf<T, W>>[] {
    return (this.stated.get(word) ?? none) as readonly Fact<FormOf<T, W>>[];
  }

  /** Whether a line that could not be read may say this, its own word spelt wrong included: what it says is not known, not absent. */
  isUnread(word: string): boolean {
    if (this.unread.size === 0) return false;
    return (
      this.isMisspelt(word) || (this.hasStrangeLine && (this.table[word]?.many === true || !this.stated.has(word)))
    );
  }

  /** The same, lines left aside whose word is like none of the block's words and may stand for any. */
  isMisspelt(word: string): boolean {
    if (this.unread.has(word)) return true;
    for (const written of this.unread) if (nearNames(written, [word]).length > 0) return true;
    return false;
  }

  /** Whether `fact-stated-twice` is told of this word: stated again, and one row at least holds always. */
  isStatedTwice(word: string): boolean {
    const [stated, rules] = [this.stated.get(word), this.table[word]];
    return stated !== undefined && rules !== undefined && statedTwice(stated, rules).length > 0;
  }

  private get hasStrangeLine(): boolean {
    this.strange ??= [...this.unread].some((written) => nearNames(written, Object.keys(this.table)).length === 0);
    return this.strange;
  }
  private strange: boolean | undefined;

  /** In order of their words' first statement. */
  every(): readonly Fact[] {
    this.whole ??= [...this.stated.values()].flat();
    return this.whole;
  }
  private whole: readonly Fact[] | undefined;
}

const none: readonly Fact[] = [];
const nothing: ReadonlySet<string> = new Set();
const noTable: FactTable = {};

export const trailingForms = {
  source: form("source <value:source>"),
  when: form("when <value:condition>"),
  because: form("because <value:text>"),
  by: form("by <value:name>"),
  until: form("until <value:date>"),
} as const;

export type TrailingWord = keyof typeof trailingForms;

export const usualTrailing: readonly TrailingWord[] = ["source", "when"];
export const reasonedTrailing: readonly TrailingWord[] = ["source", "when", "because", "by", "until"];

/** Rows of one fact of which one is one too many. Those told apart by their conditions are left out: whether just one holds is proved elsewhere. */
export function statedTwice(all: readonly Fact[], { many, onceFor }: FactDef): (readonly Fact[])[] {
  if (all.length < 2 || many) return [];
  const groups = onceFor === undefined ? [all] : byName(all, onceFor);
  return groups.filter((facts) => facts.length > 1 && !facts.every((f) => f.when));
}

function byName(facts: readonly Fact[], slot: string): Fact[][] {
  const groups = new Map<string, Fact[]>();
  for (const f of facts) {
    const name = (f.slots as Record<string, NameSlot | undefined>)[slot]?.name ?? "";
    groups.set(name, [...(groups.get(name) ?? []), f]);
  }
  return [...groups.values()];
}
