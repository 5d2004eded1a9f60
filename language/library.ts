/**
 * Many files as one library, kept up to date edit by edit. A file is cut into chunks (top-level declarations); an edit re-reads
 * only the chunks whose text changed, and re-evaluates only those whose own text, or something that they looked up, changed.
 *
 * Invariants: findings equal those of a fresh library over the same texts and date (tested); nothing here reads files or a clock.
 */
import type { Finding, Fix, JudgedRange, RelatedPlace, Silenced, Span } from "../shared/finding.ts";
import { type ChunkFinding, evaluateChunk, type Surroundings } from "./checks/evaluate.ts";
import { inventoryFindings } from "./checks/inventory-findings.ts";
import type { RangeJudgement } from "./checks/over-range.ts";
import { judgedRange } from "./checks/range-finding.ts";
import { builtInDevices } from "./model/built-in-devices.ts";
import { type CalendarDate, isDateFault, parseDate, parseExpiry } from "./model/dates.ts";
import type { Chunk, ChunkReading, Declaration, DeclarationKind, Place, Recipe } from "./model/declaration.ts";
import { InventoryFile } from "./model/inventory-file.ts";
import { declaresNothing, type LoneDeclaration, loneDeclaration } from "./model/lone-declaration.ts";
import type { DeclarationOf, Lookup, LotOnShelf } from "./model/lookup.ts";
import { type Policy, policyOf } from "./model/policy.ts";
import { readChunk } from "./model/read-chunk.ts";
import type { NameSlot } from "./model/slots.ts";
import { splitChunks } from "./syntax/chunks.ts";

/** How far a change reaches. */
export type Reach = "nothing" | "itself" | "others";

/** A chunk with its place in a file. */
export interface PlacedChunk extends Chunk {
  readonly file: string;
  /** Offset of the chunk in its file. */
  readonly base: number;
  readonly reading: ChunkReading;
}

export interface LibraryOptions {
  /** ISO date on which lots and deviations are judged. */
  asOf: string;
}

let nextChunk = 1;

/** What was found in a chunk, and all that it rests on. */
interface Judged {
  key: number;
  list: ChunkFinding[];
  /** Recipes whose order has a range, in order of place, by where each begins. */
  judgements: Map<number, { recipe: string; range: RangeJudgement }>;
  looked: Map<string, unknown>;
}

/** One chunk of one file. The object stays the same while its text does; `base` follows edits above it. */
class FileChunk implements Chunk {
  readonly text: string;
  base: number;
  readonly file: string;
  /** Never given twice. */
  readonly id = nextChunk++;
  private read: ChunkReading | undefined;
  findings: Judged | undefined;

  constructor(file: string, text: string, base: number) {
    this.file = file;
    this.text = text;
    this.base = base;
  }

  get reading(): ChunkReading {
    this.read ??= readChunk(this);
    return this.read;
  }

  /** What it declares, told by a glance; undefined where it has to be read for that. */
  get lone(): LoneDeclaration | undefined {
    this.glance ??= [loneDeclaration(this.text)];
    return this.glance[0];
  }
  private glance: [LoneDeclaration | undefined] | undefined;

  /** Frees the tree of a recipe, which no other declaration looks into; it is read again when needed. */
  release(): void {
    if (this.lone?.kind === "recipe") this.read = undefined;
  }
}

interface FileEntry {
  text: string;
  chunks: FileChunk[];
}

export class Library {
  private readonly entries = new Map<string, FileEntry>();
  private readonly inventories = new Map<string, InventoryFile>();
  private asOf: CalendarDate;
  private index: Index | undefined;

  constructor(options: LibraryOptions) {
    this.asOf = requireDate(options.asOf);
  }

  open(file: string, text: string): void {
    this.change(file, text);
  }

  /** @returns how far the change reaches: `itself` when no other file can tell the difference. */
  change(file: string, text: string): Reach {
    const before = this.entries.get(file);
    if (before?.text === text) return "nothing";
    const spare = new Map<string, FileChunk[]>();
    for (const chunk of before?.chunks ?? []) {
      const same = spare.get(chunk.text);
      if (same) same.push(chunk);
      else spare.set(chunk.text, [chunk]);
    }
    const added: FileChunk[] = [];
    const shifted: FileChunk[] = [];
    const chunks = splitChunks(text).map(({ start, text: part }) => {
      const kept = spare.get(part)?.shift();
      if (!kept) {
        const made = new FileChunk(file, part, start);
        added.push(made);
        return made;
      }
      if (kept.base !== start) shifted.push(kept);
      kept.base = start;
      return kept;
    });
    this.entries.set(file, { text, chunks });
    if (this.index?.replaceUnseen([...spare.values()].flat(), added, shifted)) return "itself";
    this.index = undefined;
    return "others";
  }

