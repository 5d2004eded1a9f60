/**
 * Which declaration of one library is which of the other: by kind and name, then by equal meaning under another name, then by the
 * greatest part of it being the same. Declarations whose text is the same are not read.
 */
import type { Library, PlacedChunk } from "../library.ts";
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import type { NameOf } from "./canonical.ts";
import { hashOf, plainMeaning } from "./fingerprint.ts";
import { meaningOf } from "./meaning.ts";
import { grouped } from "./pair-statements.ts";

/** A declaration that is read only when asked for. */
export class Head {
  constructor(
    readonly kind: DeclarationKind,
    readonly name: string,
    readonly file: string,
    readonly chunk: PlacedChunk,
    /** Among the declarations of its chunk; mostly 0. */
    private readonly at: number,
  ) {}

  /** Its words, blanks and comments aside: equal for declarations of which nothing but the layout was touched. */
  get text(): string {
    this.bare ??= bareText(this.chunk.text);
    return this.bare;
  }
  private bare: string | undefined;

  /** Whether nothing but the layout was touched. */
  isWordedAs(other: Head): boolean {
    return this.chunk.text === other.chunk.text || this.text === other.text;
  }

  /** Whether it is the same declaration of the same text, layout included. */
  isWhollyAs(other: Head): boolean {
    return this.chunk.text === other.chunk.text && this.at === other.at;
  }

  get declaration(): Declaration {
    return this.chunk.reading.declarations[this.at]!;
  }

  get key(): string {
    return this.kind === "site" ? "site" : `${this.kind} ${this.name}`;
  }
}

export interface HeadPair {
  before: Head;
  after: Head;
}

export interface Matched {
  pairs: HeadPair[];
  removed: Head[];
  added: Head[];
  /** New names of what was renamed, by the old ones. */
  renamed: Map<string, string>;
}

export function headsOf(library: Library): Head[] {
  return library.files().flatMap((file) =>
    library.chunks(file).flatMap((chunk) => {
      const { lone } = chunk;
      if (lone) return [new Head(lone.kind, lone.name.name, file, chunk, 0)];
      return chunk.reading.declarations.map((d, at) => new Head(d.kind, d.name.name, file, chunk, at));
    }),
  );
}

/**
 * The text without comments and with single blanks, so that most untouched declarations are known without reading them. Where it
 * errs, it keeps a difference that is none: a sign in a text that is not closed, or a blank row above a line that may continue another.
 */
export function bareText(text: string): string {
  const rows: string[] = [];
  let isAfterGap = false;
  for (const line of text.split(/\r\n|\r|\n/)) {
    const at = line.includes("#")
      ? line.replace(/"[^"]*"/g, (quoted) => "x".repeat(quoted.length)).search(/(?<=^|[ \t])#/)
      : -1;
    const bare = (at < 0 ? line : line.slice(0, at)).replace(/^[\uFEFF \t]+|[ \t]+$/g, "");
    if (bare === "") {
      isAfterGap = true;
      continue;
    }
    if (isAfterGap && continuing.test(bare)) rows.push("");
    isAfterGap = false;
    rows.push(bare.includes('"') ? bare : bare.replace(/[ \t]+/g, " "));
  }
  return rows.join("\n");
}

const continuing = /^(?:source|because|by|until|when)\b/i;

/** Lots are left aside: the shelf is no part of any meaning. */
export function matchDeclarations(before: readonly Head[], after: readonly Head[]): Matched {
  const matched: Matched = { pairs: [], removed: [], added: [], renamed: new Map() };
  const now = grouped(after.filter(isNoLots), (h) => h.key);
  for (const [key, heads] of grouped(before.filter(isNoLots), (h) => h.key)) {
    const others = now.get(key) ?? [];
    // Of several with one name, those that say the same belong together.
    const rest = heads.filter((head) => {
      const worded = others.filter((o) => o.isWordedAs(head));
      // A copy in another file is what is new, and not where the first one went.
      const twin = others.indexOf(worded.find((o) => o.file === head.file) ?? worded[0]!);
      if (twin < 0) return true;
      matched.pairs.push({ before: head, after: others.splice(twin, 1)[0]! });
      return false;
    });
    for (const head of rest) {
      const twin = others.shift();
      if (twin) matched.pairs.push({ before: head, after: twin });
      else matched.removed.push(head);
    }
  }
  matched.added = [...now.values()].flat();
  matchRenamed(matched);
  return matched;
}

function isNoLots({ kind }: Head): boolean {
  return kind !== "lots";
}

/** A stock under a new name makes its recipes speak of the new name: so what others call by name is looked at again and again. */
function matchRenamed(matched: Matched): void {
  for (let found = true; found; ) {
    found = false;
    const nameOf = (name: string) => matched.renamed.get(name) ?? name;
    const now = grouped(matched.added, (h) => contentHash(h, (name) => name));
    for (const head of [...matched.removed]) {
      const twins = now.get(contentHash(head, nameOf)) ?? [];
      if (twins.length !== 1 || !matched.added.includes(twins[0]!)) continue;
      take(matched, head, twins[0]!);
      found = true;
    }
  }
  for (const head of [...matched.removed]) {
    const twin = likestOf(head, matched);
    if (twin) take(matched, head, twin);
  }
}

function take(matched: Matched, before: Head, after: Head): void {
  matched.removed.splice(matched.removed.indexOf(before), 1);
  matched.added.splice(matched.added.indexOf(after), 1);
  matched.pairs.push({ before, after });
  if (before.name !== after.name) matched.renamed.set(before.name, after.name);
}

/** Meaning without its own name. */
function contentHash({ kind, declaration }: Head, nameOf: NameOf): string {
  const plain = plainMeaning(declaration, nameOf) as { facts: string[]; steps: unknown };
  return hashOf([kind, plain.facts, plain.steps as never]);
}

/** More candidates than this on both sides are no renames but another library. */
const mostCandidates = 60;

/** At least three statements in four the same, and nobody else as much: one declaration under another name, changed as well. */
function likestOf(head: Head, { added, removed, renamed }: Matched): Head | undefined {
  if (removed.length > mostCandidates || added.length > mostCandidates) return undefined;
  const own = keysOf(head, (name) => renamed.get(name) ?? name);
  const scores = added
    .filter((other) => other.kind === head.kind)
    .map((other) => ({
      other,
      share: shareOf(
        own,
        keysOf(other, (name) => name),
      ),
    }))
    .filter(({ share }) => share >= 0.75)
    .sort((a, b) => b.share - a.share);
  return scores[0] && scores[0].share > (scores[1]?.share ?? 0) ? scores[0].other : undefined;
}

function keysOf({ declaration }: Head, nameOf: NameOf): string[] {
  const { facts, steps } = meaningOf(declaration, nameOf);
  return [...facts, ...steps].map((s) => s.key);
}

function shareOf(a: readonly string[], b: readonly string[]): number {
  const spare = grouped(b, (k) => k);
  const shared = a.filter((key) => spare.get(key)?.pop() !== undefined).length;
  return shared / Math.max(a.length, b.length, 4);
}
