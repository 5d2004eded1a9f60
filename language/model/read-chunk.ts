/** Reads a chunk: text → tree → declarations with their problems. */

import { parseChunk } from "../syntax/parser.ts";
import { type Block, type Entry, headWord, type Line } from "../syntax/tree.ts";
import { declarationWords } from "../syntax/words.ts";
import { headBeyond } from "./block-head.ts";
import type { Chunk, ChunkReading, Declaration, DeclarationKind } from "./declaration.ts";
import { drugFacts, fluidFacts, stableFacts } from "./declarations/drug.ts";
import {
  exampleFacts,
  intermediateFacts,
  labelTextFacts,
  orderFacts,
  preparationFacts,
  recipeFacts,
} from "./declarations/recipe.ts";
import { siteFacts } from "./declarations/site.ts";
import {
  bandsFacts,
  deviceFacts,
  lotsFacts,
  reconstituteFacts,
  referenceFacts,
  stockFacts,
} from "./declarations/stock.ts";
import { type FactTable, type Problem, reasonedTrailing, usualTrailing } from "./facts.ts";
import { looseWord } from "./form-match.ts";
import { nearNames } from "./near.ts";
import { capitals, readFacts, type WordHomes } from "./read-facts.ts";
import { readRecipe } from "./read-recipe.ts";
import type { NameSlot } from "./slots.ts";
import { substanceOf } from "./substance-of.ts";

const tables: Record<string, FactTable> = {
  site: siteFacts,
  drug: drugFacts,
  fluid: fluidFacts,
  stock: stockFacts,
  lots: lotsFacts,
  reference: referenceFacts,
  bands: bandsFacts,
  device: deviceFacts,
  recipe: recipeFacts,
  order: orderFacts,
  preparation: preparationFacts,
  intermediate: intermediateFacts,
  "label-text": labelTextFacts,
  example: exampleFacts,
  stable: stableFacts,
  reconstitute: reconstituteFacts,
};

/** For every fact word the blocks it is at home in. */
export const wordHomes: WordHomes = (() => {
  const homes = new Map<string, string[]>();
  for (const [block, table] of Object.entries(tables)) {
    for (const word of Object.keys(table)) homes.set(word, [...(homes.get(word) ?? []), block]);
  }
  return homes;
})();

/** The fact tables by block word, for completion and the language reference. */
export const factTables: Readonly<Record<string, FactTable>> = tables;

export function readChunk(chunk: Chunk): ChunkReading {
  const tree = parseChunk(chunk.text);
  const declarations: Declaration[] = [];
  const problems: Problem[] = [];
  const blocks: Block[] = [];
  // Below `recipe magnesium-4g` without its brace nothing has a home; that one line is told, and covers what follows.
  let headless = false;
  for (const entry of tree.entries) {
    if (entry.kind === "line") {
      if (headless || entry.isStray) continue;
      const problem = strayLine(entry);
      headless = problem.data.isDeclaration === "true" && (entry.tokens[0]?.text === "site" || entry.tokens.length > 1);
      problems.push(problem);
      continue;
    }
    blocks.push(entry);
    if (headless && !startsDeclaration(entry)) continue;
    const declaration = readDeclaration(chunk, entry, problems);
    if (declaration) declarations.push(declaration);
  }
  return { tree, declarations, problems, blocks };
}

function startsDeclaration(block: Block): boolean {
  return (declarationWords as readonly string[]).includes(headWord(block)?.toLowerCase() ?? "");
}

function strayLine(line: Line): Problem {
  const first = line.tokens[0]!;
  const word = looseWord(first) ?? first.text;
  return {
    name: "line-outside-declaration",
    start: line.start,
    end: line.end,
    data: {
      word: first.text,
      near: nearNames(word, declarationWords),
      isDeclaration: String(declarationWords.includes(word as never)),
    },
  };
}

function readDeclaration(chunk: Chunk, block: Block, problems: Problem[]): Declaration | undefined {
  // Without a head there is no name either; that it is missing is told.
  if (block.readAs !== undefined) return undefined;
  const first = block.head.tokens[0];
  const word = looseWord(first);
  const spot = { start: first?.start ?? block.open.start, end: first?.end ?? block.open.end };
  if (word === undefined || !(declarationWords as readonly string[]).includes(word)) {
    const near = nearNames(word ?? "", declarationWords);
    problems.push({ name: "unknown-declaration", ...spot, data: { word: first?.text ?? "{", near } });
    return undefined;
  }
  if (first!.text !== word) problems.push(capitals(first!, word));
  const name = declarationName(block, word, problems);
  if (!name) return undefined;
  const head = { start: block.head.start, end: block.head.end };
  const kind = word as DeclarationKind;
  const base = { kind, name, chunk, head };
  // Names are known by a glance that looks for the brace. A recipe, whose name nobody else asks for, is judged all the same.
  if (block.open.text === "" && kind !== "recipe") return undefined;
  if (kind === "recipe") return readRecipe(base, block, problems, wordHomes);
  const trailing = kind === "site" ? reasonedTrailing : usualTrailing;
  const inner = kind === "drug" ? ["stable"] : kind === "stock" ? ["reconstitute"] : [];
  const read = readFacts(block, { title: word, table: tables[word]!, inner, trailing }, wordHomes);
  problems.push(...read.problems);
  const nested = read.blocks.map((b) => readNested(b, problems));
  // biome-ignore lint/suspicious/noExplicitAny: the kind decides the table; the declaration types say which
  const facts = read.facts as any;
  if (kind === "drug") {
    return { ...base, kind, facts, stable: nested as never, substance: substanceOf(name.name, facts) };
  }
  if (kind === "stock") {
    for (const extra of read.blocks.slice(1)) {
      problems.push({
        name: "block-stated-twice",
        start: extra.head.start,
        end: extra.head.end,
        data: { word: "reconstitute" },
      });
    }
    return { ...base, kind, facts, reconstitute: nested[0] as never };
  }
  return { ...base, kind, facts } as Declaration;
}

function readNested(block: Block, problems: Problem[]) {
  const word = headWord(block)!.toLowerCase();
  headBeyond(block, 1, problems);
  const read = readFacts(block, { title: word, table: tables[word]!, inner: [], trailing: usualTrailing }, wordHomes);
  problems.push(...read.problems);
  return read.facts;
}

function declarationName(block: Block, word: string, problems: Problem[]): NameSlot | undefined {
  const first = block.head.tokens[0]!;
  const second = block.head.tokens[1];
  if (word === "site") {
    headBeyond(block, 1, problems);
    return { name: "site", start: first.start, end: first.end };
  }
  if (second?.kind === "word" && block.head.tokens.length === 2) {
    return { name: second.text, start: second.start, end: second.end };
  }
  const at = second ?? first;
  problems.push({
    name: "declaration-without-name",
    start: at.start,
    end: block.head.end,
    data: { word, found: second?.text ?? "", fault: second?.fault ?? "", extra: block.head.tokens[2]?.text ?? "" },
  });
  if (second?.kind === "word") return { name: second.text, start: second.start, end: second.end };
  return undefined;
}

export function blockWord(entry: Entry): string | undefined {
  return entry.kind === "block" ? headWord(entry)?.toLowerCase() : undefined;
}