  close(file: string): void {
    if (this.entries.delete(file) || this.inventories.delete(file)) this.index = undefined;
  }

  /** An inventory export (CSV) with the lots on the shelf. */
  openInventory(file: string, csv: string): void {
    this.inventories.set(file, new InventoryFile(file, csv));
    this.index = undefined;
  }

  setAsOf(date: string): void {
    this.asOf = requireDate(date);
    if (this.inventories.size > 0) this.index = undefined; // a barcode's year is read from the date's
    for (const entry of this.entries.values()) for (const chunk of entry.chunks) chunk.findings = undefined;
  }

  files(): string[] {
    return [...this.entries.keys()].sort();
  }

  inventoryFiles(): string[] {
    return [...this.inventories.keys()];
  }

  /** The chunks of a file in order, with their places in it. */
  chunks(file: string): readonly PlacedChunk[] {
    return this.entries.get(file)?.chunks ?? [];
  }

  /** The names of the whole library as they stand now. */
  surroundings(): Surroundings {
    const index = this.indexed();
    return { lookup: new Recorder(index), policy: index.policy(), asOf: this.asOf };
  }

  /** Every declaration of a name (lots apart), built-in devices included. */
  declared(name: string): readonly Declaration[] {
    return this.indexed().named(name);
  }

  /** Every declaration of a kind. */
  ofKind(kind: DeclarationKind): readonly Declaration[] {
    return this.indexed().ofKind(kind);
  }

  /** Name and place of every declaration of a kind, without reading further. */
  headsOf(kind: DeclarationKind): readonly { kind: DeclarationKind; name: NameSlot; chunk: Chunk }[] {
    return this.indexed().byKind.get(kind) ?? [];
  }

  /** Frees the trees of a file's recipes and keeps their findings: for closed files that nobody looks at. */
  rest(file: string): void {
    for (const chunk of this.entries.get(file)?.chunks ?? []) chunk.release();
  }

  /** The place of a stretch of a chunk in its file; undefined for what is built in. */
  spanOf(place: Place): Span | undefined {
    return place.chunk instanceof FileChunk ? span(place) : undefined;
  }

  text(file: string): string | undefined {
    return this.entries.get(file)?.text;
  }

