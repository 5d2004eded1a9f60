/**
 * A recipe with another stock in the place of one: judged by all checks as if its author had written it so, and held against the
 * recipe as it is. Nothing in the library is changed.
 */
import type { ChunkFinding, Surroundings } from "../checks/chunk-finding.ts";
import { evaluateChunk } from "../checks/evaluate.ts";
import type { Recipe } from "../model/declaration.ts";
import { readChunk } from "../model/read-chunk.ts";

export interface Replacement {
  stock: string;
  by: string;
  /** `works`: nothing new above a note. `needs-changes`: the findings say what. */
  verdict: "works" | "needs-changes";
  /** Findings that appear with the other stock, the gravest first. */
  appear: readonly { name: string; severity: ChunkFinding["severity"]; message: string }[];
}

const grave = ["error", "warning", "note"];

/** Undefined where the recipe does not use the stock. */
export function replaced(recipe: Recipe, stock: string, by: string, around: Surroundings): Replacement | undefined {
  const places = recipe.materials.filter((m) => m.item.name === stock).map((m) => m.item);
  if (places.length === 0) return undefined;
  let text = recipe.chunk.text;
  for (const { start, end } of [...places].sort((a, b) => b.start - a.start)) {
    text = text.slice(0, start) + by + text.slice(end);
  }
  const before = new Map<string, number>();
  for (const finding of standing(recipe.chunk.text, around)) {
    const key = keyOf(finding, recipe.chunk.text);
    before.set(key, (before.get(key) ?? 0) + 1);
  }
  const appear = standing(text, around)
    .filter((finding) => {
      const key = keyOf(finding, text);
      const known = before.get(key) ?? 0;
      before.set(key, known - 1);
      return known <= 0;
    })
    .map(({ name, severity, message }) => ({ name, severity, message }))
    .sort((a, b) => grave.indexOf(a.severity) - grave.indexOf(b.severity));
  const verdict = appear.some((f) => f.severity !== "note") ? "needs-changes" : "works";
  return { stock, by, verdict, appear };
}

function standing(text: string, around: Surroundings): ChunkFinding[] {
  const chunk = { text };
  return evaluateChunk(chunk, readChunk(chunk), around).filter((f) => !f.silencedBy);
}

/** With its words: a fault that was there before and now has other figures counts as new, for it may have grown. */
function keyOf({ name, at, message }: ChunkFinding, text: string): string {
  return `${name} ${text.slice(0, at.start).split("\n").length} ${message}`;
}
