/** What reading left over, as facts for the checks of the same names. */

import { planOf } from "../bench/plan.ts";
import type { ChunkReading } from "../model/declaration.ts";
import type { Problem, ProblemName } from "../model/facts.ts";
import type { Spot } from "../model/slots.ts";

export interface FoundProblem {
  at: Spot;
  problem: Problem;
}

/** Problems of declarations, blocks and steps of one chunk. */
export function problemsNamed(reading: ChunkReading, name: ProblemName): FoundProblem[] {
  if (last?.reading !== reading) last = { reading, problems: problemsOf(reading) };
  return last.problems.filter((p) => p.name === name).map((problem) => ({ at: problem, problem }));
}

let last: { reading: ChunkReading; problems: readonly Problem[] } | undefined;

function problemsOf(reading: ChunkReading): Problem[] {
  return [...reading.problems, ...reading.declarations.flatMap((d) => (d.kind === "recipe" ? planOf(d).problems : []))];
}

export function word(problem: Problem, key: string): string {
  const value = problem.data[key];
  return Array.isArray(value) ? value.join(", ") : (value ?? "");
}

export function near(problem: Problem): string[] {
  const value = problem.data.near;
  return Array.isArray(value) ? value : [];
}
