/** Answers the questions of a server in a worker about files, from the editor's file systems. See shared/web-files.ts. */
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import {
  type ListFilesParams,
  type ListFilesResult,
  listFilesRequest,
  type ReadFileParams,
  type ReadFileResult,
  readFileRequest,
} from "../../../shared/web-files.ts";

export function answerFileRequests(client: BaseLanguageClient): vscode.Disposable {
  return vscode.Disposable.from(
    client.onRequest(listFilesRequest, ({ folder, deep, records }: ListFilesParams) =>
      filesIn(vscode.Uri.parse(folder), deep, records ? /\.approvals\.json$/ : /\.misce$/i),
    ),
    client.onRequest(readFileRequest, ({ uri }: ReadFileParams) => read(vscode.Uri.parse(uri))),
  );
}

async function filesIn(folder: vscode.Uri, deep: boolean, ending: RegExp): Promise<ListFilesResult> {
  const found: string[] = [];
  let entries: [string, vscode.FileType][];
  try {
    entries = await vscode.workspace.fs.readDirectory(folder);
  } catch {
    // Gone between the question and the answer, or not a folder: it holds no recipe then.
    return found;
  }
  for (const [name, type] of entries) {
    const uri = vscode.Uri.joinPath(folder, name);
    if (type & vscode.FileType.Directory) {
      const hidden = name.startsWith(".") || name === "node_modules";
      // A link to a folder may lead in a circle.
      if (deep && !hidden && !(type & vscode.FileType.SymbolicLink)) found.push(...(await filesIn(uri, deep, ending)));
    } else if (ending.test(name)) found.push(uri.toString());
  }
  return found.sort();
}

async function read(uri: vscode.Uri): Promise<ReadFileResult> {
  try {
    return { bytes: base64(await vscode.workspace.fs.readFile(uri)) };
  } catch (error) {
    if (error instanceof vscode.FileSystemError && error.code === "FileNotFound") return null;
    throw error;
  }
}

function base64(bytes: Uint8Array): string {
  const piece = 0x8000; // a call takes only so many arguments
  let text = "";
  for (let i = 0; i < bytes.length; i += piece) text += String.fromCharCode(...bytes.subarray(i, i + piece));
  return btoa(text);
}
