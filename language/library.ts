/**
 * Many files as one library, kept up to date edit by edit. A file is cut into chunks (top-level declarations); an edit re-reads
 * only the chunks whose text changed, and re-evaluates only those whose own text, or something that they looked up, changed.
 *
 * Invariants: findings equal those of a fresh library over the same texts and date (tested); nothing here reads files or a clock.
 */
import type { Finding, Fix, RelatedPlace, Silenced, Span } from "../shared/finding.ts";
import { type ChunkFinding, evaluateChunk } from "./checks/evaluate.ts";
import { builtInDevices } from "./model/built-in-devices.ts";
import { type CalendarDate, isDateFault, parseDate, parseExpiry } from "./model/dates.ts";
import type { Chunk, ChunkReading, Declaration, DeclarationKind, Place } from "./model/declaration.ts";
import { readInventory } from "./model/inventory.ts";
import type { DeclarationOf, Lookup, LotOnShelf } from "./model/lookup.ts";
import { type Policy, policyOf } from "./model/policy.ts";
import { readChunk } from "./model/read-chunk.ts";
import { splitChunks } from "./syntax/chunks.ts";

export interface LibraryOptions {
  /** ISO date on which lots and deviations are judged. */
  asOf: string;
}

/** One chunk of one file. The object stays the same while its text does; `base` follows edits above it. */
class FileChunk implements Chunk {
  readonly text: string;
  base: number;
  readonly file: string;
  private read: ChunkReading | undefined;
  findings: { key: number; list: ChunkFinding[]; looked: Map<string, unknown> } | undefined;

  constructor(file: string, text: string, base: number) {
    this.file = file;
    this.text = text;
    this.base = base;
  }

  get reading(): ChunkReading {
    this.read ??= readChunk(this);
    return this.read;
  }

  /** Frees the tree once its findings are known; it is read again when needed. */
  release(): void {
    this.read = undefined;
  }
}

interface FileEntry {
  text: string;
  chunks: FileChunk[];
}

interface InventoryEntry {
  text: string;
  lots: LotOnShelf[];
  problems: { start: number; end: number; message: string }[];
}

export class Library {
  private readonly entries = new Map<string, FileEntry>();
  private readonly inventories = new Map<string, InventoryEntry>();
  private asOf: CalendarDate;
  private index: Index | undefined;

  constructor(options: LibraryOptions) {
    this.asOf = requireDate(options.asOf);
  }

  open(file: string, text: string): void {
    this.change(file, text);
  }

  change(file: string, text: string): void {
    const before = this.entries.get(file);
    if (before?.text === text) return;
    const spare = new Map<string, FileChunk[]>();
    for (const chunk of before?.chunks ?? []) {
      const same = spare.get(chunk.text);
      if (same) same.push(chunk);
      else spare.set(chunk.text, [chunk]);
    }
    const chunks = splitChunks(text).map(({ start, text: part }) => {
      const kept = spare.get(part)?.shift();
      if (!kept) return new FileChunk(file, part, start);
      kept.base = start;
      return kept;
    });
    this.entries.set(file, { text, chunks });
    this.index = undefined;
  }

  close(file: string): void {
    if (this.entries.delete(file) || this.inventories.delete(file)) this.index = undefined;
  }

  /** An inventory export (CSV) with the lots on the shelf. */
  openInventory(file: string, csv: string): void {
    const { lots, problems } = readInventory(csv, file, { currentYear: this.asOf.year });
    this.inventories.set(file, {
      text: csv,
      lots: lots.map((l) => ({
        stock: l.stock,
        lot: l.lot,
        expires: l.expires,
        place: undefined,
        inventory: { file, start: l.start, end: l.end },
      })),
      problems: problems.map((p) => ({ start: p.start, end: p.end, message: p.message })),
    });
    this.index = undefined;
  }

  setAsOf(date: string): void {
    this.asOf = requireDate(date);
    for (const entry of this.entries.values()) for (const chunk of entry.chunks) chunk.findings = undefined;
  }

  files(): string[] {
    return [...this.entries.keys()].sort();
  }

  text(file: string): string | undefined {
    return this.entries.get(file)?.text;
  }

