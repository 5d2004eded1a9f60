/** Edits as an author, a disk and a calendar make them, drawn from a seed: what tests/server/edits.test.ts puts a session through. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { TextDocumentContentChangeEvent } from "vscode-languageserver-protocol";
import { LineIndex } from "../../language/syntax/lines.ts";
import { nodeHost } from "../../server/node-host.ts";
import { Session } from "../../server/session.ts";

export type Random = () => number;

const folder = "/library";
const days = ["2026-11-25", "2026-12-01", "2031-01-01"];
const export_ = (day: string) => `stock,lot,expires\nmagnesium-vial-10,X1,${day}\n`;
const inventories = [export_("2027-12-31"), export_("2020-01-31"), "stock,lot\n", undefined];
const busy = /(site|lots|fluids|vials|references|magnesium-4g|vancomycin-loading)\.misce$/;
const inventoryKey = `${folder}/shelf.csv`;

const pieces = [
  "{",
  "}",
  "\n",
  " ",
  "recipe x {\n",
  "stock magnesium-vial-10 {\n}\n",
  '"',
  "1",
  "0 mL",
  "\uFEFF",
  "# ",
  "\u{1F489}",
  "µg",
  "é",
  "site {\n",
  "\nsite {\n}\n",
  "drug",
];

export function edited(text: string, random: Random, others: readonly string[]): string {
  const at = Math.floor(random() * (text.length + 1));
  switch (Math.floor(random() * 6)) {
    case 0:
      return text.slice(0, at) + text.slice(at + 1 + Math.floor(random() * 8));
    case 1:
      return text.slice(0, at) + pieces[Math.floor(random() * pieces.length)]! + text.slice(at);
    case 2: {
      const lines = text.split("\n");
      lines.splice(Math.floor(random() * lines.length), 1);
      return lines.join("\n");
    }
    case 3: {
      const lines = text.split("\n");
      const from = Math.floor(random() * lines.length);
      lines.splice(Math.floor(random() * lines.length), 0, lines[from]!);
      return lines.join("\n");
    }
    case 4:
      return others[Math.floor(random() * others.length)]!;
    default:
      return text.replace(/\d+/g, (n) => (random() < 0.1 ? `${n}0` : n));
  }
}

/** The stretch that differs, as an editor would send it; whole letters beyond the Basic Multilingual Plane, as UTF-8 columns need. */
export function asChange(before: string, now: string, unit: Session["unit"]): TextDocumentContentChangeEvent {
  const most = Math.min(before.length, now.length);
  let start = 0;
  while (start < most && before[start] === now[start]) start++;
  let tail = 0;
  while (tail < most - start && before[before.length - 1 - tail] === now[now.length - 1 - tail]) tail++;
  const isHalf = (text: string, at: number) => (text.charCodeAt(at) & 0xfc00) === 0xdc00;
  if (isHalf(before, start) || isHalf(now, start)) start--;
  if (tail > 0 && isHalf(before, before.length - tail)) tail--;
  const lines = new LineIndex(before);
  const end = before.length - tail;
  return {
    range: { start: lines.place(start, unit), end: lines.place(end, unit) },
    text: now.slice(start, now.length - tail),
  };
}

/** A session, and beside it the plain texts that it should be speaking of. */
export class Author {
  readonly session = new Session(nodeHost);
  /** The last few things done, for the message of a failure. */
  readonly recent: string[] = [];
  private readonly good: ReadonlyMap<string, string>;
  private readonly all: readonly string[];
  private readonly keys: readonly string[];
  private readonly disk: Map<string, string>;
  private readonly opened = new Map<string, string>();
  private readonly before = new Map<string, string>();
  private day = days[0]!;
  private inventory: string | undefined;
  private version = 0;

