/**
 * The meaning of one declaration: its facts without order, its steps in order, as plain data. It is taken from the model; a line
 * that the model could not read, in whole or in part, stands in it with its words.
 *
 * Invariant: every line of the declaration that holds anything but a comment is in its meaning exactly once.
 */
import { planOf } from "../bench/plan.ts";
import { verbsByWord } from "../bench/verbs/index.ts";
import type { Chunk, ChunkReading, Declaration, DeclarationKind, Recipe } from "../model/declaration.ts";
import type { Fact, Facts } from "../model/facts.ts";
import { keptWith } from "../model/kept-with.ts";
import { readChunk } from "../model/read-chunk.ts";
import type { Spot } from "../model/slots.ts";
import type { Block, Entry, Line } from "../syntax/tree.ts";
import {
  canonicalJson,
  type NameOf,
  type Plain,
  plainCondition,
  plainMeasure,
  plainSlots,
  sameName,
  wordsOf,
} from "./canonical.ts";

export interface Statement extends Spot {
  /** What it says. */
  value: Plain;
  /** Equal for statements that say the same in the same place. */
  key: string;
  /** As written, with single blanks. */
  shown: string;
  /** False where a part of it could not be read. */
  isRead: boolean;
}

export interface FactMeaning extends Statement {
  /** Where in the declaration: empty, `order`, `materials`, `preparation bag`, `stable in glucose-5 at refrigerator`. */
  block: string;
  /** The word of the fact, or the name of a material. */
  word: string;
}

export interface StepMeaning extends Statement {
  number: number;
  verb: string;
}

export interface DeclarationMeaning {
  kind: DeclarationKind;
  name: string;
  chunk: Chunk;
  facts: FactMeaning[];
  steps: StepMeaning[];
}

const ownMeaning = keptWith((declaration: Declaration) => new Gathering(declaration, sameName).meaning());

/** Offsets are in the declaration's chunk. Where names were changed, `nameOf` gives those of the other side. */
export function meaningOf(declaration: Declaration, nameOf: NameOf = sameName): DeclarationMeaning {
  return nameOf === sameName ? ownMeaning(declaration) : new Gathering(declaration, nameOf).meaning();
}

/** The reading that a chunk of a library keeps; a built-in declaration is read here. */
export function readingOf(chunk: Chunk): ChunkReading {
  return "reading" in chunk ? (chunk.reading as ChunkReading) : readBuiltIn(chunk);
}

const readBuiltIn = keptWith(readChunk);

/** The declaration of this reading at the same place: a chunk that was let go and read again has new objects. */
function blockOf(declaration: Declaration, reading: ChunkReading): Block | undefined {
  return reading.blocks.find((b) => b.head.start === declaration.head.start);
}

/** What the model took from a line. */
interface Taken {
  block: string;
  word: string;
  value: Plain;
}

type StepTaken = Omit<StepMeaning, "key" | "shown" | "start" | "end">;

class Gathering {
  private readonly taken = new Map<number, Taken>();
  private readonly facts: FactMeaning[] = [];
  private readonly steps: StepMeaning[] = [];
  private readonly reading: ChunkReading;

  constructor(
    private readonly declaration: Declaration,
    private readonly nameOf: NameOf,
  ) {
    this.reading = readingOf(declaration.chunk);
  }

  meaning(): DeclarationMeaning {
    const { declaration } = this;
    const { kind, name, chunk } = declaration;
    this.take(declaration.facts as Facts, "");
    if (declaration.kind === "drug") this.takeNested(declaration.stable as Facts[], "stable");
    if (declaration.kind === "stock" && declaration.reconstitute)
      this.take(declaration.reconstitute as Facts, "reconstitute");
    if (declaration.kind === "recipe") this.takeRecipe(declaration);
    const block = blockOf(declaration, this.reading);
    if (block) this.walk(block.body, declaration.kind === "recipe" ? this.stepsOf(declaration) : new Map(), []);
    return { kind, name: this.nameOf(name.name), chunk, facts: this.facts, steps: this.steps };
  }

  private take(facts: Facts, block: string): void {
    for (const fact of facts.every())
      this.taken.set(fact.start, { block, word: fact.word, value: this.factValue(fact) });
  }

  private factValue(fact: Fact): Plain {
    const { nameOf } = this;
    const { source, when, because, by, until } = fact;
    const trailing = plainSlots({ source, when, because, by, until }, nameOf);
    return { ...plainSlots(fact.slots as object, nameOf), ...prefixed(trailing) };
  }

  /** Blocks without a name are told apart by what they speak of; where that is the same, by all that they say. */
  private takeNested(blocks: readonly Facts[], word: string): void {
    const named = blocks.map((facts) => {
      const name = (of: "in" | "at") => {
        const [slot] = Object.values((facts.one(of)?.slots as object | undefined) ?? {}) as { name?: string }[];
        return slot?.name === undefined ? "" : ` ${of} ${this.nameOf(slot.name)}`;
      };
      return { facts, label: `${word}${name("in")}${name("at")}`, content: this.content(facts) };
    });
    this.takeLabelled(named);
  }

  private content(facts: Facts): string {
    return facts
      .every()
      .map((f) => canonicalJson([f.word, this.factValue(f)]))
      .sort()
      .join("\n");
  }

