/** Single damages of a text: what a slip of the hand, a bad merge or a lost line does to it. */

export const damageKinds = [
  "line-deleted",
  "open-brace-deleted",
  "close-brace-deleted",
  "line-doubled",
  "heads-swapped",
  "line-halved",
  "lines-joined",
  "brace-inserted",
  "quote-deleted",
  "cut-off",
] as const;
export type DamageKind = (typeof damageKinds)[number];

export interface Damage {
  kind: DamageKind;
  /** Of the damaged text, from zero; where the damage lies, or the line above which something is missing. */
  line: number;
  /** What was hit, for the message of a failing test. */
  what: string;
  text: string;
}

const isHead = (line: string): boolean => line.trimEnd().endsWith("{");

/** Every single damage of a text. */
export function* damagesOf(text: string): Iterable<Damage> {
  const lines = text.split("\n");
  if (lines.at(-1) === "") lines.pop();
  const joined = (changed: readonly string[]) => `${changed.join("\n")}\n`;
  for (const [line, written] of lines.entries()) {
    const what = written.trim();
    const put = (kind: DamageKind, removed: number, ...by: string[]): Damage => {
      const changed = [...lines];
      changed.splice(line, removed, ...by);
      return { kind, line, what, text: joined(changed) };
    };
    if (what === "") continue;
    yield put("line-deleted", 1);
    if (isHead(written)) yield put("open-brace-deleted", 1, written.slice(0, written.lastIndexOf("{")).trimEnd());
    if (what === "}") yield put("close-brace-deleted", 1, "");
    yield put("line-doubled", 1, written, written);
    const heads = nextHead(lines, line);
    if (heads !== undefined) {
      const changed = [...lines];
      [changed[line], changed[heads]] = [changed[heads]!, changed[line]!];
      yield { kind: "heads-swapped", line, what, text: joined(changed) };
    }
    const indent = written.length - written.trimStart().length;
    if (what.length > 1) yield put("line-halved", 1, written.slice(0, indent + (what.length >> 1)));
    if (line + 1 < lines.length) yield put("lines-joined", 2, `${written} ${lines[line + 1]!.trimStart()}`);
    yield put("brace-inserted", 0, `${" ".repeat(indent)}}`);
    yield put("brace-inserted", 0, `${" ".repeat(indent)}{`);
    for (const quote of [written.indexOf('"'), written.lastIndexOf('"')]) {
      if (quote >= 0) yield put("quote-deleted", 1, written.slice(0, quote) + written.slice(quote + 1));
    }
    if (line > 0)
      yield { kind: "cut-off", line: line - 1, what: lines[line - 1]!.trim(), text: joined(lines.slice(0, line)) };
  }
}

/** The line of the next head where this line is one too: `order {` and `materials {`. */
function nextHead(lines: readonly string[], line: number): number | undefined {
  if (!isHead(lines[line]!)) return undefined;
  const next = lines.findIndex((l, i) => i > line && isHead(l));
  return next < 0 ? undefined : next;
}
