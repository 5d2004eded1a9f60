/**
 * A line that cannot be read is told once. Where a finding about notation or units stands at the very cause, with its remedy,
 * the general finding "this does not fit" would only repeat it. A finding that the site has switched off tells nothing, so the
 * general one then stays: a line that is not used is never passed over in silence.
 */
import type { Problem } from "../../model/facts.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import type { ChunkContext } from "../context.ts";
import { figuresOf, linesOf } from "./figures.ts";
import { isSlipOfWord } from "./slip-of-word.ts";
import { unitsAheadOfNumbers } from "./units-ahead.ts";
import { hidesSomething } from "./unseen.ts";
import { writtenDates } from "./written-dates.ts";

export function isToldElsewhere(context: ChunkContext, problem: Problem): boolean {
  const on = (check: string) => context.policy.severities.get(check) !== "off";
  const line = linesOf(context.reading).find((l) => l.start <= problem.start && problem.start <= l.end);
  if (!line) return false;
  const at = line.tokens.findIndex((t) => t.start <= problem.start && problem.start < t.end);
  const token = at < 0 ? undefined : line.tokens[at];
  if (token && tokenIsTold(token, on)) return true;
  if (on("date-not-iso") && writtenDates(line.tokens).some((d) => d.start <= problem.start)) return true;
  if (on("unit-before-number") && unitsAheadOfNumbers(line.tokens).some((u) => overlaps(u, problem))) return true;
  return on("unknown-unit") && afterUnknownUnit(context, line, problem);
}

function tokenIsTold(token: Token, on: (check: string) => boolean): boolean {
  if (token.kind !== "faulty") return false;
  if (token.fault === "hyphen-range") return on("range-with-hyphen");
  if (token.fault === "date-shape") return on("date-not-iso");
  if (token.fault === "string-not-closed") return on("text-not-closed");
  if (hidesSomething(token.text)) return on("unseen-character");
  return token.fault === "name-not-ascii" && on("foreign-letter");
}

/** A unit that is not known fits nowhere, and nothing behind it: `2 saline-bag`, `4 g/bag`, `4 USB units`. */
function afterUnknownUnit(context: ChunkContext, line: Line, problem: Problem): boolean {
  return figuresOf(context).some(
    (f) =>
      f.unitFault !== undefined &&
      f.unitFault.text !== "" &&
      !(f.unitSpot && isSlipOfWord(context, f.unitSpot)) &&
      line.start <= f.start &&
      (f.end <= problem.start || f.unitSpot?.start === problem.start) &&
      problem.start <= line.end,
  );
}

function overlaps(a: { start: number; end: number }, b: { start: number; end: number }): boolean {
  return a.start <= b.start && b.start < a.end;
}
