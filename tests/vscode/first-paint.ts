/**
 * Colours lines by the TextMate grammar: as much of that format as the grammar uses (match, begin and end, captures, includes).
 * At each place the pattern that matches first wins, the one listed first of equals. Stands in for the editor's own, whose
 * regular expressions know more; those of the grammar keep to what both read alike.
 */
import type { Grammar } from "../../client/vscode/syntaxes/grammar.ts";

type Rule = Grammar["patterns"][number];

/** A piece of a line and the scope that colours it; empty for plain text. */
export type Piece = [text: string, scope: string];

interface Open {
  rule: Rule;
  patterns: readonly Rule[];
}

export function firstPaint(grammar: Grammar, text: string): Piece[][] {
  let open: Open[] = [{ rule: {}, patterns: grammar.patterns }];
  return text.split("\n").map((line) => {
    const painted = new Array<string>(line.length).fill("");
    let at = 0;
    for (let turns = 0; turns < 1000; turns++) {
      const top = open.at(-1)!;
      const found = next(grammar, top, line, at);
      if (top.rule.name && !top.rule.match) paint(painted, at, found?.match.index ?? line.length, top.rule.name);
      if (!found) break;
      const { rule, match, isEnd } = found;
      colour(painted, rule, match, isEnd);
      if (isEnd) open = open.slice(0, -1);
      else if (rule.begin) open = [...open, { rule, patterns: rule.patterns ?? [] }];
      const end = match.index + match[0].length;
      if (end === at && !isEnd && !rule.begin) at++;
      else at = end;
      if (at > line.length) break;
    }
    return pieces(line, painted);
  });
}

interface Found {
  rule: Rule;
  match: RegExpExecArray;
  isEnd: boolean;
}

function next(grammar: Grammar, { rule, patterns }: Open, line: string, at: number): Found | undefined {
  const end = rule.end === undefined ? [] : [{ rule, source: rule.end, isEnd: true }];
  const others = flat(grammar, patterns).map((r) => ({ rule: r, source: r.match ?? r.begin ?? "(?!)", isEnd: false }));
  let best: Found | undefined;
  for (const candidate of [...end, ...others]) {
    const pattern = new RegExp(candidate.source.replace(/\\x\{([0-9A-F]+)\}/g, "\\u{$1}"), "dgu");
    pattern.lastIndex = at;
    const match = pattern.exec(line);
    if (match && (!best || match.index < best.match.index)) best = { ...candidate, match };
  }
  return best;
}

function flat(grammar: Grammar, patterns: readonly Rule[]): Rule[] {
  return patterns.flatMap((p) => (p.include ? flat(grammar, [grammar.repository[p.include.slice(1)]!]) : [p]));
}

function colour(painted: string[], rule: Rule, match: RegExpExecArray, isEnd: boolean): void {
  const end = match.index + match[0].length;
  if (rule.name) paint(painted, match.index, end, rule.name);
  const captures = rule.match ? rule.captures : isEnd ? rule.endCaptures : rule.beginCaptures;
  for (const [group, { name }] of Object.entries(captures ?? {})) {
    const place = match.indices?.[Number(group)];
    if (place) paint(painted, place[0], place[1], name);
  }
}

function paint(painted: string[], from: number, to: number, scope: string): void {
  painted.fill(scope, from, to);
}

function pieces(line: string, painted: readonly string[]): Piece[] {
  const found: Piece[] = [];
  for (let i = 0; i < line.length; i++) {
    const last = found.at(-1);
    if (last && last[1] === painted[i]) last[0] += line[i];
    else found.push([line[i]!, painted[i]!]);
  }
  return found;
}
