/**
 * Reads the facts of a block: what it states and, for every line that does not fit, a problem with its place. Nothing is guessed and
 * nothing is lost.
 */
import { type Block, type Entry, headWord, type Line, type Token } from "../syntax/tree.ts";
import {
  type Fact,
  Facts,
  type FactTable,
  type Problem,
  statedTwice,
  type TrailingWord,
  trailingForms,
} from "./facts.ts";
import type { Form } from "./form.ts";
import { isMisfit, looseWord, matchForm } from "./form-match.ts";
import { showForm } from "./form-shown.ts";
import { nearNames } from "./near.ts";
import type { SourceSlot } from "./slots.ts";

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
  const notRead = unread.length > 0 ? new Set(unread) : undefined;
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

export function isLine(entry: Entry): entry is Line {
  return entry.kind === "line";
}