  /** Findings of a file in order of place, silenced ones included and marked. */
  findings(file: string): Finding[] {
    const index = this.indexed();
    const inventory = this.inventories.get(file);
    if (inventory) {
      const policy = index.policy();
      const names = () => index.ofKind("stock").map((d) => d.name.name);
      const stocks = { has: (name: string) => index.value(`find ${name} stock`) !== undefined, names };
      return inventoryFindings(inventory.reading(this.asOf.year, policy.monthOnly), inventory.text, stocks, policy);
    }
    const entry = this.entries.get(file);
    if (!entry) return [];
    return entry.chunks
      .flatMap((chunk) => this.chunkFindings(chunk, index).map((f) => toFinding(f, chunk, entry.text)))
      .sort(
        (a, b) =>
          a.span.start - b.span.start || a.span.end - b.span.end || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0),
      );
  }

  /** The recipes of a file whose order has a range: how far each was decided, in order of place. */
  ranges(file: string): JudgedRange[] {
    const index = this.indexed();
    return (this.entries.get(file)?.chunks ?? []).flatMap((chunk) => {
      this.chunkFindings(chunk, index);
      return [...chunk.findings!.judgements.values()].map(({ recipe, range }) => judgedRange(recipe, range));
    });
  }

  /** How the order of a recipe of this library was judged over its range; undefined where it has none, or a fault broke it off. */
  judgement({ chunk, head }: Recipe): RangeJudgement | undefined {
    if (!(chunk instanceof FileChunk)) return undefined;
    this.chunkFindings(chunk, this.indexed());
    return chunk.findings!.judgements.get(head.start)?.range;
  }

  /** Forgets what can be computed again: for runs over many files in which each is asked once. */
  release(file: string): void {
    for (const chunk of this.entries.get(file)?.chunks ?? []) {
      chunk.release();
      chunk.findings = undefined;
    }
  }

  /**
   * What a file's findings (asked before) rest on besides its own text and all declarations that are no recipes: the names it
   * looked for whatever their kind, and whether it looked at all names of recipes or at a recipe of another file.
   */
  restsOn(file: string): { names: string[]; otherRecipes: boolean } {
    const names = new Set<string>();
    let otherRecipes = !this.entries.has(file);
    for (const chunk of this.entries.get(file)?.chunks ?? []) {
      if (!chunk.findings) otherRecipes = true;
      for (const [question, answer] of chunk.findings?.looked ?? []) {
        const [what = "", name = ""] = question.split(" ", 2);
        if (what === "any") names.add(name);
        if (question === "names recipe") otherRecipes = true;
        if (recipeNameOf(answer) !== undefined && fileOf(answer) !== file) otherRecipes = true;
      }
    }
    return { names: [...names], otherRecipes };
  }

  /** Files whose declarations this file's declarations use, directly or through others. */
  dependencies(file: string): string[] {
    const index = this.indexed();
    const seen = new Set<string>();
    const visit = (name: string): void => {
      for (const chunk of this.entries.get(name)?.chunks ?? []) {
        this.chunkFindings(chunk, index);
        for (const found of chunk.findings!.looked.values()) {
          const other = fileOf(found);
          if (other === undefined || other === file || seen.has(other)) continue;
          seen.add(other);
          visit(other);
        }
      }
    };
    visit(file);
    return [...seen].sort();
  }

  private chunkFindings(chunk: FileChunk, index: Index): ChunkFinding[] {
    const kept = chunk.findings;
    if (kept && (kept.key === index.key || stillSame(kept.looked, index))) {
      kept.key = index.key;
      return kept.list;
    }
    const recorder = new Recorder(index);
    const policy = recorder.policy();
    const judgements: Judged["judgements"] = new Map();
    const around = { lookup: recorder, policy, asOf: this.asOf };
    const list = evaluateChunk(chunk, chunk.reading, around, ({ name, head }, range) =>
      judgements.set(head.start, { recipe: name.name, range }),
    );
    chunk.findings = { key: index.key, list, judgements, looked: recorder.looked };
    return list;
  }

  private indexed(): Index {
    this.index ??= new Index(
      [...this.entries.keys()].sort().map((file) => this.entries.get(file)!),
      [...this.inventories.values()],
      this.asOf.year,
    );
    return this.index;
  }
}

function requireDate(text: string): CalendarDate {
  const date = parseDate(text);
  if (isDateFault(date)) throw new RangeError(date.message);
  return date;
}

let nextKey = 1;

/** A declaration of which only kind and name have been read yet: most runs look into few of them. */
class KnownByName {
  constructor(
    readonly kind: DeclarationKind,
    readonly name: NameSlot,
    readonly chunk: Chunk & { readonly reading: ChunkReading },
  ) {}
}

type Known = Declaration | KnownByName;

function knownIn(chunk: FileChunk): readonly Known[] {
  const { lone } = chunk;
  if (lone) return [new KnownByName(lone.kind, lone.name, chunk)];
  return declaresNothing(chunk.text) ? [] : chunk.reading.declarations;
}

/**
 * What stands for a declaration when answers are compared: the chunk that declares nothing else, so that nobody has to read it and its
 * tree may be freed; else the declaration itself.
 */
function mark(known: Known | undefined): Chunk | Declaration | undefined {
  return known instanceof KnownByName ? known.chunk : known;
}

function recipeNameOf(answer: unknown): string | undefined {
  if (answer instanceof FileChunk) return answer.lone?.kind === "recipe" ? answer.lone.name.name : undefined;
  const declaration = answer as Declaration | string | undefined;
  return typeof declaration === "object" && declaration.kind === "recipe" ? declaration.name.name : undefined;
}

/** Reads the declaration if need be. The same object as in its chunk's reading. */
function whole(known: Known): Declaration {
  return known instanceof KnownByName ? known.chunk.reading.declarations[0]! : known;
}

/** Names of the whole library at one moment. */
class Index {
  readonly key = nextKey++;
  readonly byName = new Map<string, Known[]>();
  readonly byKind = new Map<DeclarationKind, Known[]>();
  private readonly lotsByStock = new Map<string, Known[]>();
  private readonly exported = new Map<string, LotOnShelf[]>();
  private readonly namesByKind = new Map<DeclarationKind, { list: readonly string[]; joined: string }>();
  private readonly shelves = new Map<string, { lots: readonly LotOnShelf[]; joined: string }>();
  private sitePolicy: Policy | undefined;

