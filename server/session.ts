/**
 * What the server knows: files on disk, texts open in the editor, and the libraries they make up. An open text stands before the
 * disk; closing gives the disk's text back.
 *
 * Invariant: after each call, what a library answers equals a fresh check of the same texts on the same day (tested).
 */
import type { TextDocumentContentChangeEvent } from "vscode-languageserver-protocol";
import { Library } from "../language/library.ts";
import { declaresSite } from "../language/syntax/declares-site.ts";
import type { ColumnUnit } from "../language/syntax/lines.ts";
import type { Span } from "../shared/finding.ts";
import { Document } from "./document.ts";
import { covers, isWithin } from "./folders.ts";
import { dayOf, type Host, type Source } from "./host.ts";
import { Inventories } from "./inventories.ts";
import { inOrder, type Skip } from "./late-changes.ts";
import { type Aside, homeName, membership } from "./membership.ts";

export interface Group {
  /** Folder of the site, or undefined for a file alone. */
  root: string | undefined;
  library: Library;
  keys: Set<string>;
}

/** How far an edit reaches. */
export type Reach = "nothing" | "itself" | "others";

export class Session {
  unit: ColumnUnit = "utf-16";
  /** Folders read whole because a file of theirs is open or the workspace lies in them. */
  readonly libraryFolders = new Set<string>();
  /** Workspace folders as keys; their files are checked whether open or not. */
  readonly folders = new Set<string>();
  private readonly disk = new Map<string, Source>();
  private readonly opened = new Map<string, Document>();
  private readonly skips = new Map<string, Skip>();
  private readonly closed = new Map<string, Document>();
  private readonly sites = new Set<string>();
  private aside: ReadonlyMap<string, Aside> = new Map();
  private byLink: ReadonlySet<string> = new Set();
  private readonly groups = new Map<string, Group>();
  private readonly groupOf = new Map<string, Group>();
  private readonly inventories: Inventories;
  private givenDay: string | undefined;
  day: string;

  constructor(readonly host: Host) {
    this.day = dayOf(host.now());
    this.inventories = new Inventories(this.folders);
  }

  /** A given day, or undefined for the calendar's. @returns whether the day that counts has changed */
  setDay(given: string | undefined): boolean {
    this.givenDay = given;
    return this.turnDay();
  }

  /** Takes the calendar's day, unless one is given. @returns whether the day has changed */
  turnDay(): boolean {
    const day = this.givenDay ?? dayOf(this.host.now());
    if (day === this.day) return false;
    this.day = day;
    for (const group of this.groups.values()) group.library.setAsOf(day);
    return true;
  }

  get allGroups(): Iterable<Group> {
    return this.groups.values();
  }

  /** Whether a folder is the root of a library. */
  isLibrary(folder: string): boolean {
    return this.groups.has(homeName(folder));
  }

  group(key: string): Group | undefined {
    return this.groupOf.get(key) ?? this.inventoryGroups(key)[0];
  }

  /** The libraries that read a file: one for a recipe file, and every one that takes its lots from an inventory. */
  groupsOf(key: string): Group[] {
    const own = this.groupOf.get(key);
    return own ? [own] : this.inventoryGroups(key);
  }