  private takeLabelled(blocks: readonly { facts: Facts; label: string; content: string; head?: Spot }[]): void {
    for (const { facts, label, content, head } of blocks) {
      const same = blocks.filter((b) => b.label === label);
      const rank = same
        .map((b) => b.content)
        .sort()
        .indexOf(content);
      const block = same.length > 1 ? `${label} (${rank + 1})` : label;
      this.take(facts, block);
      if (head) this.put({ block, word: "", value: true }, head, label, true);
    }
  }

  private takeRecipe(recipe: Recipe): void {
    if (recipe.order) this.take(recipe.order as Facts, "order");
    if (recipe.labelText) this.take(recipe.labelText as Facts, "label-text");
    const named = (word: string, blocks: Recipe["preparations"] | Recipe["intermediates"]) =>
      blocks.map((b) => ({
        facts: b.facts as Facts,
        label: `${word} ${this.nameOf(b.name.name)}`,
        content: this.content(b.facts as Facts),
        head: { start: b.start, end: b.end },
      }));
    this.takeLabelled(named("preparation", recipe.preparations));
    this.takeLabelled(named("intermediate", recipe.intermediates));
    this.takeLabelled(
      recipe.examples.map((e) => ({
        facts: e.facts as Facts,
        label: `example ${e.title ? `"${e.title.text}"` : ""}`.trim(),
        content: this.content(e.facts as Facts),
        head: { start: e.start, end: e.end },
      })),
    );
    for (const { name, count, item, when, start } of recipe.materials) {
      const value = plainSlots({ count, item, when }, this.nameOf);
      this.taken.set(start, { block: "materials", word: this.nameOf(name.name), value });
    }
    for (const { check, on, because, by, until, start } of recipe.deviations) {
      const value = plainSlots({ check, on, because, by, until }, this.nameOf);
      this.taken.set(start, { block: "", word: "deviation", value });
    }
  }

  private stepsOf(recipe: Recipe): Map<number, StepTaken> {
    const planned = new Map(planOf(recipe).steps.map((s) => [s.step.start, s]));
    return new Map(
      recipe.steps.map((step): [number, StepTaken] => {
        const only = step.only.map(plainCondition);
        const plan = planned.get(step.start);
        const verb = plan?.verb.word ?? step.tokens[0]?.text ?? "";
        const { number } = step;
        if (!plan) return [step.start, { number, verb, value: { only, words: wordsOf(step.tokens) }, isRead: false }];
        const claims = plan.claims.map(({ kind, from, to, as, drug }) => {
          const form = plainSlots({ as, drug }, this.nameOf);
          return { kind, from: plainMeasure(from), to: plainMeasure(to), ...form };
        });
        // A word with several forms (check, check by) is told apart by their order, which is part of the algorithm.
        const form = verbsByWord.get(verb)!.indexOf(plan.verb);
        const value = { verb, form, only, slots: plainSlots(plan.slots as object, this.nameOf), claims };
        return [step.start, { number, verb, value, isRead: true }];
      }),
    );
  }

  private walk(entries: readonly Entry[], steps: ReturnType<Gathering["stepsOf"]>, path: readonly string[]): void {
    for (const entry of entries) {
      if (entry.kind === "line") this.line(entry, steps, path);
      else {
        this.blockHead(entry, path);
        this.walk(entry.body, steps, [...path, wordsOf(entry.head.tokens)]);
      }
    }
  }

  /** A head that the model did not understand still stands in the text; one that is missing is no meaning that anybody wrote. */
  private blockHead({ head, open, readAs }: Block, path: readonly string[]): void {
    const isThought = readAs !== undefined || open.text === "";
    if (!isThought && !this.isFaulty(head.tokens.length > 0 ? head : open)) return;
    const words = wordsOf(head.tokens);
    const value = isThought ? { head: words, readAs: readAs ?? "" } : { head: words };
    const shown = words === "" ? `lines of ${readAs} without their head` : `${words} {`;
    this.put({ block: path.join(" "), word: words, value }, head, shown, false);
  }

  private line(line: Line, steps: ReturnType<Gathering["stepsOf"]>, path: readonly string[]): void {
    const tokens = line.tokens.filter((t) => t.kind !== "close");
    if (tokens.length === 0) return;
    const words = wordsOf(tokens);
    const step = steps.get(line.start);
    if (step) {
      const { start, end } = line;
      this.steps.push({ ...step, key: canonicalJson(step.value), shown: words, start, end });
      return;
    }
    const taken = this.taken.get(line.start);
    if (!taken)
      this.put({ block: path.join(" "), word: tokens[0]!.text, value: { unread: words } }, line, words, false);
    else if (!this.isFaulty(line)) this.put(taken, line, words, true);
    else this.put({ ...taken, value: { said: taken.value, unread: words } }, line, words, false);
  }

  /** Capital letters are read all the same; facts that are missing or said twice are no fault of reading. */
  private isFaulty({ start, end }: Spot): boolean {
    const harmless = ["capital-letters", "fact-missing", "fact-stated-twice", "empty-declaration"];
    return this.reading.problems.some((p) => p.start <= end && p.end >= start && !harmless.includes(p.name));
  }

  private put({ block, word, value }: Taken, { start, end }: Spot, shown: string, isRead: boolean): void {
    this.facts.push({ block, word, value, key: canonicalJson([block, word, value]), shown, isRead, start, end });
  }
}

/** So that a slot called `by` or `source` is never taken for the trailing word of that name. */
function prefixed(trailing: { [key: string]: Plain }): { [key: string]: Plain } {
  return Object.fromEntries(Object.entries(trailing).map(([key, value]) => [`…${key}`, value]));
}
