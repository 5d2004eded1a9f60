/**
 * What a library and a file are called in fingerprints: the same from whatever folder the command is run in. The top of the working
 * copy of a version control is what both places share; without one the working folder stands in for it.
 */
import { existsSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { realPath } from "./real-path.ts";
import type { SourceStore } from "./source-store.ts";

const inventory = "inventory ";

export class StableNames {
  private readonly tops = new Map<string, string | undefined>();
  private readonly roots = new Map<string, string>();
  private readonly rootOf = new Map<string, string>();

  constructor(private readonly store: Pick<SourceStore, "cwd" | "pathOf">) {}

  /** Of a library's folder as reports name it; empty for none. Two libraries of one run never share a name. */
  root(named: string): string {
    if (named === "") return "";
    let name = this.roots.get(named);
    if (name === undefined) {
      name = this.file(named);
      if ((this.rootOf.get(name) ?? named) !== named) name = `${name} at ${named}`;
      this.rootOf.set(name, named);
      this.roots.set(named, name);
    }
    return name;
  }

  file(named: string): string {
    const path = realPath(this.store.pathOf(named));
    const top = this.topAbove(path);
    if (top === undefined) return named;
    const name = relative(top, path) || ".";
    return sep === "\\" ? name.replaceAll("\\", "/") : name;
  }

  /** A finding about an inventory names it by its file. */
  subject(subject: string): string {
    return subject.startsWith(inventory) ? `${inventory}${this.file(subject.slice(inventory.length))}` : subject;
  }

  /** The nearest folder, this one or one above it, that version control works in (`.git` is a file in a second working copy). */
  private topAbove(path: string): string | undefined {
    if (this.tops.has(path)) return this.tops.get(path);
    const above = dirname(path);
    const top = existsSync(join(path, ".git")) ? path : above === path ? undefined : this.topAbove(above);
    this.tops.set(path, top);
    return top;
  }
}
