/** The files of one run: each read once, under the name by which engine and reports know it. */
import { closeSync, constants, fstatSync, openSync, readFileSync, readSync, type Stats } from "node:fs";
import { relative, resolve, sep } from "node:path";
import { largestFile } from "../../language/syntax/decode.ts";
import type { Finding } from "../../shared/finding.ts";
import { reasonOf } from "./cannot-run.ts";
import { decode, tooLarge } from "./decode.ts";
import { Folders } from "./folders.ts";

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
    let handle: number | undefined;
    try {
      handle = openSync(path, withoutWaiting);
      const stats = fstatSync(handle);
      if (stats.isFIFO()) return { kind: "unreadable", reason: "it is a pipe, not a file" };
      if (stats.size > largestFile) return { kind: "finding", finding: tooLarge(this.nameOf(path), stats.size) };
      const decoded = decode(bytesOf(handle, stats), this.nameOf(path));
      return "text" in decoded ? { kind: "text", text: decoded.text } : { kind: "finding", finding: decoded.finding };
    } catch (error) {
      return { kind: "unreadable", reason: reasonOf(error) };
    } finally {
      if (handle !== undefined) closeSync(handle);
    }
  }
}

/** Opening a pipe would wait for a writer, for ever if there is none. Windows has no such pipes and no such flag. */
const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** Taken again for every file: thousands are read in a run, and each is made a string at once. */
const shared = Buffer.allocUnsafe(64 * 1024);

/** The bytes of a file; those of a small one stay only until the next is read. */
function bytesOf(handle: number, stats: Stats): Buffer {
  // What has no size of its own (a pipe, a file of the system) is read to its end.
  if (!stats.isFile() || stats.size === 0 || stats.size > shared.length) return readFileSync(handle);
  let length = 0;
  while (length < stats.size) {
    const read = readSync(handle, shared, length, stats.size - length, null);
    if (read === 0) break;
    length += read;
  }
  return shared.subarray(0, length);
}
