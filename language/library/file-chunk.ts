/** A file's chunks: what an edit keeps, and where each stands. */
import type { Span } from "../../shared/finding.ts";
import type { ChunkFinding } from "../checks/chunk-finding.ts";
import type { RangeJudgement } from "../checks/over-range.ts";
import type { Chunk, ChunkReading, Declaration, Place } from "../model/declaration.ts";
import { LeanReading } from "../model/lean-reading.ts";
import { type LoneDeclaration, loneDeclaration } from "../model/lone-declaration.ts";
import { readChunk } from "../model/read-chunk.ts";

let nextChunk = 1;

/** What was found in a chunk, and all that it rests on. */
export interface Judged {
  key: number;
  list: ChunkFinding[];
  /** Recipes whose order has a range, in order of place, by where each begins. */
  judgements: Map<number, { recipe: string; range: RangeJudgement }>;
  looked: Map<string, unknown>;
}

/** One chunk of one file. The object stays the same while its text does; `base` follows edits above it. */
export class FileChunk implements Chunk {
  readonly text: string;
  base: number;
  readonly file: string;
  /** Never given twice. */
  readonly id = nextChunk++;
  private read: ChunkReading | undefined;
  findings: Judged | undefined;

  constructor(file: string, text: string, base: number) {
    this.file = file;
    this.text = text;
    this.base = base;
  }

  get reading(): ChunkReading {
    this.read ??= readChunk(this);
    return this.read;
  }

  /** What it declares, told by a glance; undefined where it has to be read for that. */
  get lone(): LoneDeclaration | undefined {
    this.glance ??= [loneDeclaration(this.text)];
    return this.glance[0];
  }
  private glance: [LoneDeclaration | undefined] | undefined;

  /** Frees what a recipe's reading has beyond what judging it again needs. */
  leanBack(): void {
    const { read } = this;
    if (read instanceof LeanReading) read.forget();
    else if (read && this.lone?.kind === "recipe") {
      const isFaultless = read.problems.length === 0 && read.tree.problems.length === 0;
      this.read = isFaultless ? new LeanReading(this.text, read) : undefined;
    }
  }

  /** Frees the reading of what no other declaration looks into, a recipe or comments alone; it is read again when needed. */
  release(): void {
    if (this.lone?.kind === "recipe" || this.read?.declarations.length === 0) this.read = undefined;
  }
}

/** A file as it stands: its text and the chunks that the text is cut into. */
export interface FileEntry {
  text: string;
  chunks: FileChunk[];
}

/** The file that holds a declaration or a chunk; undefined for what is built in. */
export function fileOf(found: unknown): string | undefined {
  const chunk = found instanceof FileChunk ? found : (found as Declaration | undefined)?.chunk;
  return chunk instanceof FileChunk ? chunk.file : undefined;
}

/** The place of a stretch of a file's chunk in its file. */
export function span(place: Place): Span {
  const chunk = place.chunk as FileChunk;
  return { file: chunk.file, start: chunk.base + place.start, end: chunk.base + place.end };
}