  constructor(entries: readonly FileEntry[], inventories: readonly InventoryFile[], year: number) {
    for (const chunk of builtInDevices()) this.add(new KnownByName(chunk.lone.kind, chunk.lone.name, chunk));
    for (const entry of entries) {
      for (const chunk of entry.chunks) {
        for (const known of knownIn(chunk)) this.add(known);
      }
    }
    for (const each of inventories) for (const lot of each.lots(year, this.policy().monthOnly)) this.put(lot);
  }

  private add(declaration: Known): void {
    const kind = this.byKind.get(declaration.kind);
    if (kind) kind.push(declaration);
    else this.byKind.set(declaration.kind, [declaration]);
    if (declaration.kind === "site") return;
    const names = declaration.kind === "lots" ? this.lotsByStock : this.byName;
    const same = names.get(declaration.name.name);
    if (same) same.push(declaration);
    else names.set(declaration.name.name, [declaration]);
  }

  /**
   * Takes chunks in the place of others where nobody outside can tell the difference: recipes under the same names, each name
   * declared once. Recipes are looked up by nobody; only their names are.
   * @returns false, with nothing changed, where somebody could
   */
  replaceUnseen(removed: readonly FileChunk[], added: readonly FileChunk[], shifted: readonly FileChunk[]): boolean {
    const before = removed.flatMap(knownIn);
    const after = added.flatMap(knownIn);
    if (before.length !== after.length) return false;
    const isUnseen = ({ kind, name: { name } }: Known) => kind === "recipe" && this.byName.get(name)?.length === 1;
    if (!before.every(isUnseen) || !after.every(isUnseen)) return false;
    if (!shifted.every((c) => knownIn(c).every(isUnseen))) return false;
    const names = new Set(before.map((d) => d.name.name));
    if (names.size !== after.length || !after.every((d) => names.delete(d.name.name))) return false;
    const recipes = this.byKind.get("recipe")!;
    for (const known of after) {
      const name = known.name.name;
      recipes[recipes.indexOf(this.byName.get(name)![0]!)] = known;
      this.byName.set(name, [known]);
    }
    return true;
  }

  private declaredLots(stock: string): LotOnShelf[] {
    return (this.lotsByStock.get(stock) ?? []).flatMap((known) => {
      const lots = whole(known) as Declaration & { kind: "lots" };
      return lots.facts.all("lot").map((row) => {
        const read = parseExpiry(row.slots.expires.text, this.policy().monthOnly);
        const expires = isDateFault(read) ? undefined : read;
        const place = { chunk: lots.chunk, start: row.start, end: row.end };
        return { stock, lot: row.slots.lot.text, expires, place, inventory: undefined };
      });
    });
  }

  private put(lot: LotOnShelf): void {
    const shelf = this.exported.get(lot.stock);
    if (shelf) shelf.push(lot);
    else this.exported.set(lot.stock, [lot]);
  }

  named(name: string): readonly Declaration[] {
    return (this.byName.get(name) ?? []).map(whole);
  }

  ofKind(kind: DeclarationKind): readonly Declaration[] {
    return (this.byKind.get(kind) ?? []).map(whole);
  }

  value(question: string): unknown {
    const [what, name, kind] = question.split(" ", 3) as [string, string, string];
    switch (what) {
      case "find":
        return mark(this.first(name, kind as DeclarationKind));
      case "any":
        return mark(this.first(name));
      case "site":
        return mark(this.byKind.get("site")?.[0]);
      case "lots":
        return this.shelf(name).joined;
      default:
        return this.names(name as DeclarationKind).joined;
    }
  }

  /** The first of this name; with a kind, the first of that kind. */
  first(name: string, kind?: DeclarationKind): Known | undefined {
    const all = this.byName.get(name);
    return kind === undefined ? all?.[0] : all?.find((known) => known.kind === kind);
  }

  /** Names never change within an index: a chunk that takes another's place bears the same. */
  names(kind: DeclarationKind): { list: readonly string[]; joined: string } {
    let names = this.namesByKind.get(kind);
    if (!names) {
      const list = (this.byKind.get(kind) ?? []).map((d) => d.name.name);
      names = { list, joined: list.join("\n") };
      this.namesByKind.set(kind, names);
    }
    return names;
  }

  lots(stock: string): readonly LotOnShelf[] {
    return this.shelf(stock).lots;
  }

  private shelf(stock: string): { lots: readonly LotOnShelf[]; joined: string } {
    let shelf = this.shelves.get(stock);
    if (!shelf) {
      const lots = [...this.declaredLots(stock), ...(this.exported.get(stock) ?? [])];
      shelf = { lots, joined: lots.map(lotLine).join("\n") };
      this.shelves.set(stock, shelf);
    }
    return shelf;
  }