  /** Findings of a file in order of place, silenced ones included and marked. */
  findings(file: string): Finding[] {
    const entry = this.entries.get(file);
    if (!entry) return [];
    const index = this.indexed();
    return entry.chunks
      .flatMap((chunk) => this.chunkFindings(chunk, index).map((f) => toFinding(f, chunk, entry.text)))
      .sort(
        (a, b) =>
          a.span.start - b.span.start || a.span.end - b.span.end || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0),
      );
  }

  /** Forgets what can be computed again: for runs over many files in which each is asked once. */
  release(file: string): void {
    for (const chunk of this.entries.get(file)?.chunks ?? []) {
      chunk.release();
      chunk.findings = undefined;
    }
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
    const list = evaluateChunk(chunk, chunk.reading, { lookup: recorder, policy, asOf: this.asOf });
    chunk.findings = { key: index.key, list, looked: recorder.looked };
    return list;
  }

  private indexed(): Index {
    this.index ??= new Index(
      [...this.entries.keys()].sort().map((file) => this.entries.get(file)!),
      [...this.inventories.values()],
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

/** Names of the whole library at one moment. */
class Index {
  readonly key = nextKey++;
  readonly byName = new Map<string, Declaration[]>();
  readonly byKind = new Map<DeclarationKind, Declaration[]>();
  private readonly shelf = new Map<string, LotOnShelf[]>();
  private sitePolicy: Policy | undefined;

  constructor(entries: readonly FileEntry[], inventories: readonly InventoryEntry[]) {
    for (const declaration of builtInDevices()) this.add(declaration);
    for (const entry of entries) {
      for (const chunk of entry.chunks) for (const declaration of chunk.reading.declarations) this.add(declaration);
    }
    for (const lots of this.byKind.get("lots") ?? []) this.shelve(lots as Declaration & { kind: "lots" });
    for (const inventory of inventories) for (const lot of inventory.lots) this.put(lot);
  }

  private add(declaration: Declaration): void {
    const kind = this.byKind.get(declaration.kind);
    if (kind) kind.push(declaration);
    else this.byKind.set(declaration.kind, [declaration]);
    if (declaration.kind === "lots" || declaration.kind === "site") return;
    const same = this.byName.get(declaration.name.name);
    if (same) same.push(declaration);
    else this.byName.set(declaration.name.name, [declaration]);
  }

  private shelve(lots: Declaration & { kind: "lots" }): void {
    for (const row of lots.facts.all("lot")) {
      const read = parseExpiry(row.slots.expires.text, this.policy().monthOnly);
      const expires = isDateFault(read) ? undefined : read;
      const place = { chunk: lots.chunk, start: row.start, end: row.end };
      this.put({ stock: lots.name.name, lot: row.slots.lot.text, expires, place, inventory: undefined });
    }
  }

  private put(lot: LotOnShelf): void {
    const shelf = this.shelf.get(lot.stock);
    if (shelf) shelf.push(lot);
    else this.shelf.set(lot.stock, [lot]);
  }

  value(question: string): unknown {
    const [what, name, kind] = question.split(" ", 3) as [string, string, string];
    switch (what) {
      case "find":
        return this.byName.get(name)?.find((d) => d.kind === kind);
      case "any":
        return this.byName.get(name)?.[0];
      case "all":
        return this.byName.get(name)?.length ?? 0;
      case "site":
        return this.byKind.get("site")?.[0];
      case "sites":
        return this.byKind.get("site")?.length ?? 0;
      case "lots":
        return (this.shelf.get(name) ?? []).map((l) => `${l.lot}\n${l.expires?.text}`).join("\n");
      default:
        return (this.byKind.get(name as DeclarationKind) ?? []).map((d) => d.name.name).join("\n");
    }
  }

  lots(stock: string): readonly LotOnShelf[] {
    return this.shelf.get(stock) ?? [];
  }

  policy(): Policy {
    this.sitePolicy ??= policyOf(this.byKind.get("site")?.[0] as Declaration & { kind: "site" });
    return this.sitePolicy;
  }
}

/** Answers questions and remembers them, so that it is known when an answer has changed. */
class Recorder implements Lookup {
  readonly looked = new Map<string, unknown>();

  constructor(private readonly index: Index) {}

  private ask(question: string): unknown {
    if (!this.looked.has(question)) this.looked.set(question, this.index.value(question));
    return this.looked.get(question);
  }

  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
    return this.ask(`find ${name} ${kind}`) as DeclarationOf[K] | undefined;
  }

  any(name: string): Declaration | undefined {
    return this.ask(`any ${name}`) as Declaration | undefined;
  }

  same(name: string): readonly Declaration[] {
    this.ask(`all ${name}`);
    this.ask(`any ${name}`);
    return this.index.byName.get(name) ?? [];
  }

  sites(): readonly Declaration[] {
    this.ask("sites");
    return this.index.byKind.get("site") ?? [];
  }

  site() {
    return this.ask("site") as DeclarationOf["site"] | undefined;
  }

  lots(stock: string): readonly LotOnShelf[] {
    this.ask(`lots ${stock}`);
    return this.index.lots(stock);
  }

  names(kind: DeclarationKind): readonly string[] {
    this.ask(`names ${kind}`);
    return (this.index.byKind.get(kind) ?? []).map((d) => d.name.name);
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

function fileOf(found: unknown): string | undefined {
  const chunk = (found as Declaration | undefined)?.chunk;
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
  return text
    .slice(start, end < 0 ? text.length : end)
    .trim()
    .replace(/\s+/g, " ")
    .slice(0, 200);
}
