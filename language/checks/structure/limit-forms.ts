/**
 * Limits as monographs write them: `0.5 to 2 mg/mL`, `max 4 mg/mL`, `≥ 1 mg/mL`. The line is not read, since it does not say whether the
 * figures themselves are allowed; here stands what to write instead. Forms: common practice of monographs, from memory.
 */
import type { Problem } from "../../model/facts.ts";
import { measureAt } from "../../model/form-match.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import { word } from "../problems.ts";
import { misfitAt } from "./misfit.ts";
import type { OrderForm } from "./order-forms.ts";

const words: readonly (readonly [pattern: RegExp, own: string])[] = [
  [/^(?:< ?=|≤|max\.?|maximum|at most|(?:not|no) more than|not (?:exceeding|above|over)|until|to)$/i, "up to"],
  [/^(?:> ?=|≥|min\.?|minimum|at least|(?:not|no) less than|not (?:below|under)|starting at)$/i, "from"],
  [/^(?:<|less than|under|lower than)$/i, "below"],
  [/^(?:>|more than|over|greater than|higher than|exceeding)$/i, "above"],
];

/** What the line means and how it is written; undefined where it states no limits, or that is not known. */
export function limitForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  if (!line || !word(problem, "form").includes("LIMITS")) return undefined;
  const at = misfitAt(problem, line);
  if (at < 1) return undefined;
  const number = line.tokens.findIndex((t, i) => i >= at && t.kind === "number");
  if (number < 0) return undefined;
  const before = textOf(line.tokens.slice(at, number));
  if (before === "" || before === "between") return bothEnds(line.tokens, at, number) ?? oneEnd(line.tokens, number);
  const own = words.find(([pattern]) => pattern.test(before))?.[1];
  const end = line.tokens[number - 1]?.end;
  if (own === undefined || end === undefined) return undefined;
  return { text: `Write \`${own}\` for \`${before}\`.`, instead: { at: { start: problem.start, end }, text: own } };
}

/** `0.5 mg/mL to 2 mg/mL`, `0.5 to 2 mg/mL`, `between 0.5 and 2 mg/mL`. */
function bothEnds(tokens: readonly Token[], at: number, number: number): OrderForm | undefined {
  const hasUnit = tokens[number + 1]?.kind === "unit";
  const joint = number + (hasUnit ? 2 : 1);
  if (!/^(?:to|and|-|–|—)$/.test(tokens[joint]?.text ?? "")) return undefined;
  const high = measureAt(tokens, joint + 1)?.value;
  const unit = hasUnit ? tokens[number + 1]!.text : high?.unit?.text;
  if (!high?.unit || unit === undefined) return undefined;
  const text = `from ${tokens[number]!.text} ${unit} up to ${high.number.text} ${high.unit.text}`;
  return {
    text: `Limits say whether their ends are allowed: write \`${text}\`, or \`above\` and \`below\` where an end is not.`,
    instead: { at: { start: tokens[at]!.start, end: high.end }, text },
  };
}

function oneEnd(tokens: readonly Token[], number: number): OrderForm | undefined {
  const figure = measureAt(tokens, number)?.value;
  if (!figure?.unit) return undefined;
  const written = `${figure.number.text} ${figure.unit.text}`;
  return { text: `Say which end it is: \`up to ${written}\` for the most, \`from ${written}\` for the least.` };
}

function textOf(tokens: readonly Token[]): string {
  return tokens.map(({ text }) => text).join(" ");
}
