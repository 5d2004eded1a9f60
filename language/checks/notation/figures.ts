/**
 * The figures of a chunk with what is unsafe about how they are written. Names, strings, dates and comments are left aside.
 * Figures that the lexer parts (`1½`, `10^6`, `1/2`, `10 000`) are put together again here, so that they are judged as written.
 */
import type { ChunkReading } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { type HouseStyle, type NotationFault, readMeasure } from "../../quantities/notation.ts";
import type { UnitProblem } from "../../quantities/reading.ts";
import { findUnit } from "../../quantities/unit.ts";
import type { Entry, Line, Token } from "../../syntax/tree.ts";
import type { Repair, Said } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { replaceText } from "../edits.ts";

/** One fault of one figure. */
export interface WrittenFault {
  at: Spot;
  rule: string;
  detail: string;
  /** Number and unit as written. */
  written: string;
  /** The same in its safe form; absent where the author alone knows what was meant. */
  safe: string | undefined;
  edit: { at: Spot; text: string } | undefined;
}

/** A number with the unit behind it, as the tokens stand. */
export interface WrittenFigure extends Spot {
  number: string;
  gap: string;
  unit: string;
  unitSpot: Spot | undefined;
  faults: readonly NotationFault[];
  unitFault: UnitProblem | undefined;
}

let last: { reading: ChunkReading; house: HouseStyle; figures: WrittenFigure[] } | undefined;

/** All figures of a chunk, in order. Every check of one chunk asks in turn, so the last answer is kept. */
export function figuresOf({ reading, policy, chunk }: ChunkContext): readonly WrittenFigure[] {
  if (last?.reading === reading && last.house === policy.house) return last.figures;
  const figures = linesOf(reading).flatMap((line) => figuresIn(line.tokens, chunk.text, policy.house));
  last = { reading, house: policy.house, figures };
  return figures;
}

/** Faults of figures under any of these rules. */
export function faultsNamed(context: ChunkContext, ...rules: string[]): WrittenFault[] {
  return figuresOf(context).flatMap((figure) =>
    figure.faults.filter((f) => rules.includes(f.rule)).map((f) => written(figure, f)),
  );
}

function written(figure: WrittenFigure, fault: NotationFault): WrittenFault {
  const text = figure.number + figure.gap + figure.unit;
  const at = { start: figure.start + fault.start, end: figure.start + fault.end };
  const { replacement } = fault;
  return {
    // A fault that lies between two letters has no width; the whole figure is shown.
    at: fault.start === fault.end ? { start: figure.start, end: figure.end } : at,
    rule: fault.rule,
    detail: fault.detail,
    written: text.trim(),
    safe: replacement === undefined ? undefined : text.slice(0, fault.start) + replacement + text.slice(fault.end),
    edit: replacement === undefined ? undefined : { at, text: replacement },
  };
}

/** The sentence of every check of figures: as written, why not, what instead. */
export function sayWritten({ written: text, detail, safe }: WrittenFault): Said {
  return { text: `Written as ${text}. ${detail}${safe === undefined ? "" : ` Write ${safe}.`}` };
}

export function writeSafe({ edit, safe }: WrittenFault): readonly Repair[] {
  return edit ? [{ title: `Write ${safe}`, edits: [replaceText(edit.at, edit.text)], preferred: true }] : [];
}

/** Every statement of a chunk, heads of blocks included. */
export function linesOf(reading: ChunkReading): Line[] {
  const lines: Line[] = [];
  const visit = (entries: readonly Entry[]): void => {
    for (const entry of entries) {
      lines.push(entry.kind === "line" ? entry : entry.head);
      if (entry.kind === "block") visit(entry.body);
    }
  };
  visit(reading.tree.entries);
  return lines;
}

function figuresIn(tokens: readonly Token[], text: string, house: HouseStyle): WrittenFigure[] {
  const figures: WrittenFigure[] = [];
  for (let i = 0; i < tokens.length; ) {
    const reach = figureAt(tokens, i);
    if (!reach) {
      i++;
      continue;
    }
    const { numberEnd, unit, next } = reach;
    figures.push(judged(text, tokens[i]!.start, numberEnd, unit, house));
    i = next;
  }
  return figures;
}

/** `5 M units` is one number token up to its letter, which belongs to the judging of the unit. */
const scaled = /^([\d.,]+)( ?)(MM|M|K|k)$/;

function judged(
  text: string,
  start: number,
  numberEnd: number,
  unit: Token | undefined,
  house: HouseStyle,
): WrittenFigure {
  const whole = text.slice(start, numberEnd);
  const letter = scaled.exec(whole);
  const number = letter ? letter[1]! : whole;
  const unitStart = letter ? numberEnd - letter[3]!.length : unit?.start;
  const end = unit?.end ?? numberEnd;
  const gap = unitStart === undefined ? "" : text.slice(start + number.length, unitStart);
  const unitText = unitStart === undefined ? "" : text.slice(unitStart, end);
  const { faults, unitFault } = readMeasure(number, gap, unitText, house);
  const unitSpot = unitStart === undefined ? undefined : { start: unitStart, end };
  return { start, end, number, gap, unit: unitText, unitSpot, faults, unitFault };
}

function figureAt(
  tokens: readonly Token[],
  at: number,
): { numberEnd: number; unit: Token | undefined; next: number } | undefined {
  const first = tokens[at]!;
  const second = tokens[at + 1];
  if (isSign(first, vulgar)) return withWordUnit(tokens, first.end, at + 1);
  if (first.kind !== "number" && first.kind !== "ratio") return undefined;
  const glued = second !== undefined && second.start === first.end;
  if (glued && second.kind === "unit" && /^\/\d+$/.test(second.text)) return withWordUnit(tokens, second.end, at + 2);
  if (glued && isSign(second, vulgar)) return withWordUnit(tokens, second.end, at + 2);
  const power = tokens[at + 2];
  if (glued && isSign(second, /^\^$/) && power?.kind === "number") return withUnit(tokens, power.end, at + 3);
  // `10 000`: three figures after one blank look like the rest of the same number.
  if (second?.kind === "number" && /^\d{3}(?!\d)/.test(second.text) && second.start === first.end + 1) {
    return withUnit(tokens, second.end, at + 2);
  }
  return withUnit(tokens, first.end, at + 1);
}

const vulgar = /^[½¼¾]$/;

function isSign(token: Token | undefined, sign: RegExp): boolean {
  return token?.kind === "faulty" && sign.test(token.text);
}

function withUnit(tokens: readonly Token[], numberEnd: number, next: number) {
  const unit = tokens[next]?.kind === "unit" ? tokens[next] : undefined;
  const after = tokens[next + 1];
  // `mg/5 mL`: the unit ends with a figure whose own unit stands behind the blank.
  if (unit && after?.kind === "word" && /\/[\d.,]+$/.test(unit.text) && findUnit(after.text).unit) {
    return { numberEnd, unit: { ...unit, end: after.end }, next: next + 2 };
  }
  return { numberEnd, unit, next: unit ? next + 1 : next };
}

/** Behind a sign the unit is read as a word; it is taken as the unit where it spells one. */
function withWordUnit(tokens: readonly Token[], numberEnd: number, next: number) {
  const word = tokens[next];
  const found = word && (word.kind === "word" || word.kind === "unit") ? findUnit(word.text) : undefined;
  const unit = found?.unit || found?.faults.length ? word : undefined;
  return { numberEnd, unit, next: unit ? next + 1 : next };
}