  private inventoryGroups(key: string): Group[] {
    if (!this.inventories.has(key)) return [];
    const name = this.inventories.nameOf(key);
    // In one order, however the libraries came to be known.
    return [...this.groups]
      .filter(([, group]) => group.library.inventoryFiles().includes(name))
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([, group]) => group);
  }

  /** Every known recipe file, open or closed. */
  keys(): string[] {
    return [...this.groupOf.keys(), ...this.aside.keys()];
  }

  /** Why a file belongs to no library and is not checked; undefined for every other. */
  whyAside(key: string): Aside | undefined {
    return this.aside.get(key);
  }

  /**
   * @param keys open texts whose files the library has under another name
   * @returns whether they are others than before
   */
  setByLink(keys: ReadonlySet<string>): boolean {
    if (keys.size === this.byLink.size && [...keys].every((key) => this.byLink.has(key))) return false;
    this.byLink = keys;
    this.regroup();
    return true;
  }

  isOpen(key: string): boolean {
    return this.opened.has(key);
  }

  openDocuments(): Iterable<Document> {
    return this.opened.values();
  }

  openAt(uri: string): Document | undefined {
    return this.opened.get(this.host.keyOf(uri));
  }

  /** Whether findings of a file are shown: it is open, or lies in a workspace folder. */
  isAsked(key: string): boolean {
    if (this.opened.has(key) || this.inventories.has(key)) return true;
    for (const folder of this.folders) if (covers(folder, key)) return true;
    return false;
  }

  /** Undefined where nothing is known of the file, or it has no text. */
  document(key: string): Document | undefined {
    const open = this.opened.get(key);
    if (open) return open.unfit ? undefined : open;
    const text = this.text(key) ?? this.inventories.get(key);
    if (text === undefined) return undefined;
    const kept = this.closed.get(key);
    if (kept && kept.text === text && kept.unit === this.unit) return kept;
    const made = new Document(key, this.host.uriOf(key), null, text, this.unit);
    this.closed.set(key, made);
    return made;
  }

  documentAt(uri: string): Document | undefined {
    return this.document(this.host.keyOf(uri));
  }

  unreadable(key: string): (Source & { kind: "unreadable" }) | undefined {
    const open = this.opened.get(key);
    const source = open ? open.unfit : this.disk.get(key);
    return source?.kind === "unreadable" ? source : undefined;
  }

  locate = (span: Span) => {
    const document = this.document(this.inventories.keyNamed(span.file) ?? span.file);
    return document ? { uri: document.uri, range: document.range(span) } : undefined;
  };

  open(uri: string, version: number | null, text: string): Reach {
    const key = this.host.keyOf(uri);
    this.opened.set(key, new Document(key, uri, version, text, this.unit));
    this.skips.delete(key);
    this.closed.delete(key);
    return this.settle(key);
  }

  /** A change of an open text got lost: until the whole text comes again, it is not checked. */
  leaveBehind(uri: string): Reach {
    const key = this.host.keyOf(uri);
    const before = this.opened.get(key);
    if (!before) return "nothing";
    this.opened.set(key, before.leftBehind());
    this.skips.delete(key);
    return this.settle(key);
  }

  change(uri: string, version: number | null, changes: readonly TextDocumentContentChangeEvent[]): Reach {
    const key = this.host.keyOf(uri);
    const before = this.opened.get(key);
    if (!before) return "nothing";
    const { now, skip } = inOrder(before, this.skips.get(key), { version, changes });
    this.opened.set(key, now);
    if (skip) this.skips.set(key, skip);
    else this.skips.delete(key);
    return this.settle(key);
  }

  /** Back to what the disk holds, or gone where it holds nothing. */
  close(uri: string): Reach {
    const key = this.host.keyOf(uri);
    this.opened.delete(key);
    this.skips.delete(key);
    return this.settle(key);
  }

  /** What the disk holds now; undefined where the file is gone. */
  setDisk(key: string, source: Source | undefined): Reach {
    if (source) this.disk.set(key, source);
    else this.disk.delete(key);
    this.closed.delete(key);
    return this.opened.has(key) ? "nothing" : this.settle(key);
  }

  /** Many files at once, settled together. */
  setDisks(sources: Iterable<readonly [string, Source | undefined]>): void {
    for (const [key, source] of sources) {
      if (source) this.disk.set(key, source);
      else this.disk.delete(key);
      this.closed.delete(key);
      this.noteSite(key);
    }
    this.regroup();
  }

  /** Leaves a workspace folder and its files, those excepted that another folder or an open text keeps. */
  dropFolder(folder: string): void {
    this.folders.delete(folder);
    const kept = [...this.folders, ...this.libraryFolders];
    for (const key of [...this.disk.keys()]) {
      if (isWithin(key, folder) && !kept.some((other) => isWithin(key, other))) {
        this.disk.delete(key);
        this.closed.delete(key);
        this.noteSite(key);
      }
    }
    this.regroup();
  }

  /** Whether the text on the disk is known, whatever is open. */
  hasRead(key: string): boolean {
    return this.disk.has(key);
  }

  knows(key: string): boolean {
    return this.disk.has(key) || this.opened.has(key);
  }

  /** Inventory exports, by key. They serve the library in whose folder they lie, else every library. */
  setInventory(key: string, text: string | undefined): void {
    if (text === undefined) this.inventories.delete(key);
    else this.inventories.set(key, text);
    for (const group of this.groups.values()) this.takeInventories(group);
  }

  inventoryKeys(): string[] {
    return [...this.inventories.keys()];
  }

  private text(key: string): string | undefined {
    const open = this.opened.get(key);
    if (open) return open.unfit ? undefined : open.text;
    const source = this.disk.get(key);
    return source?.kind === "text" ? source.text : undefined;
  }

  /** @returns whether the file's standing as a site has changed */
  private noteSite(key: string): boolean {
    const text = this.text(key);
    const is = text !== undefined && declaresSite(text);
    if (is === this.sites.has(key)) return false;
    if (is) this.sites.add(key);
    else this.sites.delete(key);
    return true;
  }

  private settle(key: string): Reach {
    const siteChanged = this.noteSite(key);
    const text = this.text(key);
    const group = this.groupOf.get(key);
    if (siteChanged || (group !== undefined || this.aside.has(key)) !== this.knows(key)) {
      this.regroup();
      return "others";
    }
    if (!group) return this.aside.has(key) ? "itself" : "nothing";
    if (text === undefined) {
      const had = group.library.text(key) !== undefined;
      group.library.close(key);
      return had ? "others" : "itself";
    }
    return group.library.change(key, text);
  }

  /** Moves every file into the library it belongs to; libraries that stay keep what they have worked out. */
  private regroup(): void {
    const { homes, aside } = membership({
      keys: new Set([...this.disk.keys(), ...this.opened.keys()]),
      sites: this.sites,
      folders: this.folders,
      folderOf: (key) => this.host.folderOf(key),
      isByLink: (key) => this.byLink.has(key) && this.opened.has(key),
    });
    this.aside = aside;
    this.groupOf.clear();
    for (const name of [...this.groups.keys()]) if (!homes.has(name)) this.groups.delete(name);
    for (const [name, { root, keys }] of homes) {
      let group = this.groups.get(name);
      if (!group) {
        group = { root, library: new Library({ asOf: this.day }), keys };
        this.groups.set(name, group);
      }
      for (const key of group.keys) if (!keys.has(key)) group.library.close(key);
      group.keys = keys;
      for (const key of keys) {
        this.groupOf.set(key, group);
        const text = this.text(key);
        if (text === undefined) group.library.close(key);
        else group.library.change(key, text);
      }
    }
    if (this.inventories.size > 0) for (const group of this.groups.values()) this.takeInventories(group);
  }

  private takeInventories(group: Group): void {
    for (const [key, text] of this.inventories) {
      const owner = this.inventoryOwner(key);
      const name = this.inventories.nameOf(key);
      if (owner === undefined || owner === group.root) group.library.openInventory(name, text);
      else group.library.close(name);
    }
    const names = new Set([...this.inventories.keys()].map((key) => this.inventories.nameOf(key)));
    for (const name of group.library.inventoryFiles()) if (!names.has(name)) group.library.close(name);
  }

  /** The nearest library above an inventory. */
  private inventoryOwner(key: string): string | undefined {
    let folder = this.host.folderOf(key);
    while (folder !== undefined && !this.isLibrary(folder)) folder = this.host.folderOf(folder);
    return folder;
  }

  /** What the library calls a file. */
  nameOf(key: string): string {
    return this.inventories.has(key) ? this.inventories.nameOf(key) : key;
  }
}
