/**
 * What several checks ask of the same finished run, worked out once. A run never changes once it is made, so that an answer holds
 * for as long as the run does; with traced numbers each run has a trace of its own, which the first asking has told everything.
 */
import { keptWith } from "../model/kept-with.ts";
import type { Run } from "./run.ts";
import type { Vessel } from "./things.ts";

/** The same question, with its answer kept for each run. Answers are shared and must not be changed. */
export function oncePerRun<T>(ask: (run: Run) => T): (run: Run) => T {
  return keptWith(ask);
}

/** The same of one vessel of the run. */
export function oncePerVessel<T>(ask: (vessel: Vessel, run: Run) => T): (vessel: Vessel, run: Run) => T {
  const ofRun = oncePerRun(() => new Map<Vessel, { answer: T }>());
  return (vessel, run) => {
    const answers = ofRun(run);
    let known = answers.get(vessel);
    if (!known) {
      known = { answer: ask(vessel, run) };
      answers.set(vessel, known);
    }
    return known.answer;
  };
}
