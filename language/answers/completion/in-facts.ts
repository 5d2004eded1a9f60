/** The lines of facts: which may come next, and what usually stands in them. */
import { type FactTable, reasonedTrailing, usualTrailing } from "../../model/facts.ts";
import { looseWord } from "../../model/form-match.ts";
import { factTables } from "../../model/read-chunk.ts";
import { deviationForm } from "../../model/read-recipe.ts";
import { recipeBlocks } from "../../syntax/words.ts";
import { blockWordOf } from "../place.ts";
import { derivedFigures, ownFigures } from "../stated-figures.ts";
import { Tally, usualNext, usualValues } from "../vocabulary.ts";
import { type Asked, aligned, names, put } from "./asked.ts";
import { inForm } from "./in-form.ts";

export function inFacts(asked: Asked): void {
  const { row, block } = asked;
  const table = factTables[block];
  if (row.before.length === 0) {
    firstWords(asked, table ?? {});
    return;
  }
  const word = looseWord(row.before[0])!;
  if (block === "recipe" && word === "deviation") {
    inForm(asked, deviationForm, "deviation", ["because", "by", "until"]);
    return;
  }
  const def = table && Object.hasOwn(table, word) ? table[word] : undefined;
  if (!def) return;
  if (row.before.length === 1) {
    for (const text of derivedIn(asked)(word)) put(asked, text, "value");
    for (const { text } of usual(asked, word).best(5)) put(asked, text, "value");
  } else for (const { text } of usualEnds(asked, word).best(2)) put(asked, text, "word");
  inForm(asked, def.form, word, block === "site" ? reasonedTrailing : usualTrailing);
}

/** What the lines of the block come to by the steps; nothing but in a preparation. */
function derivedIn({ library, recipe, block, place }: Asked): (word: string) => readonly string[] {
  const name = block === "preparation" ? place.blocks.at(-1)?.head.tokens[1]?.text : undefined;
  return derivedFigures(library, recipe, name);
}

/** What stands in this line elsewhere. */
function usual({ peers, block }: Asked, word: string): Tally {
  return block === "preparation" && ownFigures.has(word) ? new Tally() : usualValues(peers, block, word);
}

/** How lines that begin like this one end elsewhere, whatever their figures and names. */
function usualEnds({ row, peers, block, library }: Asked, word: string): Tally {
  const begun = row.before.slice(1).map((t) => t.text);
  const isName = (text: string) => library.declared(text).length > 0;
  const isAlike = (a: string, b: string, before: string | undefined) =>
    a === b || (isFigure(a) && isFigure(b)) || (before !== undefined && isFigure(before)) || (isName(a) && isName(b));
  const ends = new Tally();
  for (const value of usualValues(peers, block, word).best(Number.POSITIVE_INFINITY)) {
    const words = value.text.split(" ");
    const end = words.slice(begun.length).join(" ");
    // A name at the end is that line's own, as is a figure right behind.
    const own = words.slice(begun.length);
    if (end === "" || isFigure(own[0]!) || own.some(isName)) continue;
    if (begun.every((text, i) => isAlike(text, words[i]!, begun[i - 1]))) ends.add(end, value.weight);
  }
  return ends;
}

function isFigure(text: string): boolean {
  return /^[0-9.]+$/.test(text);
}

/** The words that may begin a line here: what usually follows, then what is still missing, then the rest. */
function firstWords(asked: Asked, table: FactTable): void {
  const { block, place, peers } = asked;
  const stated = new Set<string>();
  let after = "";
  for (const entry of place.blocks.at(-1)?.body ?? []) {
    const word = entry.kind === "block" ? `${blockWordOf(entry)} {` : (looseWord(entry.tokens[0]) ?? "");
    if (entry.kind === "line" && entry.start <= place.at && place.at <= entry.end) continue;
    stated.add(word);
    if (entry.end <= place.at) after = word;
  }
  const blocks = innerBlocks(block);
  const derived = derivedIn(asked);
  const offer = (word: string) => {
    const open = word.endsWith(" {") ? word.slice(0, -2) : undefined;
    if (open !== undefined) {
      if (blocks.includes(open)) blockLine(asked, open);
      return;
    }
    const def = table[word];
    if (!def || (stated.has(word) && !def.many)) return;
    const tally = usual(asked, word);
    const [most] = tally.best(1);
    const [own] = derived(word);
    const value = own ?? most?.text;
    const line = () => {
      if (value !== undefined)
        put(asked, `${word} ${value}`, "line", { insert: aligned(word, block) + value, detail: def.about });
    };
    // First what saves more letters on the average: a value that most lines have is worth writing along; one that two or three
    // recipes have is their own.
    const share = own !== undefined ? 1 : most && most.weight > 3 ? most.weight / tally.total : 0;
    const isWorth = value !== undefined && share * (word.length + value.length) > word.length;
    if (isWorth) line();
    put(asked, word, "fact", { insert: `${aligned(word, block)}$0`, detail: def.about });
    line();
  };
  for (const { text } of usualNext(peers, block, after).best(4))
    if (!stated.has(text) || table[text]?.many) offer(text);
  const rest = Object.keys(table).filter((word) => !stated.has(word) || table[word]!.many);
  for (const word of rest) if (table[word]!.required) offer(word);
  for (const open of blocks) if (!stated.has(`${open} {`)) offer(`${open} {`);
  for (const word of rest)
    put(asked, word, "fact", { insert: `${aligned(word, block)}$0`, detail: table[word]!.about });
  for (const open of blocks) offer(`${open} {`);
  if (block === "recipe") put(asked, "deviation", "fact", { insert: "deviation $0" });
}

function innerBlocks(block: string): readonly string[] {
  if (block === "recipe") return recipeBlocks.filter((b) => b !== "deviation");
  return block === "drug" ? ["stable"] : block === "stock" ? ["reconstitute"] : [];
}

function blockLine(asked: Asked, word: string): void {
  const indent = "  ".repeat(asked.place.blocks.length);
  if (word === "preparation") {
    for (const name of finishedFirst(asked).slice(0, 2)) {
      put(asked, `preparation ${name} {`, "block", { insert: `preparation ${name} {\n${indent}  $0\n${indent}}` });
    }
  }
  const needsName = word === "preparation" || word === "intermediate" || word === "example";
  const head = needsName ? `${word} ${word === "example" ? '"$0"' : "$0"} {` : `${word} {`;
  put(asked, needsName ? word : head, "block", { insert: `${head}\n${indent}  ${needsName ? "" : "$0"}\n${indent}}` });
}

/** Containers for a preparation: what the steps have labelled stands first, and what is described already is left out. */
function finishedFirst(asked: Asked): string[] {
  const { recipe } = asked;
  const described = new Set(recipe?.preparations.map((p) => p.name.name));
  const labelled = (recipe?.steps ?? []).flatMap((s) =>
    looseWord(s.tokens[0]) === "label" ? [s.tokens[1]?.text] : [],
  );
  return names(asked, { material: true, verb: "preparation", slot: "target" })
    .filter((name) => !described.has(name))
    .sort((a, b) => Number(labelled.includes(b)) - Number(labelled.includes(a)));
}
