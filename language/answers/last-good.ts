/**
 * The last state of each recipe in which every step could be read. While a line is broken, what is asked about the rows around it is
 * answered from there, moved by the edit; the rows that the edit touched are answered from the text as it is.
 */
import { planOf } from "../bench/plan.ts";
import type { Library, PlacedChunk } from "../library.ts";
import type { ChunkReading } from "../model/declaration.ts";
import { chunkHead } from "../syntax/chunks.ts";
import { type EditBetween, editBetween } from "./shifted.ts";

interface Good {
  text: string;
  reading: ChunkReading;
}

export interface Earlier {
  /** The recipe as it was, at the place where it stands now. */
  chunk: PlacedChunk;
  edit: EditBetween;
}

export class LastGood {
  private readonly good = new Map<string, Map<string, Good>>();

  /** Call after each edit of an open file. */
  note(library: Library, file: string): void {
    const known = this.good.get(file) ?? new Map<string, Good>();
    this.good.set(file, known);
    for (const chunk of library.chunks(file)) {
      const name = recipeName(chunk.text);
      if (name === undefined || known.get(name)?.text === chunk.text || isBroken(chunk.reading)) continue;
      known.set(name, { text: chunk.text, reading: chunk.reading });
    }
  }

  forget(file: string): void {
    this.good.delete(file);
  }

  /** Undefined where the chunk is whole, or was never seen whole. */
  of(file: string, chunk: PlacedChunk): Earlier | undefined {
    const name = recipeName(chunk.text);
    const good = name === undefined ? undefined : this.good.get(file)?.get(name);
    if (!good || good.text === chunk.text || !isBroken(chunk.reading)) return undefined;
    const { text, reading } = good;
    return { chunk: { file, base: chunk.base, text, lone: undefined, reading }, edit: editBetween(text, chunk.text) };
  }
}

function recipeName(text: string): string | undefined {
  const head = chunkHead(text);
  return head?.word === "recipe" ? head.name : undefined;
}

/** A step that cannot be read, or braces out of place. */
function isBroken({ tree, declarations }: ChunkReading): boolean {
  const recipes = declarations.filter((d) => d.kind === "recipe");
  return tree.problems.length > 0 || recipes.length === 0 || recipes.some((recipe) => planOf(recipe).broken);
}
