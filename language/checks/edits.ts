/** Edits that fixes are made of, in the chunk at hand. */
import type { Step } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import { lineEndAt, lineStartAt } from "../syntax/lines.ts";
import type { Edit } from "./check.ts";

export function replaceText(at: Spot, text: string): Edit {
  return { at, text };
}

/** A new step on its own line above `step`, with the same indentation. */
export function stepBefore(chunkText: string, step: Step, line: string): Edit {
  const lineStart = lineStartAt(chunkText, step.start);
  const indent = chunkText.slice(lineStart, step.start).match(/^[ \t]*/)![0];
  return { at: { start: lineStart, end: lineStart }, text: `${indent}${line}\n` };
}

/** A new step on its own line below `step`. */
export function stepAfter(chunkText: string, step: Step, line: string): Edit {
  const lineStart = lineStartAt(chunkText, step.start);
  const indent = chunkText.slice(lineStart, step.start).match(/^[ \t]*/)![0];
  const end = lineEndAt(chunkText, step.end);
  return { at: { start: end, end }, text: `\n${indent}${line}` };
}

/** Takes the whole line at `spot` out. */
export function withoutLine(chunkText: string, spot: Spot): Edit {
  const lineEnd = lineEndAt(chunkText, spot.end);
  const newline = /^(\r\n|\r|\n)?/.exec(chunkText.slice(lineEnd, lineEnd + 2))![0];
  return { at: { start: lineStartAt(chunkText, spot.start), end: lineEnd + newline.length }, text: "" };
}
