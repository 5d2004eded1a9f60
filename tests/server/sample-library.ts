/** The sample library in this process, or a part of it. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { Library } from "../../language/library.ts";

export const sampleRoot = "samples/library";

export function filesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesUnder(path) : path.endsWith(".misce") ? [path] : [];
  });
}

export function libraryOf(isIn: (path: string) => boolean): Library {
  const library = new Library({ asOf: "2026-11-25" });
  for (const path of filesUnder(sampleRoot)) if (isIn(path)) library.open(path, readFileSync(path, "utf8"));
  return library;
}
