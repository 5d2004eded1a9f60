/** Judges a recipe once more as it would be with one figure or one name mended. Nothing of it is shown: it tells what follows from that figure. */
import type { Recipe, Stock } from "../model/declaration.ts";
import type { DeclarationOf, Lookup } from "../model/lookup.ts";
import { readChunk } from "../model/read-chunk.ts";
import type { Spot } from "../model/slots.ts";
import type { ChunkFinding, Surroundings } from "./chunk-finding.ts";
import type { LibraryContext } from "./context.ts";
import { regrade, silence } from "./grading.ts";
import { judgeRecipe, judgeWritten } from "./judge-recipe.ts";
import type { Mend } from "./mended-figures.ts";

/** @returns nothing where the text with it is no recipe of that name any more */
export function judgeMended(mend: Mend, library: LibraryContext, around: Surroundings): Judged | undefined {
  return mend.stock ? withStock(mend, mend.stock, library, around) : withRecipe(mend, library, around);
}

export interface Judged {
  text: string;
  findings: readonly ChunkFinding[];
}

function withRecipe({ at, also = [], text }: Mend, library: LibraryContext, around: Surroundings): Judged | undefined {
  const chunk = { ...fileOf(library), text: replaced(library.chunk.text, [at, ...also], text) };
  const reading = readChunk(chunk);
  const { declaration } = library;
  const isSame = (each: typeof declaration): each is Recipe =>
    each.kind === "recipe" && declaration.kind === "recipe" && each.name.name === declaration.name.name;
  const recipe = reading.declarations.find(isSame);
  if (!recipe || reading.problems.length > library.reading.problems.length) return undefined;
  return judged(recipe, { ...library, chunk, reading, declaration: recipe }, around);
}

function withStock({ at, text }: Mend, stock: Stock, library: LibraryContext, around: Surroundings) {
  const chunk = { ...stock.chunk, file: stock.chunk.file!, text: replaced(stock.chunk.text, [at], text) };
  const found = readChunk(chunk).declarations.find(
    (each) => each.kind === "stock" && each.name.name === stock.name.name,
  );
  if (found?.kind !== "stock" || library.declaration.kind !== "recipe") return undefined;
  const lookup = new WithStock(around.lookup, found);
  return judged(library.declaration, { ...library, lookup }, { ...around, lookup });
}

function judged(recipe: Recipe, library: LibraryContext, around: Surroundings): Judged {
  const findings: ChunkFinding[] = [];
  judgeWritten(recipe, library, findings);
  judgeRecipe(recipe, library, around, findings, undefined);
  regrade(findings, around.policy);
  silence(findings, recipe, library.chunk, around);
  return { text: library.chunk.text, findings };
}

function replaced(whole: string, places: readonly Spot[], text: string): string {
  const fromBehind = [...places].sort((a, b) => b.start - a.start);
  return fromBehind.reduce((changed, { start, end }) => changed.slice(0, start) + text + changed.slice(end), whole);
}

function fileOf({ chunk: { file } }: LibraryContext): { file?: string } {
  return file === undefined ? {} : { file };
}

/** The library, with one stock in the place of that of its name. */
class WithStock implements Lookup {
  constructor(
    private readonly library: Lookup,
    private readonly stock: Stock,
  ) {}

  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
    const found = this.library.find(kind, name);
    return kind === "stock" && name === this.stock.name.name ? (this.stock as DeclarationOf[K]) : found;
  }

  any(name: string) {
    const found = this.library.any(name);
    return found?.kind === "stock" && name === this.stock.name.name ? this.stock : found;
  }

  second(name: string, kind?: keyof DeclarationOf) {
    return this.library.second(name, kind);
  }

  namesTwice() {
    return this.library.namesTwice();
  }

  site() {
    return this.library.site();
  }

  lots(stock: string) {
    return this.library.lots(stock);
  }

  names(kind: Parameters<Lookup["names"]>[0]) {
    return this.library.names(kind);
  }
}
