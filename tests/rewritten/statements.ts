/** A file cut into its lines by braces, so that lines and blocks can be put in another order; what is put back unchanged is the same text. */

export interface Block {
  /** `order {`, with its indentation. */
  head: string;
  inner: Statement[];
  /** `}`, with its indentation. */
  tail: string;
}

/** A line with what continues it below, deeper indented; or a block. */
export type Statement = string[] | Block;

export function isBlock(statement: Statement): statement is Block {
  return !Array.isArray(statement);
}

/** @throws Error where braces do not match: a sample that is not written by the formatter */
export function statementsOf(text: string): Statement[] {
  const lines = text.split("\n");
  let k = 0;
  const read = (isInner: boolean): Statement[] => {
    const found: Statement[] = [];
    for (; k < lines.length; k++) {
      const line = lines[k]!;
      const words = line.trim();
      if (words === "}" && isInner) return found;
      const last = found.at(-1);
      if (words.endsWith("{") && !words.startsWith("#")) {
        k++;
        const inner = read(true);
        if (lines[k]?.trim() !== "}") throw new Error(`not closed: ${line}`);
        found.push({ head: line, inner, tail: lines[k]! });
      } else if (last && !isBlock(last) && (isDeeper(line, last[0]!) || words.startsWith("source "))) last.push(line);
      else found.push([line]);
    }
    return found;
  };
  const all = read(false);
  if (k < lines.length) throw new Error("closed too often");
  return all;
}

function isDeeper(line: string, other: string): boolean {
  return line.trim() !== "" && other.trim() !== "" && indent(line) > indent(other);
}

function indent(line: string): number {
  return line.length - line.trimStart().length;
}

export function textOf(statements: readonly Statement[]): string {
  return linesOf(statements).join("\n");
}

function linesOf(statements: readonly Statement[]): string[] {
  return statements.flatMap((s) => (isBlock(s) ? [s.head, ...linesOf(s.inner), s.tail] : s));
}

/** Every block's inner statements as another list, from the innermost outward. @param above heads of the blocks around, outermost first */
export function eachBlock(
  statements: readonly Statement[],
  change: (block: Block, above: readonly string[]) => Statement[],
  above: readonly string[] = [],
): Statement[] {
  return statements.map((s) => {
    if (!isBlock(s)) return s;
    const inner = eachBlock(s.inner, change, [...above, wordOf(s)]);
    return { ...s, inner: change({ ...s, inner }, above) };
  });
}

/** `order` of `order {`, `recipe` of `recipe magnesium-4g {`. */
export function wordOf(statement: Statement): string {
  return (isBlock(statement) ? statement.head : statement[0]!).trim().split(/\s+/)[0]!;
}
