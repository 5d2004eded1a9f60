/** `10 tmes`: behind a number stands a word of the line, misspelt, and no unit. */
import type { Spot } from "../../model/slots.ts";
import type { ChunkContext } from "../context.ts";
import { problemsNamed } from "../problems.ts";
import { nearWords } from "../structure/near-words.ts";
import { linesOf } from "./figures.ts";

/** Whether the line does not fit just at a supposed unit, and a word that is a slip away belongs there. */
export function isSlipOfWord({ reading }: ChunkContext, unit: Spot): boolean {
  const misfits = [...problemsNamed(reading, "step-not-understood"), ...problemsNamed(reading, "fact-not-understood")];
  return misfits.some(({ problem }) => {
    if (problem.start !== unit.start) return false;
    const line = linesOf(reading).find((l) => l.start <= problem.start && problem.start <= l.end);
    return line !== undefined && nearWords(problem, line).length > 0;
  });
}
