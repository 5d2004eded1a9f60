/**
 * What may be written at a place, likeliest first: the forms say what fits, the library says what is usual. Nothing here knows a
 * list of its own. Offsets are in the file.
 */
import { pointAt } from "../bench/order.ts";
import { claimForms } from "../bench/plan.ts";
import { verbsByWord } from "../bench/verbs/index.ts";
import { checkByName } from "../checks/registry.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { type FactTable, reasonedTrailing, trailingForms, trailingStart, usualTrailing } from "../model/facts.ts";
import type { Form } from "../model/form.ts";
import { looseWord } from "../model/form-match.ts";
import { factTables } from "../model/read-chunk.ts";
import { deviationForm, materialForm } from "../model/read-recipe.ts";
import type { Token } from "../syntax/tree.ts";
import { declarationWords, recipeBlocks, valueColumns } from "../syntax/words.ts";
import { type Awaited, awaitedAfter } from "./awaited.ts";
import { type NameWish, namesFor } from "./names-fitting.ts";
import { nextSteps } from "./next-step.ts";
import { blockWordOf, type PlaceInFile, placeAt, type TypedRow, typedRow } from "./place.ts";
import { derivedConcentration, derivedMoves } from "./stated-figures.ts";
import { type Peer, peersOf, Tally, usualNext, usualValues } from "./vocabulary.ts";

export type SuggestionKind = "declaration" | "block" | "fact" | "verb" | "word" | "name" | "value" | "unit" | "line";

export interface Suggestion {
  label: string;
  kind: SuggestionKind;
  /** Text put in place of `start` to `end`; `$0` marks where writing goes on. */
  insert: string;
  start: number;
  end: number;
  detail: string;
  /** A library name whose facts explain the suggestion. */
  about: string | undefined;
}

interface Asked {
  library: Library;
  place: PlaceInFile;
  row: TypedRow;
  recipe: Recipe | undefined;
  block: string;
  peers: readonly Peer[];
  found: Map<string, Suggestion>;
}

/** @param stem the file's name without folder and ending, offered as the name of what is declared */
export function completionsAt(library: Library, file: string, offset: number, stem: string): Suggestion[] {
  const place = placeAt(library, file, offset) ?? emptyPlace(file);
  if (place.inComment) return [];
  const row = typedRow(place);
  if (insideText(place)) return [];
  const recipe = place.declaration?.kind === "recipe" ? place.declaration : undefined;
  const inner = blockWordOf(place.blocks.at(-1));
  const block = inner === "only" ? "steps" : inner;
  const kind = place.declaration?.kind ?? "recipe";
  const peers = peersOf(library, place.declaration, kind);
  const asked: Asked = { library, place, row, recipe, block, peers, found: new Map() };
  if (place.headOf || place.blocks.length === 0) atHead(asked, stem);
  else if (block === "steps") inSteps(asked);
  else if (block === "materials") inMaterials(asked);
  else inFacts(asked);
  const base = place.chunk.base;
  return [...asked.found.values()].map((s) => ({ ...s, start: base + s.start, end: base + s.end }));
}

function emptyPlace(file: string): PlaceInFile {
  const reading = {
    tree: { text: "", entries: [], comments: [], problems: [] },
    declarations: [],
    problems: [],
    blocks: [],
  };
  const chunk = { text: "", file, base: 0, lone: undefined, reading };
  return {
    file,
    chunk,
    at: 0,
    declaration: undefined,
    blocks: [],
    line: undefined,
    headOf: undefined,
    inComment: false,
  };
}

function insideText(place: PlaceInFile): boolean {
  return (place.line?.tokens ?? []).some(
    (t) =>
      (t.kind === "string" && t.start < place.at && place.at < t.end) ||
      (t.fault === "string-not-closed" && t.start < place.at),
  );
}

function put(asked: Asked, label: string, kind: SuggestionKind, options: Partial<Suggestion> = {}): void {
  if (asked.found.has(label) || label === "") return;
  const { start, end } = asked.row;
  asked.found.set(label, { label, kind, insert: label, start, end, detail: "", about: undefined, ...options });
}

