/** What a tree says without where it says it: for comparing the readings of two layouts of one text. */
import type { Entry, Tree } from "../../language/syntax/tree.ts";

type Told = string | [head: string, open: string, body: Told[], close: string];

export function toldBy(tree: Tree): { entries: Told[]; comments: string[]; problems: string[] } {
  return {
    entries: tree.entries.map(told),
    comments: tree.comments.map(({ start, end }) => tree.text.slice(start, end)),
    problems: tree.problems.map((p) => p.name),
  };
}

function told(entry: Entry): Told {
  const line = entry.kind === "line" ? entry : entry.head;
  const words = line.tokens.map((t) => `${t.kind}${t.fault ? `(${t.fault})` : ""}:${t.text}`).join(" ");
  if (entry.kind === "line") return words;
  return [words, entry.open.text, entry.body.map(told), entry.close?.text ?? ""];
}
