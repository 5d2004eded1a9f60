/** What is told beneath another finding is still told. */
import { evaluateChunk, judgeChunk } from "../../language/checks/evaluate.ts";
import type { Library } from "../../language/library.ts";

/** The words of findings that stand neither on their own nor, with their first sentence, beneath another. */
export function lost(library: Library, file: string): { lost: string[]; isFolded: boolean } {
  const around = library.surroundings();
  let isFolded = false;
  const all = library.chunks(file).flatMap((chunk) => {
    const own = judgeChunk(chunk, chunk.reading, around);
    const folded = evaluateChunk(chunk, chunk.reading, around);
    if (folded.length < own.length) isFolded = true;
    if (own.some((f) => f.severity === "error") && !folded.some((f) => f.severity === "error")) return ["every error"];
    const isLeft = (f: (typeof own)[number]) =>
      folded.some((other) => other.at.start === f.at.start && other.message === f.message) ||
      folded.some(
        ({ severity, related }) =>
          severity !== "note" && related.some(({ at, text }) => at.start === f.at.start && f.message.startsWith(text)),
      );
    return own.filter((f) => !isLeft(f)).map((f) => f.message);
  });
  return { lost: all, isFolded };
}
