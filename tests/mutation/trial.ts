/** Tries every fault on every sample recipe and says which are told, which are harmless, and which are missed. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { allRuns } from "../../language/checks/judge-recipe.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { harmless } from "./harmless.ts";
import {
  deletionMutants,
  figureMutants,
  lotMutants,
  type Mutant,
  type StockOnShelf,
  stockMutants,
  swapMutants,
  unitMutants,
} from "./mutants.ts";

export interface Trial {
  mutant: Mutant;
  recipe: string;
  /** Names of the findings of error or warning severity that it raises. */
  told: string[];
  harmless: string | undefined;
}

const root = join(import.meta.dirname, "../../samples");
export const asOf = "2026-11-25";

function misceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? misceFiles(path) : path.endsWith(".misce") ? [path] : [];
  });
}

/** @param folder a library under `samples` */
export function* trials(folder: string): Iterable<Trial> {
  const texts = new Map(misceFiles(join(root, folder)).map((f) => [relative(root, f), readFileSync(f, "utf8")]));
  const library = new Library({ asOf });
  for (const [file, text] of texts) library.open(file, text);
  const shelf = shelfOf(texts);
  const lotsFile = [...texts.keys()].find((f) => f.endsWith("lots.misce"))!;
  for (const [file, text] of texts) {
    if (!file.includes("/recipes/")) continue;
    const before = outcome(library, file);
    const used = shelf.filter((s) => new RegExp(`^    \\S+ .*${s.name}\\b`, "m").test(text)).map((s) => s.name);
    const mutants = [
      ...figureMutants(file, text),
      ...unitMutants(file, text),
      ...deletionMutants(file, text),
      ...swapMutants(file, text),
      ...stockMutants(file, text, shelf),
      ...lotMutants(lotsFile, texts.get(lotsFile)!, used),
    ];
    for (const mutant of mutants) {
      library.change(mutant.file, mutant.text);
      const findings = new Set([...library.findings(file), ...library.findings(mutant.file)]);
      const told = [...findings].filter((f) => !f.silenced && f.severity !== "note").map((f) => f.name);
      const excuse =
        told.length > 0
          ? undefined
          : harmless(mutant, text, {
              sameOutcome: () => outcome(library, file) === before,
              unpreserved: () => unpreserved(library, file),
            });
      library.change(mutant.file, texts.get(mutant.file)!);
      yield { mutant, recipe: file, told: [...new Set(told)], harmless: excuse };
    }
  }
}

function recipesOf(library: Library, file: string): Recipe[] {
  return library.chunks(file).flatMap((c) => c.reading.declarations.filter((d) => d.kind === "recipe"));
}

function unpreserved(library: Library, file: string): boolean {
  const around = library.surroundings();
  const runs = recipesOf(library, file).flatMap((recipe) => allRuns(recipe, around));
  const reached = new Set(runs.flatMap((run) => run.finals.flatMap((v) => v.liquid.stocks)));
  return [...reached].every((name) => {
    const facts = around.lookup.find("stock", name)?.facts;
    const what = facts?.one("preservative")?.slots.what.name;
    return what === "none" || (what === undefined && facts?.one("doses")?.slots.doses.choice !== "multiple");
  });
}

/** What the finished containers hold at both ends of the order, as text to compare. */
function outcome(library: Library, file: string): string {
  return recipesOf(library, file)
    .flatMap((recipe) => allRuns(recipe, library.surroundings()))
    .flatMap((run) => run.finals)
    .map((v) => `${v.liquid.volume.toText()} ${[...v.liquid.amounts].map(([d, a]) => `${d} ${a.toText()}`).sort()}`)
    .join("; ");
}

function shelfOf(texts: ReadonlyMap<string, string>): StockOnShelf[] {
  return [...texts.values()].flatMap((text) =>
    [...text.matchAll(/^stock (\S+) \{([\s\S]*?)^\}/gm)].flatMap(([, name, body]) => {
      const of = /^\s+(?:drug|fluid)\s+(\S+)/m.exec(body!)?.[1];
      const container = /^\s+container\s+(\S+)/m.exec(body!)?.[1];
      return of && container ? [{ name: name!, of, container }] : [];
    }),
  );
}
