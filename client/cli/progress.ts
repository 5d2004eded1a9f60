/** A line on standard error while a long run goes on: only on a terminal, and only when a second has gone by. */
import type { Surroundings } from "./surroundings.ts";

const patience = 1000; // ms before the first line: a short run shows nothing
const pause = 100; // ms between two lines

export class Progress {
  private readonly began: number;
  private last = 0;
  private shown = false;

  constructor(
    private readonly surroundings: Surroundings,
    private readonly isWanted: boolean,
  ) {
    this.began = surroundings.now().getTime();
  }

  tick(done: number, of: number): void {
    if (!this.isWanted || !this.surroundings.stderr.isTerminal) return;
    const now = this.surroundings.now().getTime();
    if (now - this.began < patience || now - this.last < pause) return;
    this.last = now;
    this.shown = true;
    this.surroundings.stderr.write(`\r${done} of ${of} files checked\u001b[K`);
  }

  /** Wipes the line away. */
  end(): void {
    if (this.shown) this.surroundings.stderr.write("\r\u001b[K");
  }
}
