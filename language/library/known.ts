/** What is known of a declaration before it is read. */
import type { Chunk, ChunkReading, Declaration, DeclarationKind } from "../model/declaration.ts";
import { declaresNothing, type LoneDeclaration } from "../model/lone-declaration.ts";
import type { NameSlot } from "../model/slots.ts";
import { FileChunk } from "./file-chunk.ts";

/** A declaration of which only kind and name have been read yet: most runs look into few of them. */
export class KnownByName {
  constructor(
    readonly kind: DeclarationKind,
    readonly name: NameSlot,
    readonly chunk: Chunk & { readonly reading: ChunkReading },
  ) {}
}

export type Known = Declaration | KnownByName;

/** A chunk as far as telling its names takes. */
type ChunkOfNames = Chunk & { readonly lone: LoneDeclaration | undefined; readonly reading: ChunkReading };

export function knownIn(chunk: ChunkOfNames): readonly Known[] {
  const { lone } = chunk;
  if (lone) return [new KnownByName(lone.kind, lone.name, chunk)];
  return declaresNothing(chunk.text) ? [] : chunk.reading.declarations;
}

/**
 * What stands for a declaration when answers are compared: the chunk that declares nothing else, so that nobody has to read it and its
 * tree may be freed; else the declaration itself.
 */
export function mark(known: Known | undefined): Chunk | Declaration | undefined {
  return known instanceof KnownByName ? known.chunk : known;
}

export function recipeNameOf(answer: unknown): string | undefined {
  if (answer instanceof FileChunk) return answer.lone?.kind === "recipe" ? answer.lone.name.name : undefined;
  const declaration = answer as Declaration | string | undefined;
  return typeof declaration === "object" && declaration.kind === "recipe" ? declaration.name.name : undefined;
}

/** Reads the declaration if need be. The same object as in its chunk's reading. */
export function whole(known: Known): Declaration {
  return known instanceof KnownByName ? known.chunk.reading.declarations[0]! : known;
}
