/**
 * A reading without its tree, for recipes that nobody looks at: tree and tokens take more than half of its memory, and whoever judges a
 * recipe again that read without a fault looks at neither. Who asks for them all the same gets them, read once more.
 */
import { parseChunk } from "../syntax/parser.ts";
import type { Block, Tree } from "../syntax/tree.ts";
import type { ChunkReading, Declaration } from "./declaration.ts";
import type { Problem } from "./facts.ts";
import { ReadStep } from "./read-step.ts";

export class LeanReading implements ChunkReading {
  readonly declarations: Declaration[];
  readonly problems: Problem[];
  private parsed: Tree | undefined;

  /** @param text of the chunk; `whole` must be its reading, without problems: tokens of a faulty line cannot be read again from it alone */
  constructor(
    private readonly text: string,
    whole: ChunkReading,
  ) {
    this.declarations = whole.declarations;
    this.problems = whole.problems;
    this.forget();
  }

  get tree(): Tree {
    this.parsed ??= parseChunk(this.text);
    return this.parsed;
  }

  get blocks(): Block[] {
    return this.tree.entries.filter((entry) => entry.kind === "block");
  }

  /** What was asked for in between. */
  forget(): void {
    this.parsed = undefined;
    for (const declaration of this.declarations) {
      if (declaration.kind !== "recipe") continue;
      for (const step of declaration.steps) if (step instanceof ReadStep) step.forgetTokens();
    }
  }
}
