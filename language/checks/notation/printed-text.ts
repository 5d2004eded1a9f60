/** Words that are printed: titles, names, notes, label lines, appearance. Titles of publications are quoted as they are. */
import type { ChunkReading } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import type { Entry, Token } from "../../syntax/tree.ts";
import type { Repair, Said } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { replaceText } from "../edits.ts";

const printedFacts = new Set(["title", "name", "note", "line", "appearance"]);
const quotedDeclarations = new Set(["reference"]);

export interface PrintedFault {
  at: Spot;
  written: string;
  /** What to write; several where it may mean more than one thing, none where the author alone knows. */
  meanings: readonly string[];
  detail: string;
  /** A name of the library rather than text. */
  isName?: true;
}

/** What to look for; the first group, where there is one, is the stretch meant. */
export interface Pattern {
  pattern: RegExp;
  meanings: readonly string[] | ((match: RegExpExecArray) => readonly string[]);
  detail: string;
}

/** Matches of patterns in printed text, in order. Patterns carry the flag `g` and are compared as written. */
export function inPrintedText({ reading }: ChunkContext, patterns: readonly Pattern[]): PrintedFault[] {
  const found: PrintedFault[] = [];
  for (const { token, clean } of printedTexts(reading)) {
    if (clean.has(patterns)) continue;
    let isClean = true;
    for (const { pattern, meanings, detail } of patterns) {
      if (token.text.search(pattern) < 0) continue; // most text holds nothing; a search makes no objects
      isClean = false;
      for (const match of token.text.matchAll(pattern)) {
        const written = match[0];
        const start = token.start + match.index;
        const means = typeof meanings === "function" ? meanings(match) : meanings;
        found.push({ at: { start, end: start + written.length }, written, meanings: means, detail });
      }
    }
    if (isClean) clean.add(patterns);
  }
  return found.length < 2 ? found : found.sort((a, b) => a.at.start - b.at.start);
}

interface PrintedText {
  token: Token;
  /** Lists of patterns of which none stands in this text. */
  clean: Set<readonly Pattern[]>;
}

let last: { reading: ChunkReading; texts: PrintedText[] } | undefined;

/** Each check of a chunk asks in turn, so the last answer is kept. */
function printedTexts(reading: ChunkReading): readonly PrintedText[] {
  if (last?.reading !== reading) {
    const tokens: Token[] = [];
    collectTexts(reading.tree.entries, tokens);
    last = { reading, texts: tokens.map((token) => ({ token, clean: cleanOf(token.text) })) };
  }
  return last.texts;
}

/** The strings of a chunk that are printed, quotes included. */
export function printedTokens(reading: ChunkReading): readonly Token[] {
  return printedTexts(reading).map(({ token }) => token);
}

/** The same sentence stands on hundreds of recipes of a library (`For one patient only`), so what was not found in it is kept. */
const knownTexts = new Map<string, Set<readonly Pattern[]>>();
/** Enough for the sentences of a house; beyond it the memory starts anew, so that typing never fills it. */
const mostTexts = 2000;
const longestText = 200;

function cleanOf(text: string): Set<readonly Pattern[]> {
  const known = knownTexts.get(text);
  if (known) return known;
  const clean = new Set<readonly Pattern[]>();
  if (text.length > longestText) return clean;
  if (knownTexts.size >= mostTexts) knownTexts.clear();
  knownTexts.set(text, clean);
  return clean;
}

function collectTexts(entries: readonly Entry[], texts: Token[], isSite = false): void {
  for (const entry of entries) {
    if (entry.kind === "block") {
      const head = entry.head.tokens[0]?.text ?? "";
      if (!quotedDeclarations.has(head)) collectTexts(entry.body, texts, head === "site");
    } else if (isSite && entry.tokens[0]?.text === "name") {
      // A hospital is called what it is called; its notes are printed with every sheet.
    } else if (printedFacts.has(entry.tokens[0]?.text ?? "")) {
      for (const token of entry.tokens) if (token.kind === "string") texts.push(token);
    }
  }
}

export function sayPrinted({ written, detail, meanings }: PrintedFault): Said {
  const instead =
    meanings.length > 0
      ? ` Write ${meanings.map((meaning) => `"${meaning}"`).join(" or ")}.`
      : " Write it out in full.";
  return { text: `The text that is printed says ${written}. ${detail}${instead}` };
}

/** One meaning is a harmless repair; of several the author chooses. */
export function writeOut({ at, meanings, isName }: PrintedFault): readonly Repair[] {
  if (isName) return [];
  const [only] = meanings;
  if (meanings.length === 1) return [{ title: `Write ${only}`, edits: [replaceText(at, only!)], preferred: true }];
  return meanings.map((text) => ({ title: `Write ${text}`, edits: [replaceText(at, text)] }));
}

/** Abbreviations as a part of the names of drugs, stock and recipes: `kcl-ampoule`. Renaming is left to the author. */
export function inNames({ reading }: ChunkContext, short: Readonly<Record<string, readonly string[]>>): PrintedFault[] {
  return reading.declarations.flatMap(({ kind, name }) => {
    if (kind !== "drug" && kind !== "stock" && kind !== "recipe") return [];
    const part = name.name.split("-").find((piece) => Object.hasOwn(short, piece.toLowerCase()));
    if (part === undefined) return [];
    const meanings = short[part.toLowerCase()]!;
    const detail = "It is taken for another drug's.";
    return [{ at: { start: name.start, end: name.end }, written: part, meanings, detail, isName: true as const }];
  });
}

/** For checks that look at names as well. */
export function sayPrintedOrName(found: PrintedFault): Said {
  if (!found.isName) return sayPrinted(found);
  return {
    text: `The name holds the short form ${found.written}. ${found.detail} Write ${found.meanings.join(" or ")}, joined by hyphens.`,
  };
}
