/** The second thread's side: opens the same library and answers for the files that it takes from the list. */
import { parentPort } from "node:worker_threads";
import { type Answer, answerFile } from "./answer-file.ts";
import type { Engine } from "./engine-contract.ts";
import { type Job, SharedList } from "./second-thread.ts";

export function isJob(data: unknown): data is Job {
  return typeof data === "object" && data !== null && (data as Partial<Job>).misce === "second-thread";
}

export async function serveSecondThread({ asOf, known, texts, asked, taken }: Job, engine: Engine): Promise<void> {
  const library = await engine.library(known ? { asOf, known } : { asOf });
  for (const { file, text, isInventory } of texts) {
    if (isInventory) library.openInventory(file, text);
    else library.open(file, text);
  }
  const list = new SharedList(taken, asked.length);
  const done: [number, Answer][] = [];
  for (let places = list.next(); places; places = list.next()) {
    for (let place = places[0]; place < places[1]; place++) done.push([place, answerFile(library, asked[place]!)]);
  }
  parentPort?.postMessage(done);
}
