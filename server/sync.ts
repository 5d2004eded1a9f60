/** Texts as the editor opens, changes and closes them, and files as the disk changes. */
import type {
  DidChangeTextDocumentParams,
  DidChangeWatchedFilesParams,
  DidChangeWorkspaceFoldersParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
  DidSaveTextDocumentParams,
} from "vscode-languageserver-protocol";
import { inTurn } from "./in-turn.ts";
import type { Serving } from "./serving.ts";
import {
  isRead,
  noteLinks,
  readAsChecked,
  readLibraryOf,
  readWorkspace,
  rereadWorkspace,
  takeFileEvents,
} from "./workspace.ts";

export async function openText(serving: Serving, { textDocument }: DidOpenTextDocumentParams): Promise<void> {
  const { session, publisher, host } = serving;
  const key = host.keyOf(textDocument.uri);
  const reach = session.open(textDocument.uri, numberOf(textDocument), textDocument.text);
  if (publisher.held) return; // what is open is looked at when the workspace has been read
  const before = session.group(key);
  if (!isRead(serving, key)) {
    const isOther = await inTurn(serving, async () => {
      const hasRead = await readLibraryOf(serving, key);
      await serving.approvals.records.readNew(serving);
      return (await noteLinks(serving)) || hasRead;
    });
    if (isOther) publisher.queueAll();
    if (session.group(key) !== before) return;
  }
  publisher.edited(key, reach);
}

/** Some editors do not count, or count in words of their own. */
function numberOf({ version }: { version: number }): number | null {
  return Number.isInteger(version) ? version : null;
}

export function changeText(serving: Serving, { textDocument, contentChanges }: DidChangeTextDocumentParams): void {
  const { session, publisher, connection } = serving;
  if (!session.openAt(textDocument.uri))
    connection.console.warn(`misce: textDocument/didChange names ${textDocument.uri}, which is not open.`);
  const reach = session.change(textDocument.uri, numberOf(textDocument), contentChanges);
  publisher.edited(serving.host.keyOf(textDocument.uri), reach);
}

/** After a notification that could not be taken in: a text of which a change is lost is no longer taken for what the author sees. */
export function loseChange({ session, publisher, host }: Serving, method: string, params: unknown): void {
  if (method !== "textDocument/didChange") return;
  const uri: unknown = (params as { textDocument?: { uri?: unknown } } | null)?.textDocument?.uri;
  if (typeof uri === "string") publisher.edited(host.keyOf(uri), session.leaveBehind(uri));
}

/** The disk is read again on closing: what was typed and not saved is gone. */
export async function closeText(serving: Serving, { textDocument }: DidCloseTextDocumentParams): Promise<void> {
  const { session, publisher, host } = serving;
  const key = host.keyOf(textDocument.uri);
  const before = session.openAt(textDocument.uri);
  await inTurn(serving, async () => session.setDisk(key, await readAsChecked(serving, key)));
  // Where reading takes a while, the file may have been opened again in the meantime: that text stays.
  if (session.openAt(textDocument.uri) !== before) return;
  publisher.edited(key, session.close(textDocument.uri));
}

export async function saveText(serving: Serving, { textDocument }: DidSaveTextDocumentParams): Promise<void> {
  const key = serving.host.keyOf(textDocument.uri);
  await inTurn(serving, async () => serving.session.setDisk(key, await readAsChecked(serving, key)));
}

export async function changeFiles(serving: Serving, params: DidChangeWatchedFilesParams | null): Promise<void> {
  await serving.ready;
  const changes: unknown = params?.changes;
  // Where it is not said what has changed, anything may have.
  const isTold = Array.isArray(changes) && changes.every((e) => typeof e?.uri === "string");
  await inTurn(serving, () => (isTold ? takeFileEvents(serving, changes) : rereadWorkspace(serving)));
  serving.publisher.queueAll();
}

/** Created, renamed and deleted files and folders, as the editor did them itself. */
export async function moveFiles(serving: Serving): Promise<void> {
  await serving.ready;
  await inTurn(serving, () => rereadWorkspace(serving));
  serving.publisher.queueAll();
}

export async function changeFolders(serving: Serving, params: DidChangeWorkspaceFoldersParams | null): Promise<void> {
  await serving.ready;
  const { session, publisher } = serving;
  for (const key of folderKeys(serving, params?.event?.removed)) session.dropFolder(key);
  for (const key of folderKeys(serving, params?.event?.added)) session.folders.add(key);
  await inTurn(serving, () => readWorkspace(serving));
  publisher.queueAll();
}

/** Workspace folders as keys. One without an address is left aside and told. */
export function folderKeys({ host, connection }: Serving, folders: unknown): string[] {
  if (!Array.isArray(folders)) return [];
  return folders.flatMap((folder: { uri?: unknown } | null) => {
    const uri = folder?.uri;
    if (typeof uri === "string") return [host.keyOf(uri).replace(/(.)\/$/, "$1")];
    connection.console.warn("misce: a workspace folder without a URI is left aside.");
    return [];
  });
}
