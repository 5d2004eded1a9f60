/**
 * Facts: the lines of a declaration, each introduced by a word from the closed list of its block. A block's definition says
 * which words there are, the form behind each, and what it means; reading a block gives the facts it states and, for
 * every line that does not fit, a problem with its place. Nothing is guessed and nothing is lost.
 */
import { type Block, type Entry, headWord, type Line, type Token } from "../syntax/tree.ts";
import { type Form, form, type Slots } from "./form.ts";
import { isMisfit, looseWord, matchForm } from "./form-match.ts";
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

/** Where else each fact word is at home, to say so when it stands in the wrong declaration. Filled by declarations.ts. */
export type WordHomes = ReadonlyMap<string, string[]>;

export interface BlockReading<T extends FactTable> {
  facts: Facts<T>;
  /** Nested blocks in order of writing, those the caller named. */
  blocks: Block[];
  problems: Problem[];
}

export interface BlockRules<T extends FactTable> {
  /** Words for the message, such as `drug` or `order`. */
  title: string;
  table: T;
  /** First words of the blocks that may stand inside. */
  inner: readonly string[];
  trailing: readonly TrailingWord[];
}

/** Reads the body of a block. */
export function readFacts<T extends FactTable>(block: Block, rules: BlockRules<T>, homes: WordHomes): BlockReading<T> {
  const stated = new Map<string, Fact[]>();
  const unread: string[] = [];
  const blocks: Block[] = [];
  const problems: Problem[] = [];
  for (const entry of block.body) {
    if (entry.kind === "block") {
      readInner(entry, rules, blocks, problems);
      continue;
    }
    if (entry.isStray || isStray(entry, block)) continue; // the syntax says so already
    const before = problems.length;
    const read = readFact(entry, rules, homes, problems);
    if (!read) {
      unread.push(looseWord(entry.tokens[0]) ?? "");
      continue;
    }
    // Without its condition nobody knows when it holds.
    if (problems.slice(before).some(isLostCondition)) unread.push(read.word);
    const others = stated.get(read.word);
    if (!others) stated.set(read.word, [read]);
    else others.push(read);
  }
  blockSource(stated);
  repeated(stated, rules, problems);
  const spot = { start: block.head.start, end: block.head.end };
  const notRead = unread.length > 0 ? new Set(unread) : nothing;
  return { facts: new Facts<T>(stated, spot, notRead, rules.table), blocks, problems };
}

function isLostCondition({ name, data }: Problem): boolean {
  return name === "trailing-words-not-understood" && data.word === "when";
}

/** A trailing word with nothing above it to continue; only `source` may open a block. */
function isStray(line: Line, block: Block): boolean {
  const word = line.tokens[0]?.text ?? "";
  return Object.hasOwn(trailingForms, word) && !(word === "source" && block.body[0] === line);
}

/** `source` as a line of its own speaks for every fact of the block that names none. */
function blockSource(stated: Map<string, Fact[]>): void {
  const own = stated.get("source")?.[0];
  if (!own) return;
  const speaks = (own.slots as { source: SourceSlot }).source;
  for (const facts of stated.values()) for (const f of facts) f.source ??= speaks;
}

function readInner(entry: Block, rules: BlockRules<FactTable>, blocks: Block[], problems: Problem[]) {
  const first = entry.head.tokens[0];
  const word = headWord(entry)?.toLowerCase();
  if (word !== undefined && rules.inner.includes(word)) {
    blocks.push(entry);
    return;
  }
  problems.push({
    name: "unknown-block",
    start: first?.start ?? entry.open.start,
    end: first?.end ?? entry.open.end,
    data: {
      word: first?.text ?? "{",
      inside: rules.title,
      known: [...rules.inner],
      near: nearNames(word ?? "", rules.inner),
    },
  });
}

function readFact(line: Line, rules: BlockRules<FactTable>, homes: WordHomes, problems: Problem[]): Fact | undefined {
  const first = line.tokens[0];
  if (!first) return undefined;
  const word = looseWord(first);
  const def = word === undefined || !Object.hasOwn(rules.table, word) ? undefined : rules.table[word];
  if (word === undefined || !def) {
    if (first.kind === "word") problems.push(unknownWord(first, rules, homes));
    else problems.push(withoutWord(line, rules));
    return undefined;
  }
  if (first.text !== word) problems.push(capitals(first, word));
  const cut = trailingStart(line.tokens, rules.trailing);
  const match = matchForm(def.form, line.tokens.slice(0, cut), 1);
  if (isMisfit(match)) {
    problems.push(notUnderstood(line, `${word} ${def.form.text}`.trim(), match.expected.join(" or "), match.at, cut));
    return undefined;
  }
  for (const token of match.loose) problems.push(capitals(token, looseWord(token) ?? token.text));
  const read: Fact = {
    word,
    wordSpot: { start: first.start, end: first.end },
    slots: match.slots,
    source: undefined,
    when: undefined,
    because: undefined,
    by: undefined,
    until: undefined,
    start: line.start,
    end: line.end,
  };
  readTrailing(line.tokens.slice(cut), rules.trailing, read, problems);
  return read;
}

