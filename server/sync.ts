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
  const reach = session.open(textDocument.uri, textDocument.version, textDocument.text);
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

export function changeText(serving: Serving, { textDocument, contentChanges }: DidChangeTextDocumentParams): void {
  const reach = serving.session.change(textDocument.uri, textDocument.version, contentChanges);
  serving.publisher.edited(serving.host.keyOf(textDocument.uri), reach);
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

export async function changeFiles(serving: Serving, { changes }: DidChangeWatchedFilesParams): Promise<void> {
  await serving.ready;
  await inTurn(serving, () => takeFileEvents(serving, changes));
  serving.publisher.queueAll();
}

/** Created, renamed and deleted files and folders, as the editor did them itself. */
export async function moveFiles(serving: Serving): Promise<void> {
  await serving.ready;
  await inTurn(serving, () => rereadWorkspace(serving));
  serving.publisher.queueAll();
}

export async function changeFolders(serving: Serving, { event }: DidChangeWorkspaceFoldersParams): Promise<void> {
  await serving.ready;
  const { session, host, publisher } = serving;
  for (const { uri } of event.removed) session.dropFolder(host.keyOf(uri).replace(/(.)\/$/, "$1"));
  for (const { uri } of event.added) session.folders.add(host.keyOf(uri).replace(/(.)\/$/, "$1"));
  await inTurn(serving, () => readWorkspace(serving));
  publisher.queueAll();
}
