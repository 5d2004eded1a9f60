/** Whether what is told of a slip leads to the line that it stands on. */
import type { Finding } from "../../shared/finding.ts";

export interface Slip {
  /** The text with the slip in it. */
  text: string;
  /** Lines of it that differ from the right one, from 1. */
  lines: readonly number[];
}

/** Where a text differs from the right one; what only says whether dead space counts follows from a volume and is no slip of its own. */
export function slipIn(right: string, wrong: string): Slip {
  const plain = (line: string | undefined) => line?.replace(/ dead-space (?:in|ex)cluded/, "");
  const before = right.split("\n");
  const lines = wrong.split("\n").flatMap((line, i) => (plain(line) === plain(before[i]) ? [] : [i + 1]));
  return { text: wrong, lines };
}

const lineAt = (text: string, offset: number): number => text.slice(0, offset).split("\n").length;

/**
 * A finding stands on the line, has a related place there, or says the very figure that is written there.
 * @param figure the wrong figure as it is written
 */
export function leadsTo({ text, lines }: Slip, figure: string, { span, related, fixes, message }: Finding): boolean {
  const places = [
    span,
    ...related.map((place) => place.span),
    ...fixes.flatMap(({ edits }) => edits.map((edit) => edit.span)),
  ];
  if (places.some(({ start, end }) => lines.some((line) => lineAt(text, start) <= line && line <= lineAt(text, end))))
    return true;
  return said(figure, message) || related.some((place) => said(figure, place.message));
}

/** The number with its unit, not as a part of a longer one. */
function said(figure: string, words: string): boolean {
  const plain = figure.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
  return new RegExp(`(?<![\\d.,])${plain}(?![\\w/])`).test(words);
}
