/** Brings the files of the workspace into the session, and keeps them as the disk has them. */
import type { FileEvent } from "vscode-languageserver-protocol";
import { declaresSite } from "../language/syntax/declares-site.ts";
import { isRecord } from "./approval-records.ts";
import { covers } from "./folders.ts";
import type { Source } from "./host.ts";
import type { Serving } from "./serving.ts";

/** Reads all workspace folders, the libraries that they lie in, and those of files already open. */
export async function readWorkspace(serving: Serving): Promise<void> {
  const { session } = serving;
  const folders = [...session.folders];
  for (const folder of folders) await readFolder(serving, folder);
  for (const folder of folders) await readLibraryAbove(serving, folder);
  for (const document of [...session.openDocuments()]) await readLibraryOf(serving, document.key);
  await noteLinks(serving);
  await serving.approvals.records.readAll(serving);
  await readInventories(serving);
}

/** For a file outside the workspace: the library that it belongs to, complete, as the command line would open it. */
export async function readLibraryOf(serving: Serving, key: string): Promise<boolean> {
  const { session, host } = serving;
  const folder = host.folderOf(key);
  if (folder === undefined) return false;
  for (const known of session.folders) if (covers(known, key)) return false;
  const found = await libraryRoot(serving, folder);
  if (found === undefined || foldersRead(serving).some((known) => covers(known, found))) return false;
  session.libraryFolders.add(found);
  await readFolder(serving, found);
  return true;
}

/** A workspace folder may be a part of a library whose site stands further up. */
async function readLibraryAbove(serving: Serving, folder: string): Promise<void> {
  const { session, host } = serving;
  if (session.isLibrary(folder)) return; // every file in it belongs to this library or to one further down
  const above = host.folderOf(folder);
  const root = above === undefined ? undefined : await libraryRoot(serving, above);
  if (root === undefined || session.libraryFolders.has(root)) return;
  session.libraryFolders.add(root);
  await readFolder(serving, root);
}

async function libraryRoot(serving: Serving, from: string): Promise<string | undefined> {
  for (let folder: string | undefined = from; folder !== undefined; folder = serving.host.folderOf(folder)) {
    for (const key of await serving.host.recipesIn(folder)) {
      const source = await serving.host.read(key);
      if (source?.kind === "text" && declaresSite(source.text)) return folder;
    }
  }
  return undefined;
}

/** Takes a folder as the disk has it now: new and changed files in, vanished ones out. */
async function readFolder(serving: Serving, folder: string): Promise<void> {
  const { session, host } = serving;
  const sources: [string, Source | undefined][] = [];
  const there = new Set(await host.recipesUnder(folder));
  // Together: a thousand turns of the machine's queue one after another cost more than the reading.
  const read = await Promise.all([...there].map((key) => host.read(key)));
  for (const [i, key] of [...there].entries()) sources.push([key, read[i]]);
  for (const key of session.keys()) if (covers(folder, key) && !there.has(key)) sources.push([key, undefined]);
  session.setDisks(sources);
}

/** Whether the file is known from a folder that is read whole, so that opening it asks nothing of the disk. */
export function isRead(serving: Serving, key: string): boolean {
  return serving.session.hasRead(key) && foldersRead(serving).some((folder) => covers(folder, key));
}

function foldersRead({ session }: Serving): string[] {
  return [...session.folders, ...session.libraryFolders];
}

/** The text of a file on the disk, undefined where there is none or no check of a known folder comes by it. */
export async function readAsChecked(serving: Serving, key: string): Promise<Source | undefined> {
  if (!serving.session.hasRead(key) && !(await isCameBy(serving, key))) return undefined;
  return serving.host.read(key);
}

async function isCameBy(serving: Serving, key: string): Promise<boolean> {
  for (const folder of foldersRead(serving))
    if (covers(folder, key) && (await serving.host.reaches(folder, key))) return true;
  return false;
}

/** An open file that the library has under another name is no second one. @returns whether others are known as such than before */
export async function noteLinks(serving: Serving): Promise<boolean> {
  const { session } = serving;
  const found = new Set<string>();
  for (const { key } of session.openDocuments()) {
    if (session.hasRead(key) || !foldersRead(serving).some((folder) => covers(folder, key))) continue;
    if ((await serving.host.read(key)) && !(await isCameBy(serving, key))) found.add(key);
  }
  return session.setByLink(found);
}

/** Everything again from the disk: after renamed or deleted folders, whose files no event names. */
export async function rereadWorkspace(serving: Serving): Promise<void> {
  for (const folder of foldersRead(serving)) await readFolder(serving, folder);
  await noteLinks(serving);
  await serving.approvals.records.readAll(serving);
  await readInventories(serving);
}

export async function takeFileEvents(serving: Serving, events: readonly FileEvent[]): Promise<void> {
  const { session, host } = serving;
  if (events.some((e) => !/\.(misce|csv|approvals\.json)$/i.test(e.uri))) return rereadWorkspace(serving);
  const sources = new Map<string, Source | undefined>();
  for (const { uri } of events) {
    const key = host.keyOf(uri);
    if (!/\.misce$/i.test(key)) continue;
    // The disk is asked whatever kind is told: a file deleted and put back is told of in either order.
    if (!sources.has(key)) sources.set(key, await readAsChecked(serving, key));
  }
  if (sources.size > 0) session.setDisks(sources);
  await noteLinks(serving);
  const records = new Set(events.map((e) => host.keyOf(e.uri)).filter(isRecord));
  for (const key of records) await serving.approvals.records.readOne(serving, key);
  await serving.approvals.records.readNew(serving);
  if (events.some((e) => /\.csv$/i.test(e.uri))) await readInventories(serving);
}

/** The inventory exports that the settings name, there or not. */
export function namedInventories({ session, host, settings }: Serving): Set<string> {
  const bases = session.folders.size > 0 ? [...session.folders] : ["/"];
  return new Set(settings.inventory.flatMap((path) => bases.map((base) => host.resolve(base, path))));
}

export async function readInventories(serving: Serving): Promise<void> {
  const { session, host, connection } = serving;
  const wanted = namedInventories(serving);
  for (const key of session.inventoryKeys()) if (!wanted.has(key)) session.setInventory(key, undefined);
  for (const key of wanted) {
    const source = await host.read(key);
    if (source?.kind === "text") session.setInventory(key, source.text);
    else {
      session.setInventory(key, undefined);
      connection.console.warn(
        `misce: the inventory ${key} ${source ? "cannot be used" : "is not there"}; its lots are not counted.`,
      );
    }
  }
}
