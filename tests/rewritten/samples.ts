/** The sample libraries as texts, and what is told of texts as a library. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";

const root = join(import.meta.dirname, "../../samples");

/** Files of a library by their paths. */
export type Texts = ReadonlyMap<string, string>;

/** @param folder below `samples` */
export function textsOf(folder: string): Texts {
  const found = new Map<string, string>();
  const walk = (path: string) => {
    for (const entry of readdirSync(join(root, path), { withFileTypes: true })) {
      const inner = `${path}/${entry.name}`;
      if (entry.isDirectory()) walk(inner);
      else if (entry.name.endsWith(".misce")) found.set(inner, readFileSync(join(root, inner), "utf8"));
    }
  };
  walk(folder);
  return found;
}

/** The folders of `samples/faulty`, one to a finding. */
export function faultyFolders(): string[] {
  return readdirSync(join(root, "faulty")).sort();
}

export function opened(texts: Texts): Library {
  const library = new Library({ asOf: "2026-11-25" });
  for (const [file, text] of texts) library.open(file, text);
  return library;
}

export function findingsOver(library: Library): Finding[] {
  return library.files().flatMap((file) => library.findings(file));
}

/** The supplies and every so manieth recipe, from the k-th on. */
export function share(texts: Texts, k: number, of: number): Texts {
  let recipe = 0;
  return new Map([...texts].filter(([file]) => !file.includes("/recipes/") || recipe++ % of === k % of));
}