/** Reads `source …`, `when …` and their like behind a fact, in any order. */
export function readTrailing(
  tokens: readonly Token[],
  words: readonly TrailingWord[],
  into: Pick<Fact, TrailingWord>,
  problems: Problem[],
): void {
  let rest = tokens;
  while (rest.length > 0) {
    const word = rest[0]!.text as TrailingWord;
    const length = 1 + trailingStart(rest.slice(1), words);
    const match = matchForm(trailingForms[word] as Form, rest.slice(0, length));
    if (isMisfit(match)) {
      const at = rest[Math.min(match.at, length - 1)] ?? rest[0]!;
      problems.push({
        name: "trailing-words-not-understood",
        start: at.start,
        end: at.end,
        data: { word, expected: match.expected },
      });
    } else {
      (into as Record<string, unknown>)[word] = (match.slots as { value: unknown }).value;
    }
    rest = rest.slice(length);
  }
}

/** Index of the first trailing word behind the statement's own words, or the count of tokens. */
export function trailingStart(tokens: readonly Token[], words: readonly string[]): number {
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    if (token.kind === "word" && i > 0 && words.includes(token.text)) return i;
  }
  return tokens.length;
}

function repeated(stated: Map<string, Fact[]>, rules: BlockRules<FactTable>, problems: Problem[]): void {
  for (const [word, all] of stated) {
    for (const facts of statedTwice(all, rules.table[word]!)) {
      const conditional = facts.some((f) => f.when) ? "yes" : "";
      for (const f of facts.slice(1)) {
        problems.push({
          name: "fact-stated-twice",
          start: f.start,
          end: f.end,
          data: { word, inside: rules.title, times: String(facts.length), conditional },
        });
      }
    }
  }
}

/** Rows of one fact of which one is one too many. Those told apart by their conditions are left out: whether just one holds is proved elsewhere. */
function statedTwice(all: readonly Fact[], { many, onceFor }: FactDef): (readonly Fact[])[] {
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

function unknownWord(first: Token, rules: BlockRules<FactTable>, homes: WordHomes): Problem {
  const known = Object.keys(rules.table);
  const spot = { start: first.start, end: first.end };
  const home = homes.get(first.text)?.filter((h) => h !== rules.title);
  if (home && home.length > 0) {
    return { name: "fact-in-wrong-place", ...spot, data: { word: first.text, inside: rules.title, home } };
  }
  const data = { word: first.text, inside: rules.title, near: nearNames(first.text, known) };
  return { name: "unknown-fact", ...spot, data };
}

export function capitals(token: Token, word: string): Problem {
  return { name: "capital-letters", start: token.start, end: token.end, data: { written: token.text, word } };
}

/** A line that begins with a figure, a text or a sign. */
function withoutWord(line: Line, { title, table }: BlockRules<FactTable>): Problem {
  const problem = notUnderstood(line, "", "a word of this block", 0);
  return { ...problem, data: { ...problem.data, block: title, such: Object.keys(table)[0] ?? "" } };
}

function notUnderstood(line: Line, formText: string, expected: string, at: number, cut = line.tokens.length): Problem {
  const token = at < cut ? line.tokens[at] : undefined;
  const last = line.tokens[Math.max(0, cut - 1)]!;
  return {
    name: "fact-not-understood",
    start: token?.start ?? last.end,
    end: token?.end ?? last.end,
    data: { form: showForm(formText), expected, found: token?.text ?? "", fault: token?.fault ?? "" },
  };
}

const slotWords: Readonly<Record<string, string>> = {
  name: "NAME",
  names: "NAMES",
  measure: "QUANTITY",
  strength: "QUANTITY",
  range: "QUANTITY",
  number: "NUMBER",
  text: '"TEXT"',
  date: "DATE",
  bound: "LIMITS",
  condition: "CONDITION",
  source: 'REFERENCE "PLACE"',
};

/** A form as a person reads it: `draw QUANTITY from NAMES into NAME`. */
export function showForm(text: string): string {
  return text.replace(/<([^:>]+):([^>]+)>/g, (_, slot: string, type: string) => {
    if (type === "name" || type === "names") return slot.replace("?", "").toUpperCase();
    return slotWords[type] ?? type.split("|").join(" / ");
  });
}

export function isLine(entry: Entry): entry is Line {
  return entry.kind === "line";
}
