/** Compares two states of one library, by two threads where it is much. */

import type { CompareRequest, PartAnswer } from "../../language/compare/compare.ts";
import { declaresSite } from "../../language/syntax/declares-site.ts";
import type { Comparison } from "../../shared/comparison.ts";
import type { LibraryPair } from "./compare-sides.ts";
import type { Engine, MeaningMaker, OpenLibrary } from "./engine-contract.ts";
import { settleForLongRun } from "./long-run.ts";
import { type CompareJob, SharedList, startSecondThread } from "./second-thread.ts";

export interface ComparePairOptions {
  asOf: string;
  /** The program's one file, for a second thread; undefined for one thread only. */
  program: string | undefined;
  about: Omit<CompareRequest, "before" | "after">;
}

/** Fewer files than this are compared before a second thread has read both libraries and is warm. */
const worthTwoThreads = 300;

/** Parts taken at a time: one may take as long as a hundred others. */
export const handfulOfParts = 2;

export async function comparePair(
  pair: LibraryPair,
  engine: Engine,
  maker: MeaningMaker,
  { asOf, program, about }: ComparePairOptions,
): Promise<Comparison> {
  const taken = new SharedArrayBuffer(4);
  const job: CompareJob = { misce: "compare-thread", asOf, pair, taken };
  const isMuch = program !== undefined && filesToCompare(pair) >= worthTwoThreads;
  if (isMuch) settleForLongRun();
  const second = isMuch ? startSecondThread<PartAnswer>(program, job) : undefined;
  const comparing = maker.comparing(await opened(pair.before, engine, asOf), await opened(pair.after, engine, asOf));
  const { parts } = comparing;
  const list = new SharedList(taken, parts.length, handfulOfParts);
  const answers = new Map<number, PartAnswer>();
  const answer = (part: number): void => {
    answers.set(part, comparing.answer(part));
    comparing.release(part);
  };
  for (let some = list.next(); some; some = list.next()) for (let part = some[0]; part < some[1]; part++) answer(part);
  for (const [part, theirs] of (await second) ?? []) answers.set(part, theirs);
  // What a failed thread took and did not give back.
  for (const part of parts.keys()) if (!answers.has(part)) answer(part);
  return comparing.whole(
    parts.map((_, part) => answers.get(part)!),
    about,
  );
}

export async function opened(texts: ReadonlyMap<string, string>, engine: Engine, asOf: string): Promise<OpenLibrary> {
  const library = await engine.library({ asOf });
  for (const [name, text] of texts) library.open(name, text);
  return library;
}

/** About how many: files that differ, and all where one of those declares the site, for it reaches every recipe. */
function filesToCompare({ before, after }: LibraryPair): number {
  const names = new Set([...before.keys(), ...after.keys()]);
  let differing = 0;
  for (const name of names) {
    const texts = [before.get(name), after.get(name)];
    if (texts[0] === texts[1]) continue;
    if (texts.some((text) => text !== undefined && declaresSite(text))) return names.size;
    differing++;
  }
  return differing;
}
