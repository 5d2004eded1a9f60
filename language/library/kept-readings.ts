/**
 * Readings of recipes that nobody looks at, kept so that a change of what they rest on need not read them again. They take some eight
 * times the memory of their text: so only up to a bound, and those that came first stay, since whoever goes through a library larger
 * than that from one end to the other would else find none of them when he comes back.
 */
import type { FileChunk } from "./file-chunk.ts";

/** Characters of text; some thousand recipes. */
const bound = 2_500_000;

export class KeptReadings {
  private readonly kept = new Set<FileChunk>();
  private size = 0;

  /** Keeps a chunk's reading where there is room for it, and frees it otherwise. */
  keepOrRelease(chunk: FileChunk): void {
    if (this.kept.has(chunk)) {
      chunk.leanBack();
    } else if (this.size + chunk.text.length > bound) {
      chunk.release();
    } else {
      this.kept.add(chunk);
      this.size += chunk.text.length;
      chunk.leanBack();
    }
  }

  /** Of a chunk that is no more, or whose reading is freed. */
  forget(chunk: FileChunk): void {
    if (this.kept.delete(chunk)) this.size -= chunk.text.length;
  }
}
