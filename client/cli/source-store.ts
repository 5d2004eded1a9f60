/** The files of one run: each read once, under the name by which engine and reports know it. */
import { closeSync, fstatSync, openSync, readFileSync } from "node:fs";
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

  /** `cwd` absolute: names are relative to it. */
  constructor(readonly cwd: string) {}

  /** Name of an absolute path in reports: relative to the working folder, with forward slashes on every system. */
  nameOf(path: string): string {
    let name = this.names.get(path);
    if (name === undefined) {
      name = relative(this.cwd, path) || ".";
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
      handle = openSync(path, "r");
      const { size } = fstatSync(handle);
      if (size > largestFile) return { kind: "finding", finding: tooLarge(this.nameOf(path), size) };
      const decoded = decode(readFileSync(handle), this.nameOf(path));
      return "text" in decoded ? { kind: "text", text: decoded.text } : { kind: "finding", finding: decoded.finding };
    } catch (error) {
      return { kind: "unreadable", reason: reasonOf(error) };
    } finally {
      if (handle !== undefined) closeSync(handle);
    }
  }
}
