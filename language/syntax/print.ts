/** Prints a tree back: tokens, comments, and the blanks between them, give exactly the text that was read. */
import { blankClass } from "./characters.ts";
import type { Entry, Line, Token, Tree } from "./tree.ts";

/** All tokens of a tree in the order of the text. */
export function allTokens(tree: Tree): Token[] {
  const tokens: Token[] = [];
  collect(tree.entries, tokens);
  return tokens;
}

function collect(entries: readonly Entry[], into: Token[]): void {
  for (const entry of entries) {
    if (entry.kind === "line") collectLine(entry, into);
    else {
      collectLine(entry.head, into);
      if (entry.open.text !== "") into.push(entry.open);
      collect(entry.body, into);
      if (entry.close) into.push(entry.close);
    }
  }
}

function collectLine(line: Line, into: Token[]): void {
  for (const token of line.tokens) into.push(token);
}

/** The text rebuilt from the tree. Only blanks are taken from the text itself; anything else that is missing shows as missing. */
export function printTree(tree: Tree): string {
  const parts: string[] = [];
  const { text, comments } = tree;
  let at = 0;
  let nextComment = 0;
  const put = (start: number, end: number, printed: string) => {
    parts.push(blanksOf(text, at, start), printed);
    at = end;
  };
  for (const token of allTokens(tree)) {
    for (; nextComment < comments.length && comments[nextComment]!.start < token.start; nextComment++) {
      const { start, end } = comments[nextComment]!;
      put(start, end, text.slice(start, end));
    }
    put(token.start, token.end, token.text);
  }
  for (; nextComment < comments.length; nextComment++) {
    const { start, end } = comments[nextComment]!;
    put(start, end, text.slice(start, end));
  }
  parts.push(blanksOf(text, at, text.length));
  return parts.join("");
}

const noBlank = new RegExp(`[^${blankClass}\\r\\n\\uFEFF]`, "g");

function blanksOf(text: string, start: number, end: number): string {
  return text.slice(start, end).replace(noBlank, "");
}