  constructor(private readonly random: Random) {
    const root = join(import.meta.dirname, "../../samples/library");
    // A part of the library keeps the comparison affordable: everything that the magnesium and vancomycin recipes rest on.
    const names = (readdirSync(root, { recursive: true }) as string[]).filter(
      (name) => name.endsWith(".misce") && (!/recipes\//.test(name) || /magnesium|vancomycin/.test(name)),
    );
    this.good = new Map(names.sort().map((name) => [`${folder}/${name}`, readFileSync(join(root, name), "utf8")]));
    this.all = [...this.good.values()];
    this.keys = [...this.good.keys()];
    this.disk = new Map(this.good);
    this.session.unit = (["utf-16", "utf-8", "utf-32"] as const)[Math.floor(random() * 3)]!;
    this.session.folders.add(folder);
    this.session.setDay(this.day);
    this.session.setDisks([...this.disk].map(([key, text]) => [key, { kind: "text", text }] as const));
  }

  /** One thing that an author, a disk or a calendar does; then somebody asks for the findings of some file. */
  step(): void {
    const kind = this.random();
    // Files on which many others rest are touched as often as all the rest.
    const key = this.any(this.random() < 0.5 ? this.keys : this.keys.filter((each) => busy.test(each)));
    if (kind < 0.68) this.type(key);
    else if (kind < 0.76) this.close(key);
    else if (kind < 0.82) this.save(key);
    else if (kind < 0.88) this.remove(key);
    else if (kind < 0.93) this.checkOut();
    else if (kind < 0.96) this.rename(key);
    else if (kind < 0.97) this.turnDay();
    else if (kind < 0.98) this.count();
    else this.session.group(key)?.library.rest(key);
    findingsOf(this.session, this.any(this.keys));
  }

  /** @returns by file, what the session says and what a new one says over the same texts, where they differ */
  compare(): { key: string; shown: unknown; fresh: unknown }[] {
    const fresh = new Session(nodeHost);
    fresh.folders.add(folder);
    fresh.setDay(this.day);
    const texts = new Map([...this.disk, ...this.opened]);
    fresh.setDisks([...texts].map(([key, text]) => [key, { kind: "text", text }] as const));
    if (this.inventory !== undefined) fresh.setInventory(inventoryKey, this.inventory);
    return [...texts.keys(), ...this.keys, inventoryKey].flatMap((key) => {
      const [a, b] = [shownIn(this.session, key), shownIn(fresh, key)];
      return JSON.stringify(a) === JSON.stringify(b) ? [] : [{ key, shown: a, fresh: b }];
    });
  }

  private any<T>(of: readonly T[]): T {
    return of[Math.floor(this.random() * of.length)]!;
  }

  private note(what: string): void {
    this.recent.push(what);
    if (this.recent.length > 8) this.recent.shift();
  }

  private type(key: string): void {
    const was = this.opened.get(key) ?? this.disk.get(key) ?? "";
    const uri = nodeHost.uriOf(key);
    if (!this.opened.has(key)) this.session.open(uri, ++this.version, was);
    // Many edits put a text right again or undo, so that the library does not drown in faults.
    const kind = this.random();
    const now =
      kind < 0.45
        ? (this.good.get(key) ?? was)
        : kind < 0.6
          ? (this.before.get(key) ?? was)
          : edited(was, this.random, this.all);
    const whole = this.random() < 0.1;
    this.session.change(uri, ++this.version, [whole ? { text: now } : asChange(was, now, this.session.unit)]);
    this.before.set(key, was);
    this.opened.set(key, now);
    this.note(`typed in ${key}`);
  }

  private close(key: string): void {
    if (!this.opened.delete(key)) return;
    this.session.close(nodeHost.uriOf(key));
    this.note(`closed ${key}`);
  }

  private save(key: string): void {
    const text = this.opened.get(key);
    if (text === undefined) return;
    this.disk.set(key, text);
    this.session.setDisk(key, { kind: "text", text });
    this.note(`saved ${key}`);
  }

  private remove(key: string): void {
    // A library that has lost most of its files says little.
    const isGone = !this.disk.has(key) || this.random() < 0.5;
    const text = this.good.get(key)!;
    if (isGone) this.disk.set(key, text);
    else this.disk.delete(key);
    this.session.setDisk(key, isGone ? { kind: "text", text } : undefined);
    this.note(`${isGone ? "put back" : "removed"} ${key}`);
  }

  /** Another branch: many files at once, some gone, some others. */
  private checkOut(): void {
    const isHome = this.random() < 0.5;
    const changed = this.keys.flatMap((key): (readonly [string, string | undefined])[] => {
      if (isHome) return [[key, this.good.get(key)!]];
      const kind = this.random();
      if (kind < 0.8) return [];
      return [[key, kind < 0.84 ? undefined : edited(this.disk.get(key) ?? "", this.random, this.all)]];
    });
    for (const [key, text] of changed) {
      if (text === undefined) this.disk.delete(key);
      else this.disk.set(key, text);
    }
    this.session.setDisks(
      changed.map(([key, text]) => [key, text === undefined ? undefined : { kind: "text" as const, text }] as const),
    );
    this.note(
      isHome
        ? "the first branch again"
        : `another branch: ${changed.map(([key]) => key.slice(folder.length + 1)).join(", ")}`,
    );
  }

  private rename(key: string): void {
    const other = key.replace(".misce", "-moved.misce");
    const [from, to] = this.disk.has(other) ? [other, key] : [key, other];
    const text = this.disk.get(from);
    if (text === undefined) return;
    this.disk.delete(from);
    this.disk.set(to, text);
    this.session.setDisks([
      [from, undefined],
      [to, { kind: "text", text }],
    ]);
    this.note(`renamed ${from} to ${to}`);
  }

  private turnDay(): void {
    this.day = this.any(days);
    this.session.setDay(this.day);
    this.note(`day ${this.day}`);
  }

  private count(): void {
    this.inventory = this.any(inventories);
    this.session.setInventory(inventoryKey, this.inventory);
    this.note(`inventory ${this.inventory ?? "gone"}`);
  }
}

/** Of every library that reads the file, as the server asks them. */
function findingsOf(session: Session, key: string): unknown {
  return session.groupsOf(key).map(({ library }) => library.findings(session.nameOf(key)));
}

function shownIn(session: Session, key: string): unknown {
  return { text: session.document(key)?.text, findings: findingsOf(session, key) };
}
