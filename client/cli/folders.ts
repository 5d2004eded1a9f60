/** The folders of one run, each listed once: files are looked for in them, and the roots of libraries. */
import { type Dirent, readdirSync } from "node:fs";

export class Folders {
  private readonly known = new Map<string, readonly Dirent[]>();

  /** Entries in the order of their names. @throws where the folder cannot be listed */
  entries(folder: string): readonly Dirent[] {
    let entries = this.known.get(folder);
    if (!entries) {
      entries = readdirSync(folder, { withFileTypes: true }).sort((a, b) => byCodeUnit(a.name, b.name));
      this.known.set(folder, entries);
    }
    return entries;
  }
}

export function byCodeUnit(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
