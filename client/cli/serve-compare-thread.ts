/** The second thread's side of a comparison: opens the same texts and answers the parts that it takes from the list. */
import { parentPort } from "node:worker_threads";
import type { PartAnswer } from "../../language/compare/compare.ts";
import { handfulOfParts, opened } from "./compare-pair.ts";
import type { Engine } from "./engine-contract.ts";
import { type CompareJob, SharedList } from "./second-thread.ts";

export function isCompareJob(data: unknown): data is CompareJob {
  return typeof data === "object" && data !== null && (data as Partial<CompareJob>).misce === "compare-thread";
}

export async function serveCompareThread({ asOf, pair, taken }: CompareJob, engine: Engine): Promise<void> {
  const maker = await engine.meanings?.();
  if (!maker) return;
  const comparing = maker.comparing(await opened(pair.before, engine, asOf), await opened(pair.after, engine, asOf));
  const list = new SharedList(taken, comparing.parts.length, handfulOfParts);
  const done: [number, PartAnswer][] = [];
  for (let parts = list.next(); parts; parts = list.next()) {
    for (let part = parts[0]; part < parts[1]; part++) {
      done.push([part, comparing.answer(part)]);
      comparing.release(part);
    }
  }
  parentPort?.postMessage(done);
}
