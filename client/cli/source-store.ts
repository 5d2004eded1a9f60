/** The files of one run: each read once, under the name by which engine and reports know it. */
import { relative, resolve, sep } from "node:path";
import { largestFile } from "../../language/syntax/decode.ts";
import type { Finding } from "../../shared/finding.ts";
import { CannotRun } from "./cannot-run.ts";
import { decode, tooLarge } from "./decode.ts";
import { Folders } from "./folders.ts";
import { readFile } from "./read-file.ts";

/** What stands behind a path: a text, a finding about the whole file, or a reason why it could not be read. */
export type Source =
  | { kind: "text"; text: string }
  | { kind: "finding"; finding: Finding }
  | { kind: "unreadable"; reason: string };

export class SourceStore {
  private readonly sources = new Map<string, Source>();
  private readonly names = new Map<string, string>();
  readonly folders = new Folders();
  private readonly below: string;

  /** `cwd` absolute: names are relative to it. */
  constructor(readonly cwd: string) {
    this.below = cwd.endsWith(sep) ? cwd : cwd + sep;
  }

  /** Name of an absolute path in reports: relative to the working folder, with forward slashes on every system. */
  nameOf(path: string): string {
    let name = this.names.get(path);
    if (name === undefined) {
      // Almost all files lie below the working folder; relative() would take both paths apart for each.
      name = path.startsWith(this.below) ? path.slice(this.below.length) : relative(this.cwd, path) || ".";
      if (sep === "\\") name = name.replaceAll("\\", "/");
      this.names.set(path, name);
    }
    return name;
  }

  pathOf(name: string): string {
    return resolve(this.cwd, name);
  }

  /** Puts a text (standard input) in the place of the file on disk. */
  put(path: string, bytes: Buffer): void {
    const decoded = decode(bytes, this.nameOf(path));
    this.sources.set(path, "text" in decoded ? { kind: "text", ...decoded } : { kind: "finding", ...decoded });
  }

  read(path: string): Source {
    const known = this.sources.get(path);
    if (known) return known;
    const source = this.readFromDisk(path);
    this.sources.set(path, source);
    return source;
  }

  private readFromDisk(path: string): Source {
    const read = readFile(path, { most: largestFile, into: shared });
    if ("reason" in read) return { kind: "unreadable", reason: read.reason };
    if ("tooLarge" in read) return { kind: "finding", finding: tooLarge(this.nameOf(path), read.tooLarge) };
    const decoded = decode(read.bytes, this.nameOf(path));
    return "text" in decoded ? { kind: "text", text: decoded.text } : { kind: "finding", finding: decoded.finding };
  }
}

/** Taken again for every file: thousands are read in a run, and each is made a string at once. */
const shared = Buffer.allocUnsafe(64 * 1024);

/** For an inventory: without its lots a library looks better stocked, or worse, than it is. @throws CannotRun */
export function requireReadable(path: string, store: SourceStore): void {
  const source = store.read(path);
  if (source.kind === "unreadable") throw new CannotRun(`"${store.nameOf(path)}" cannot be read: ${source.reason}.`);
  if (source.kind === "finding") throw new CannotRun(`"${store.nameOf(path)}": ${source.finding.message}`);
}
