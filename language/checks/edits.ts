/** Edits that fixes are made of, in the chunk at hand. */
import type { Step } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import type { Edit } from "./check.ts";

export function replaceText(at: Spot, text: string): Edit {
  return { at, text };
}

/** A new step on its own line above `step`, with the same indentation. */
export function stepBefore(chunkText: string, step: Step, line: string): Edit {
  const lineStart = chunkText.lastIndexOf("\n", step.start - 1) + 1;
  const indent = chunkText.slice(lineStart, step.start).match(/^[ \t]*/)![0];
  return { at: { start: lineStart, end: lineStart }, text: `${indent}${line}\n` };
}

/** A new step on its own line below `step`. */
export function stepAfter(chunkText: string, step: Step, line: string): Edit {
  const lineStart = chunkText.lastIndexOf("\n", step.start - 1) + 1;
  const indent = chunkText.slice(lineStart, step.start).match(/^[ \t]*/)![0];
  const lineEnd = chunkText.indexOf("\n", step.end);
  const end = lineEnd < 0 ? chunkText.length : lineEnd;
  return { at: { start: end, end }, text: `\n${indent}${line}` };
}

/** Takes the whole line at `spot` out. */
export function withoutLine(chunkText: string, spot: Spot): Edit {
  const start = chunkText.lastIndexOf("\n", spot.start - 1) + 1;
  const newline = chunkText.indexOf("\n", spot.end);
  return { at: { start, end: newline < 0 ? chunkText.length : newline + 1 }, text: "" };
}
