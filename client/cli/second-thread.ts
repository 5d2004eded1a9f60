/**
 * A second thread for long runs. Both threads hold all texts and take places from one list, a few at a time, so that neither waits
 * for the other; which thread answers makes no difference to the answer (tested).
 */
import { Worker } from "node:worker_threads";
import type { NamedText } from "./answer-memory.ts";
import type { LibraryPair } from "./compare-sides.ts";
import type { KnownErrors } from "./known-errors.ts";

/** What the second thread is started with, for a check. */
export interface Job {
  misce: "second-thread";
  asOf: string;
  /** Errors that are not shown. */
  known: KnownErrors | undefined;
  texts: readonly NamedText[];
  asked: readonly string[];
  /** One 32-bit number: how many of `asked` are taken. */
  taken: SharedArrayBuffer;
}

/** The same for a comparison. */
export interface CompareJob {
  misce: "compare-thread";
  asOf: string;
  pair: LibraryPair;
  /** One 32-bit number: how many parts of the comparison are taken. */
  taken: SharedArrayBuffer;
}

/** First word of the second thread's command line. Telling the threads apart by it spares the first one a module of Node's. */
export const secondThreadWord = "--second-thread";

/** A small nursery keeps the whole program's memory low; what lives longer is not limited. */
const resourceLimits = { maxYoungGenerationSizeMb: 24 };

/** Files of a check taken at a time. */
const files = 8;

/** Places in a list that two threads share; each place is given out once. */
export class SharedList {
  private readonly count: Int32Array;

  constructor(
    taken: SharedArrayBuffer,
    private readonly length: number,
    /** Places given out at a time. */
    private readonly handful = files,
  ) {
    this.count = new Int32Array(taken);
  }

  /** From and up to (not with) the places to do next; undefined when all are taken. */
  next(): [from: number, to: number] | undefined {
    const from = Atomics.add(this.count, 0, this.handful);
    return from < this.length ? [from, Math.min(from + this.handful, this.length)] : undefined;
  }

  get taken(): number {
    return Math.min(Atomics.load(this.count, 0), this.length);
  }
}

/** Starts it. @returns its answers by place in the list; none where the thread failed, and its places are to be done again. */
export function startSecondThread<A>(program: string, job: Job | CompareJob): Promise<Map<number, A>> {
  return new Promise((resolve) => {
    const answers = new Map<number, A>();
    try {
      const worker = new Worker(program, { argv: [secondThreadWord], workerData: job, stderr: true, resourceLimits });
      worker.on("message", (done: [number, A][]) => {
        for (const [place, answer] of done) answers.set(place, answer);
      });
      worker.on("error", () => resolve(answers));
      worker.on("exit", () => resolve(answers));
    } catch {
      resolve(answers);
    }
  });
}