function atHead(asked: Asked, stem: string): void {
  const { row, library, place } = asked;
  const first = looseWord(row.before[0]);
  if (row.before.length === 0) {
    const wholeLine = place.headOf === undefined;
    const fitting = /^[A-Za-z][A-Za-z0-9.-]*$/.test(stem) && library.declared(stem).length === 0;
    if (fitting && wholeLine) put(asked, `recipe ${stem} {`, "line", { insert: `recipe ${stem} {\n  $0\n}` });
    for (const word of declarationWords) {
      const name = word === "site" ? "" : " $0";
      put(asked, word, "declaration", { insert: wholeLine ? `${word}${name} {\n  ${name ? "" : "$0"}\n}` : word });
    }
    return;
  }
  if (row.before.length !== 1 || first === undefined) return;
  if (first === "lots")
    for (const name of names(asked, { kinds: ["stock"] })) put(asked, name, "name", { about: name });
  else if (first === "preparation" || first === "intermediate") materialNames(asked, first);
  else if ((declarationWords as readonly string[]).includes(first) && stem) put(asked, stem, "name");
}

function materialNames(asked: Asked, word: string): void {
  for (const name of names(asked, { material: true, verb: word, slot: "target" })) put(asked, name, "name");
}

function names(asked: Asked, wish: NameWish): string[] {
  return namesFor(asked.library, asked.recipe, wish);
}

// ---- facts -----------------------------------------------------------------------------------------------------------------

function inFacts(asked: Asked): void {
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
    if (word === "concentration" && block === "preparation") {
      for (const text of derivedConcentration(asked.library, asked.recipe, preparationName(asked)))
        put(asked, text, "value");
    }
    for (const { text } of usualValues(asked.peers, block, word).best(5)) put(asked, text, "value");
  } else for (const { text } of usualEnds(asked, word).best(2)) put(asked, text, "word");
  inForm(asked, def.form, word, block === "site" ? reasonedTrailing : usualTrailing);
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

