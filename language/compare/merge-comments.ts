/** Comments in a merge: they mean nothing to the bench, but somebody wrote them, and they are never lost. */
import type { LinePart, MergePart } from "./merge-parts.ts";

/** A row of comments that lost the statement it stood at. */
export function commentRow(comments: readonly string[], indent: string): LinePart {
  const none = { statement: undefined, word: "", block: "", declarationKind: "" };
  const lead = comments.map((comment) => `${indent}${comment}\n`).join("");
  return { kind: "line", lead, text: "", key: "comment", identity: "comment", ...none };
}

/** Comments that the dropped parts brought: neither in the common state nor in what was chosen. */
export function lostComments(
  base: readonly MergePart[],
  dropped: readonly MergePart[],
  chosen: readonly MergePart[],
): string[] {
  const known = new Set([...base, ...chosen].flatMap(commentsOf));
  return [...new Set(dropped.flatMap(commentsOf))].filter((comment) => !known.has(comment));
}

/** The chosen part, with the comments of the other above it. */
export function withComments<P extends MergePart>(chosen: P, base: MergePart, dropped: MergePart): P {
  const lost = lostComments([base], [dropped], [chosen]);
  return lost.length === 0 ? chosen : { ...chosen, lead: chosen.lead + commentRow(lost, indentOf(chosen)).lead };
}

export function indentOf(part: MergePart): string {
  return /^[ \t]*/.exec(part.kind === "line" ? part.text : part.head)![0];
}

function commentsOf(part: MergePart): string[] {
  if (part.kind === "line") return commentsIn(part.lead + part.text);
  return [...commentsIn(part.lead + part.head), ...part.body.flatMap(commentsOf), ...commentsIn(part.tail)];
}

function commentsIn(text: string): string[] {
  return text.split("\n").flatMap((line) => {
    // A sign inside a text is no comment.
    const at = line.replace(/"[^"]*"/g, (quoted) => " ".repeat(quoted.length)).search(/(?<=^|\s)#/);
    return at < 0 ? [] : [line.slice(at).trim()];
  });
}
