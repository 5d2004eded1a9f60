/**
 * Many files as one library, kept up to date edit by edit. A file is cut into chunks (top-level declarations); an edit re-reads
 * only the chunks whose text changed, and re-evaluates only those whose own text, or something that they looked up, changed.
 *
 * Invariants: findings equal those of a fresh library over the same texts and date (tested); nothing here reads files or a clock.
 */
import type { Finding, JudgedRange, Span } from "../shared/finding.ts";
import type { ChunkFinding, Surroundings } from "./checks/chunk-finding.ts";
import { nothingDeclared } from "./checks/empty-file.ts";
import { evaluateChunk } from "./checks/evaluate.ts";
import { inventoryFindings } from "./checks/inventory-findings.ts";
import type { RangeJudgement } from "./checks/over-range.ts";
import { judgedRange } from "./checks/range-finding.ts";
import { FileChunk, type FileEntry, fileOf, type Judged, span } from "./library/file-chunk.ts";
import { KeptReadings } from "./library/kept-readings.ts";
import { recipeNameOf } from "./library/known.ts";
import { NameIndex } from "./library/name-index.ts";
import { toFinding } from "./library/placed-finding.ts";
import { Recorder, stillSame } from "./library/recorder.ts";
import { type CalendarDate, isDateFault, parseDate } from "./model/dates.ts";
import type { Chunk, ChunkReading, Declaration, DeclarationKind, Place, Recipe } from "./model/declaration.ts";
import { InventoryFile } from "./model/inventory-file.ts";
import type { LoneDeclaration } from "./model/lone-declaration.ts";
import type { KnownErrors, Policy } from "./model/policy.ts";
import type { NameSlot } from "./model/slots.ts";
import { splitChunks } from "./syntax/chunks.ts";

/** How far a change reaches. */
export type Reach = "nothing" | "itself" | "others";

/** A chunk with its place in a file. */
export interface PlacedChunk extends Chunk {
  readonly file: string;
  /** Offset of the chunk in its file. */
  readonly base: number;
  /** What it declares, told by a glance; undefined where it has to be read for that. */
  readonly lone: LoneDeclaration | undefined;
  readonly reading: ChunkReading;
}

export interface LibraryOptions {
  /** ISO date on which lots and deviations are judged. */
  asOf: string;
  /** Errors that the reader knows of and is not shown. */
  known?: KnownErrors;
}

export class Library {
  private readonly entries = new Map<string, FileEntry>();
  private readonly inventories = new Map<string, InventoryFile>();
  private readonly resting = new KeptReadings();
  private asOf: CalendarDate;
  private index: NameIndex | undefined;
  private readonly known: KnownErrors | undefined;
  /** The site's policy with the known errors; one object for one policy. */
  private readonly policies = new WeakMap<Policy, Policy>();

  constructor(options: LibraryOptions) {
    this.asOf = requireDate(options.asOf);
    this.known = options.known?.size ? options.known : undefined;
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
    const gone = [...spare.values()].flat();
    for (const chunk of gone) this.resting.forget(chunk);
    if (this.index?.replaceUnseen(gone, added, shifted)) return "itself";
    this.index = undefined;
    return "others";
  }

  close(file: string): void {
    for (const chunk of this.entries.get(file)?.chunks ?? []) this.resting.forget(chunk);
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
    return { lookup: new Recorder(index), policy: this.withKnown(index.policy()), asOf: this.asOf };
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

  /** How many declarations of a kind bear a name, without reading them. */
  countOf(kind: DeclarationKind, name: string): number {
    return (this.indexed().byName.get(name) ?? []).filter((known) => known.kind === kind).length;
  }

  /** Another number once anything has changed that is not within one recipe. */
  get namesKey(): number {
    return this.indexed().key;
  }

  /** Keeps the findings of a file, and of the readings of its recipes what has room: for closed files that nobody looks at. */
  rest(file: string): void {
    for (const chunk of this.entries.get(file)?.chunks ?? []) this.resting.keepOrRelease(chunk);
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
    const nothing = nothingDeclared(file, entry.text, index.policy());
    const found = entry.chunks.flatMap((chunk) =>
      this.chunkFindings(chunk, index).map((f) => toFinding(f, chunk, entry.text)),
    );
    return (nothing ? [nothing, ...found] : found).sort(
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
      this.resting.forget(chunk);
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
        const [what = "", name = "", kind] = question.split(" ", 3);
        if (what === "any" || (what === "second" && kind === undefined)) names.add(name);
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

  private chunkFindings(chunk: FileChunk, index: NameIndex): ChunkFinding[] {
    const kept = chunk.findings;
    if (kept && (kept.key === index.key || stillSame(kept.looked, index))) {
      kept.key = index.key;
      return kept.list;
    }
    const recorder = new Recorder(index);
    const policy = this.withKnown(recorder.policy());
    const judgements: Judged["judgements"] = new Map();
    const around = { lookup: recorder, policy, asOf: this.asOf };
    const list = evaluateChunk(chunk, chunk.reading, around, ({ name, head }, range) =>
      judgements.set(head.start, { recipe: name.name, range }),
    );
    chunk.findings = { key: index.key, list, judgements, looked: recorder.looked };
    return list;
  }

  private withKnown(policy: Policy): Policy {
    if (!this.known) return policy;
    let own = this.policies.get(policy);
    if (!own) {
      own = { ...policy, known: this.known };
      this.policies.set(policy, own);
    }
    return own;
  }

  private indexed(): NameIndex {
    this.index ??= new NameIndex(
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