function preparationName(asked: Asked): string | undefined {
  return asked.place.blocks.at(-1)?.head.tokens[1]?.text;
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
  const offer = (word: string) => {
    const open = word.endsWith(" {") ? word.slice(0, -2) : undefined;
    if (open !== undefined) {
      if (blocks.includes(open)) blockLine(asked, open);
      return;
    }
    const def = table[word];
    if (!def || (stated.has(word) && !def.many)) return;
    const tally = usualValues(peers, block, word);
    const usual = tally.best(1)[0];
    const derived =
      word === "concentration" && block === "preparation"
        ? derivedConcentration(asked.library, asked.recipe, preparationName(asked))[0]
        : undefined;
    const value = derived ?? usual?.text;
    const line = () => {
      if (value !== undefined)
        put(asked, `${word} ${value}`, "line", { insert: aligned(word, block) + value, detail: def.about });
    };
    // First what saves more letters on the average: a value that most lines have is worth writing along; one that two or three
    // recipes have is their own.
    const share = derived !== undefined ? 1 : usual && usual.weight > 3 ? usual.weight / tally.total : 0;
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

function aligned(word: string, block: string): string {
  const column = valueColumns[block] ?? 0;
  return word.length < column ? word.padEnd(column) : `${word}  `;
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

/** What a form awaits behind the words that are there; then the words that may trail the statement. */
function inForm(asked: Asked, form: Form, word: string, trailing: readonly string[]): void {
  const tokens = asked.row.before.slice(1);
  const cut = trailingStart(asked.row.before, trailing);
  if (cut < asked.row.before.length) {
    const rest = asked.row.before.slice(cut);
    const last = rest.map((t) => trailing.includes(t.text)).lastIndexOf(true);
    const lead = rest[last]!.text as keyof typeof trailingForms;
    offerAwaited(asked, awaitedAfter((trailingForms[lead] as Form).start, rest.slice(last)), lead);
    return;
  }
  const open = awaitedAfter(form.start, tokens);
  offerAwaited(asked, open, word);
  if (open.some((a) => a.kind === "end")) for (const lead of trailing) put(asked, lead, "word");
}

function offerAwaited(asked: Asked, open: readonly Awaited[], word: string): void {
  for (const one of open) {
    if (one.kind === "word") put(asked, one.text, "word");
    else if (one.kind === "unit") for (const unit of unitsFor(asked, word)) put(asked, unit, "unit");
    else if (one.kind === "slot") offerSlot(asked, one, word);
  }
}

function offerSlot(asked: Asked, one: Awaited, word: string): void {
  const { library, block, recipe } = asked;
  if (one.choices) {
    for (const choice of one.choices) put(asked, choice, "value");
    return;
  }
  if (one.type !== "name" && one.type !== "names") return;
  if (word === "deviation" && one.slot === "check") {
    for (const finding of library.findings(asked.place.file))
      put(asked, finding.name, "name", { detail: checkByName.get(finding.name)?.title ?? "" });
    for (const [name, check] of checkByName) put(asked, name, "name", { detail: check.title });
    return;
  }
  const already = (one.taken[one.slot] ?? []).map((t) => t.text);
  for (const name of namesFor(library, recipe, { block, word, slot: one.slot, already })) {
    if (!one.further) put(asked, name, "name", { about: name });
  }
}

/** Units that the library writes at this fact, then those of the ordered dose and of volumes. */
function unitsFor(asked: Asked, word: string): string[] {
  const units = new Set<string>();
  for (const { text } of usualValues(asked.peers, asked.block, word).best(20)) {
    for (const match of text.matchAll(/\d ([A-Za-z%][^\s,]*(?: [wv]\/[wv])?)/g)) units.add(match[1]!);
  }
  if (asked.block === "steps") {
    units.add("mL");
    const unit = asked.recipe?.order?.one("dose")?.slots.dose.unit?.text;
    if (unit) units.add(unit);
  }
  return [...units, "mL", "mg", "g", "mcg", "mmol", "mEq", "units", "mg/mL", "h", "%"].filter(
    (u, i, all) => all.indexOf(u) === i,
  );
}

// ---- materials -------------------------------------------------------------------------------------------------------------

function inMaterials(asked: Asked): void {
  const { row, recipe, peers, library } = asked;
  if (row.before.length === 0) {
    const used = new Set((recipe?.materials ?? []).filter((m) => !touches(m, asked)).map((m) => m.name.name));
    const items = new Set((recipe?.materials ?? []).filter((m) => !touches(m, asked)).map((m) => m.item.name));
    const wanted = namesFor(library, recipe, { block: "materials", word: "", slot: "item" });
    const after = [...used].at(-1) ?? "";
    const lines = [
      ...usualNext(peers, "materials", after)
        .best(6)
        .map((n) => n.text),
      "",
    ];
    const pairs: string[] = [];
    for (const word of lines) {
      const values = word === "" ? [] : usualValues(peers, "materials", word).best(6);
      // Of several items under one usual name, the one that fits this order stands first.
      values.sort((a, b) => rank(wanted, a.text) - rank(wanted, b.text) || b.weight - a.weight);
      for (const { text } of values.slice(0, 2)) if (!used.has(word)) pairs.push(`${word} ${text}`);
    }
    for (const pair of pairs) {
      const [name, ...rest] = pair.split(" ");
      const item = rest.join(" ");
      if (items.has(item) && rank(wanted, item) === 0) continue;
      if (library.declared(item).length > 0)
        put(asked, pair, "line", { insert: aligned(name!, "materials") + item, about: item });
    }
    secondOnes(asked, used);
    return;
  }
  for (const one of awaitedAfter(materialForm.start, row.before)) {
    if (one.kind !== "slot" || one.slot !== "item") continue;
    const usual = usualValues(peers, "materials", row.before[0]!.text)
      .best(8)
      .map((v) => v.text);
    const others = (recipe?.materials ?? []).filter((m) => !touches(m, asked));
    const without = recipe && { ...recipe, materials: others };
    const all = namesFor(library, without, { block: "materials", word: "", slot: "item" });
    const known = new Set(all);
    const taken = new Set(others.map((m) => m.item.name));
    // What the order asks for and is not there yet; of that, what the material is called after.
    const ordered = all.slice(0, 3).filter((name) => !taken.has(name));
    const called = row.before[0]!.text.replace(/-?\d+$/, "").toLowerCase();
    const fits = (name: string) => (ordered.includes(name) ? 1 : 0);
    const namesakes = called.length < 3 ? [] : ordered.filter((name) => name.includes(called));
    const habitual = usual.filter((u) => known.has(u)).sort((a, b) => fits(b) - fits(a));
    for (const name of [...namesakes, ...habitual, ...ordered, ...all]) put(asked, name, "name", { about: name });
  }
}

/** Last of all, one more of each device that is there already: `syringe-2` beside `syringe`, of the same kind. */
function secondOnes(asked: Asked, used: ReadonlySet<string>): void {
  for (const material of asked.recipe?.materials ?? []) {
    const item = material.item.name;
    if (touches(material, asked) || !asked.library.declared(item).some((d) => d.kind === "device")) continue;
    const stem = material.name.name.replace(/-\d+$/, "");
    let number = 2;
    while (used.has(`${stem}-${number}`)) number++;
    const name = `${stem}-${number}`;
    put(asked, `${name} ${item}`, "line", { insert: aligned(name, "materials") + item, about: item });
  }
}

/** 0 for what the order asks for, else 1. */
function rank(wanted: readonly string[], item: string): number {
  const at = wanted.indexOf(item);
  return at >= 0 && at < 3 ? 0 : 1;
}

function touches(spot: { start: number; end: number }, asked: Asked): boolean {
  return spot.start <= asked.place.at && asked.place.at <= spot.end;
}

// ---- steps -----------------------------------------------------------------------------------------------------------------

function inSteps(asked: Asked): void {
  const { row, recipe, library, place } = asked;
  const first = row.before[0];
  const lineStart = first?.start ?? row.start;
  if (recipe) {
    const done = recipe.steps.filter((s) => s.end < lineStart).length;
    const written = place.chunk.text.slice(lineStart, place.at).replace(/\s+/g, " ");
    for (const line of nextSteps(library, recipe, done, asked.peers, row.before)) {
      if (line.startsWith(written) && line !== written)
        put(asked, line, "line", { start: lineStart, end: Math.max(row.end, place.at) });
    }
  }
  if (!first) {
    for (const [word, verbs] of verbsByWord) put(asked, word, "verb", { detail: verbs[0]!.about });
    put(asked, "only when", "word");
    return;
  }
  const word = looseWord(first);
  if (word === undefined) return;
  const claim = lastClaim(row.before);
  if (claim) {
    for (const text of derivedMoves(library, recipe, place.at)) put(asked, text, "value");
    for (const one of awaitedAfter(claimForms[claim.kind].start, claim.tokens)) {
      if (one.kind === "unit") for (const unit of unitsFor(asked, word)) put(asked, unit, "unit");
    }
    return;
  }
  for (const verb of verbsByWord.get(word) ?? []) {
    const open = awaitedAfter(verb.form.start, row.before.slice(1));
    if (open.some((a) => a.kind === "end") && row.typed === "") {
      for (const text of derivedMoves(library, recipe, place.at)) put(asked, `= ${text}`, "value");
    }
    offerDose(asked, open);
    offerAwaited(asked, open, word);
  }
}

/** The ordered dose as it is written, where a step may take an amount. */
function offerDose(asked: Asked, open: readonly Awaited[]): void {
  const order = asked.recipe?.order;
  if (!order || !open.some((a) => a.kind === "slot" && a.type === "measure" && a.slot === "amount")) return;
  const ranged = pointAt(asked.recipe!, "from").size > 0;
  for (const dose of [...order.all("dose"), ...order.all("additive")]) {
    put(asked, ranged ? "dose" : dose.slots.dose.written, "value");
  }
}

function lastClaim(tokens: readonly Token[]): { kind: keyof typeof claimForms; tokens: Token[] } | undefined {
  for (let i = tokens.length - 1; i > 0; i--) {
    const token = tokens[i]!;
    const kind =
      token.kind === "equals" ? "moves" : token.text === "giving" || token.text === "leaving" ? token.text : undefined;
    if (kind) return { kind, tokens: tokens.slice(i + 1) };
  }
  return undefined;
}
