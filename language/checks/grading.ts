/** What the site and a recipe's deviations make of findings: graded anew, or silenced. */
import type { Chunk, Recipe } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import type { Spot } from "../model/slots.ts";
import { lineEndAt, lineStartAt } from "../syntax/lines.ts";
import { checkFailed } from "./check-failed.ts";
import { type ChunkFinding, type Surroundings, subjectOf } from "./chunk-finding.ts";
import { deviationHolds, isBeyondDeviations } from "./deviations.ts";

/** Severities as the site has them. */
export function regrade(findings: ChunkFinding[], policy: Policy): void {
  for (const finding of findings) {
    if (finding.check === checkFailed) continue;
    const level = policy.severities.get(finding.name);
    if (level && level !== "off") finding.severity = level;
  }
}

/** A deviation silences the findings of its name at its place: `on NAME` means the finding's words or step name that thing. */
export function silence(findings: ChunkFinding[], recipe: Recipe, chunk: Chunk, around: Surroundings): void {
  for (const deviation of recipe.deviations) {
    if (!deviationHolds(deviation, around)) continue;
    const name = deviation.check.name;
    if (around.policy.neverSilenced.has(name) || isBeyondDeviations(name)) continue;
    for (const finding of findings) {
      if (finding.name !== name || finding.silencedBy || finding.subject !== subjectOf(recipe)) continue;
      if (deviation.on && !concerns(finding, deviation.on.name, recipe, chunk)) continue;
      finding.silencedBy = deviation;
      break; // one deviation, one place: a second fault of the same kind is not hidden by the first
    }
  }
}

/** Whether a finding is about a thing of the recipe: its own words name it, the step it stands in does, or it stands in its block. */
export function concerns(finding: ChunkFinding, thing: string, recipe: Recipe, chunk: Chunk): boolean {
  const isWithin = (fact: Spot) => fact.start <= finding.at.start && finding.at.end <= fact.end;
  if (recipe.preparations.some((p) => p.name.name === thing && p.facts.every().some(isWithin))) return true;
  const step = recipe.steps.find((s) => s.start <= finding.at.start && finding.at.start <= s.end);
  const within = step ?? lineAround(chunk.text, finding.at);
  const text = chunk.text.slice(within.start, within.end);
  const words = text.split(/[\s,]+/);
  return words.includes(thing);
}

function lineAround(text: string, at: Spot): Spot {
  return { start: lineStartAt(text, at.start), end: lineEndAt(text, at.end) };
}
