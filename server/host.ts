/**
 * What the server asks of the machine it runs on: files, the calendar, and timers. The server in a browser has none of Node's
 * modules, so nothing else in this folder may reach for them.
 *
 * A file is known by its key: on disk the path with forward slashes, elsewhere the URI itself. Keys are the library's file names.
 */

import type { NotText } from "../language/syntax/decode.ts";
import type { History } from "./history.ts";

/** What stands behind a key. Nothing is guessed: a file that is not UTF-8 has no text. */
export type Source =
  | { kind: "text"; text: string }
  /** `name` is the finding that the command line gives for such a file. */
  | { kind: "unreadable"; name: "file-not-utf-8" | "file-too-large" | "file-not-read"; reason: string };

export function sourceOf(read: { text: string } | NotText): Source {
  return "text" in read ? { kind: "text", text: read.text } : { kind: "unreadable", ...read };
}

export interface Host {
  keyOf(uri: string): string;
  uriOf(key: string): string;
  /** The key of the folder a file lies in; undefined where there is none above. */
  folderOf(key: string): string | undefined;
  /** Recipe files in and under a folder, by the rules of the command line: no `node_modules`, no folder whose name begins with a dot. */
  recipesUnder(folder: string): Promise<string[]>;
  /** Whether `recipesUnder` of a folder gives a file that lies there under this very name, and not under another that leads to it too. */
  reaches(folder: string, key: string): Promise<boolean>;
  /** Those of `recipesUnder` that a link brings in; absent where links are not followed. */
  linkedUnder?(folder: string): Promise<string[]>;
  /** Recipe files directly in a folder. */
  recipesIn(folder: string): Promise<string[]>;
  /** Records of approvals directly in a folder: what is named so, whether it can be read or not. */
  recordsIn(folder: string): Promise<string[]>;
  /** What version control remembers; absent where it cannot be asked. */
  history?: History;
  /** Undefined where there is no such file. */
  read(key: string): Promise<Source | undefined>;
  /** Changes when a file does (time and size); undefined where there is none. For editors that do not watch files; absent where no disk is. */
  stamp?(key: string): Promise<string | undefined>;
  /** Joins a path as a person writes it in a setting to a folder. */
  resolve(folder: string, path: string): string;
  now(): Date;
  /** Called when a piece of work is done: memory that is no longer needed goes back to the machine, where the host has a way for it. */
  slim?(): void;
  /** @returns how to call it off */
  after(milliseconds: number, run: () => void): () => void;
}

/** Today's date where the machine stands: the pharmacist's calendar, not Greenwich's. */
export function dayOf(now: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${String(now.getFullYear()).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function untilMidnight(now: Date): number {
  return new Date(now.getFullYear(), now.getMonth(), now.getDate() + 1).getTime() - now.getTime();
}