  policy(): Policy {
    this.sitePolicy ??= policyOf(this.byKind.get("site")?.[0] as Declaration & { kind: "site" });
    return this.sitePolicy;
  }
}

/** Answers questions and remembers them, so that it is known when an answer has changed. */
class Recorder implements Lookup {
  readonly looked = new Map<string, unknown>();
  /** Answers to `find` by name, for those who ask again and again. */
  private readonly found = new Map<string, Map<string, unknown>>();
  private readonly shelves = new Map<string, readonly LotOnShelf[]>();

  constructor(private readonly index: Index) {}

  private note(question: string): void {
    if (!this.looked.has(question)) this.looked.set(question, this.index.value(question));
  }

  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
    let ofKind = this.found.get(kind);
    if (!ofKind) {
      ofKind = new Map();
      this.found.set(kind, ofKind);
    }
    const before = ofKind.get(name);
    if (before !== undefined || ofKind.has(name)) return before as DeclarationOf[K] | undefined;
    const known = this.index.first(name, kind);
    this.looked.set(`find ${name} ${kind}`, mark(known));
    const found = known && (whole(known) as DeclarationOf[K]);
    ofKind.set(name, found);
    return found;
  }

  any(name: string): Declaration | undefined {
    this.note(`any ${name}`);
    const known = this.index.first(name);
    return known && whole(known);
  }

  site() {
    this.note("site");
    return this.index.ofKind("site")[0] as DeclarationOf["site"] | undefined;
  }

  lots(stock: string): readonly LotOnShelf[] {
    if (!this.shelves.has(stock)) {
      this.note(`lots ${stock}`);
      this.shelves.set(stock, this.index.lots(stock));
    }
    return this.shelves.get(stock)!;
  }

  names(kind: DeclarationKind): readonly string[] {
    this.note(`names ${kind}`);
    return this.index.names(kind).list;
  }

  policy(): Policy {
    this.site();
    return this.index.policy();
  }
}

function stillSame(looked: Map<string, unknown>, index: Index): boolean {
  for (const [question, answer] of looked) if (index.value(question) !== answer) return false;
  return true;
}

/** A lot with the place of its line, which findings point at. */
function lotLine({ lot, expires, place, inventory }: LotOnShelf): string {
  const at = place
    ? `${(place.chunk as FileChunk).id} ${place.start}`
    : `${inventory?.file} ${inventory?.start} ${inventory?.end}`;
  return `${lot}\n${expires?.text}\n${at}`;
}

function fileOf(found: unknown): string | undefined {
  const chunk = found instanceof FileChunk ? found : (found as Declaration | undefined)?.chunk;
  return chunk instanceof FileChunk ? chunk.file : undefined;
}

function span(place: Place): Span {
  const chunk = place.chunk as FileChunk;
  return { file: chunk.file, start: chunk.base + place.start, end: chunk.base + place.end };
}

function toFinding(found: ChunkFinding, chunk: FileChunk, text: string): Finding {
  const { check } = found;
  const own = span({ ...found.at, chunk });
  const related: RelatedPlace[] = found.related
    .filter((r) => r.at.chunk instanceof FileChunk)
    .map((r) => ({ span: span(r.at), message: r.text }));
  const fixes: Fix[] = found.fixes.map((f) => ({
    title: f.title,
    preferred: f.preferred,
    edits: f.edits.map((e) => ({ span: span(e.at), text: e.text })),
  }));
  const finding: Finding = {
    name: found.name,
    family: found.family,
    severity: found.severity,
    span: own,
    message: found.message,
    related,
    why: check.why,
    source: check.source,
    fixes,
    subject: found.subject,
    anchor: anchorOf(text, own),
  };
  if (found.overRange) finding.overRange = found.overRange;
  const by = found.silencedBy;
  if (by) {
    const silenced: Silenced = {
      span: span({ start: by.start, end: by.end, chunk }),
      because: by.because?.text ?? "",
      by: by.by?.name ?? "",
      until: by.until?.text ?? "",
    };
    finding.silenced = silenced;
  }
  return finding;
}

/** The whole line's words: stable when lines move, different when the line says something else. */
function anchorOf(text: string, at: Span): string {
  const start = text.lastIndexOf("\n", at.start - 1) + 1;
  const end = text.indexOf("\n", at.start);
  // The first 200 characters are kept; a line of megabytes is not walked for each finding in it.
  return text
    .slice(start, Math.min(end < 0 ? text.length : end, start + 2_000))
    .trim()
    .replace(/\s+/g, " ")
    .slice(0, 200);
}
