/**
 * How the recipes of this library are written: which value a fact has most often, which line follows which. Completion puts
 * first what this hospital writes most, and most of all what it writes for the same drug; it knows no formulary of its own.
 */
import { orderedDrugs } from "../bench/stray-drugs.ts";
import type { Library, PlacedChunk } from "../library.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import { looseWord } from "../model/form-match.ts";
import { keptWith } from "../model/kept-with.ts";
import type { Block, Entry } from "../syntax/tree.ts";

/** One line of a block, as others may be written. */
export interface HabitLine {
  /** First word of the line, or of the block with ` {`. */
  word: string;
  /** What stands behind the word, without its source and comments. */
  value: string;
}

export interface Habit {
  /** `recipe`, `order`, `preparation` … */
  block: string;
  lines: HabitLine[];
}

/** The blocks of a declaration as habits. */
export const habitsOf = keptWith<Declaration, readonly Habit[]>(collect);

function collect(declaration: Declaration): Habit[] {
  const chunk = declaration.chunk as { reading?: { tree: { entries: Entry[] } } };
  const block = chunk.reading?.tree.entries.find(
    (e): e is Block =>
      e.kind === "block" && e.head.start <= declaration.head.start && declaration.head.end <= e.head.end,
  );
  const habits: Habit[] = [];
  const visit = (b: Block) => {
    const lines: HabitLine[] = [];
    for (const entry of b.body) {
      if (entry.kind === "block") {
        const word = looseWord(entry.head.tokens[0]) ?? "";
        lines.push({ word: `${word} {`, value: entry.head.tokens[1]?.text ?? "" });
        visit(entry);
        continue;
      }
      const tokens = entry.tokens;
      const cut = tokens.findIndex((t, i) => i > 0 && t.kind === "word" && (t.text === "source" || t.text === "when"));
      const last = tokens[(cut < 0 ? tokens.length : cut) - 1];
      const second = tokens[1];
      const value =
        second && last && second.start < last.end ? declaration.chunk.text.slice(second.start, last.end) : "";
      lines.push({ word: looseWord(tokens[0]) ?? "", value: value.replace(/\s+/g, " ") });
    }
    habits.push({ block: looseWord(b.head.tokens[0]) ?? "", lines });
  };
  if (block) visit(block);
  return habits;
}

/** How alike two recipes are: what the same drugs are made of counts most, then the same diluent. */
function likeness(recipe: Recipe, other: Recipe): number {
  const drugs = orderedDrugs(other);
  const fluid = recipe.order?.one("diluent")?.slots.fluid.name;
  let weight = 1;
  if (orderedDrugs(recipe).some((drug) => drugs.includes(drug))) weight += 30;
  if (fluid !== undefined && other.order?.one("diluent")?.slots.fluid.name === fluid) weight += 2;
  return weight;
}

export interface Peer {
  declaration: Declaration;
  weight: number;
}

/** More recipes than these are not read for a suggestion: what is usual shows in them, and an answer must not make anybody wait. */
const mostAlike = 40;
const mostOthers = 30;

/** Other declarations of the same kind, with how much their habits count here. */
export function peersOf(library: Library, declaration: Declaration | undefined, kind: Declaration["kind"]): Peer[] {
  const own = declaration?.kind === kind ? declaration : undefined;
  const drugs = own?.kind === "recipe" ? orderedDrugs(own) : [];
  const alike: PlacedChunk[] = [];
  const others: PlacedChunk[] = [];
  for (const head of library.headsOf(kind)) {
    const chunk = head.chunk as PlacedChunk;
    if (chunk === own?.chunk || (head.name.name === own?.name.name && kind !== "site") || !("reading" in chunk))
      continue;
    if (alike.length < mostAlike && drugs.some((drug) => chunk.text.includes(drug))) alike.push(chunk);
    else others.push(chunk);
  }
  // From the whole library and not from its beginning, where one drug may fill them all.
  const stride = Math.max(1, others.length / mostOthers);
  const sample = others.filter((_, i) => Math.floor(i / stride) !== Math.floor((i - 1) / stride));
  return [...alike, ...sample].flatMap((chunk) =>
    chunk.reading.declarations
      .filter((other) => other.kind === kind)
      .map((other) => ({
        declaration: other,
        weight: own?.kind === "recipe" && other.kind === "recipe" ? likeness(own, other) : 1,
      })),
  );
}

/** Counts by text, heaviest first; equals in the order in which they were met. */
export class Tally {
  private readonly counts = new Map<string, number>();
  total = 0;

  add(text: string, weight: number): void {
    this.total += weight;
    this.counts.set(text, (this.counts.get(text) ?? 0) + weight);
  }

  best(most: number): { text: string; weight: number }[] {
    return [...this.counts]
      .map(([text, weight]) => ({ text, weight }))
      .sort((a, b) => b.weight - a.weight)
      .slice(0, most);
  }
}

/** Values that a fact has in a block, most usual first. */
export function usualValues(peers: readonly Peer[], block: string, word: string): Tally {
  const tally = new Tally();
  for (const { declaration, weight } of peers) {
    for (const habit of habitsOf(declaration)) {
      if (habit.block !== block) continue;
      for (const line of habit.lines) if (line.word === word && line.value !== "") tally.add(line.value, weight);
    }
  }
  return tally;
}

/** First words that follow a line with the word `after` in such a block; `after` is empty at its beginning. */
export function usualNext(peers: readonly Peer[], block: string, after: string): Tally {
  const tally = new Tally();
  for (const { declaration, weight } of peers) {
    for (const habit of habitsOf(declaration)) {
      if (habit.block !== block) continue;
      let before = "";
      for (const line of habit.lines) {
        if (before === after) tally.add(line.word, weight);
        before = line.word;
      }
    }
  }
  return tally;
}
