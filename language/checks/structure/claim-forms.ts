/**
 * What is written beside a step where `= 8 mL` belongs: `= ~8 mL`, `= about 8 mL`, `(8 mL)`, `= 8 mL (4 g)`. The step is not read; here
 * stands what to write instead. Forms: common practice of worksheets, from memory.
 */
import type { Problem } from "../../model/facts.ts";
import { measureAt } from "../../model/form-match.ts";
import { findUnit } from "../../quantities/unit.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import { word as wordOf } from "../problems.ts";
import type { OrderForm } from "./order-forms.ts";

const inWords = /^(?:half|one|two|three|four|five|six|seven|eight|nine|ten) /i;
const round = /^(?:about|around|approx\S*|circa|ca\.?|c\.|some|roughly|nearly|[~≈≃∼]|=)/i;
const limit = /^(?:[<>≤≥]|up to |at (?:least|most) |max\S* |min\S* |less |more |not )/i;
const spread = /^(?:±|\+ ?\/? ?-)/;
/** What stands in front of a figure instead of `=`; `equal pressure` begins otherwise. */
const leadIn =
  /^(?:is|are|makes?|equals?(?: to)?(?= ?[=~≈\d])|i\.e\.|ie|that|to give|gives|total|volume|[:(→[]|- ?>|= ?>)/i;

const exact = "Beside a step stands the figure that the bench must come to";

/** Undefined where what does not fit is no figure beside the step. */
export function claimForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  if (!line) return undefined;
  const { tokens } = line;
  const found = tokens.findIndex((t) => t.start === problem.start && t.end === problem.end);
  const at = found < 0 || wordOf(problem, "found") === "" ? tokens.length : found;
  const rest = restOf(tokens, at);
  const equals = tokens.findLastIndex((t, i) => i < at && t.kind === "equals");
  return equals < 0 ? instead(tokens, at, rest) : behindEquals(tokens, equals, at, rest);
}

function behindEquals(tokens: readonly Token[], equals: number, at: number, rest: string): OrderForm | undefined {
  const stated = measureAt(tokens, equals + 1);
  if (stated?.value.unit && stated.next <= at) {
    // The figure is whole, and what is missing stands before it: `at = 8 mL`.
    if (rest === "") return undefined;
    const text = spread.test(rest)
      ? `${exact}; by how much a dose may miss is \`tolerance\` of the site.`
      : `${exact}, alone.`;
    const last = tokens.at(-1)!;
    const behind = { start: stated.value.end, end: last.end };
    return { text: `${text} Leave out \`${rest}\`.`, instead: { at: behind, text: "" } };
  }
  if (at >= tokens.length && stated) return { text: `Write the unit behind ${stated.value.number.text}, such as mL.` };
  if (inWords.test(rest)) return { text: "Write the number in figures." };
  if (limit.test(rest))
    return { text: `${exact}, no limit. Write it behind \`=\`; least and most are joined by \`to\`.` };
  return round.test(rest) ? onlyFigure(tokens, equals, at) : undefined;
}

/** No `=` is there. */
function instead(tokens: readonly Token[], at: number, rest: string): OrderForm | undefined {
  const alone = measureAt(tokens, at);
  if (alone?.value.unit && alone.next === tokens.length) return onlyFigure(tokens, at, at);
  return leadIn.test(rest) || round.test(rest) || spread.test(rest) ? onlyFigure(tokens, at, at) : undefined;
}

/** The one figure from there on, with `=` in front of it; undefined where there is none, or more than one. */
function onlyFigure(tokens: readonly Token[], from: number, at: number): OrderForm | undefined {
  const numbers = tokens.flatMap((t, i) => (i >= at && t.kind === "number" ? [i] : []));
  const figure = numbers.length === 1 ? measureAt(tokens, numbers[0]!) : undefined;
  // `(8 mL)`: the bracket stands in the unit.
  const unit = figure?.value.unit?.text.replace(/[)\]]$/, "") ?? "";
  if (!figure || findUnit(unit).unit?.dimension.key !== "volume") return undefined;
  if (!/^(?:[)\]]|exactly|approx\S*)?$/.test(restOf(tokens, figure.next))) return undefined;
  const text = `= ${figure.value.number.text} ${unit}`;
  return {
    text: `${exact}. Write \`${text}\`, if it is just that.`,
    instead: { at: { start: tokens[from]!.start, end: tokens.at(-1)!.end }, text },
  };
}

function restOf(tokens: readonly Token[], at: number): string {
  return tokens
    .slice(at)
    .map((t, i) => (i > 0 && t.start > tokens[at + i - 1]!.end ? ` ${t.text}` : t.text))
    .join("");
}
