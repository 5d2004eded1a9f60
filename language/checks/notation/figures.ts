/**
 * The figures of a chunk with what is unsafe about how they are written, those in printed words included. Names, other strings,
 * dates and comments are left aside.
 * What the lexer parts otherwise than the unit rules (`5 K units`) is put together again here, so that it is judged as written.
 */
import type { ChunkReading } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { type HouseStyle, type NotationFault, readMeasure } from "../../quantities/notation.ts";
import type { UnitProblem } from "../../quantities/reading.ts";
import type { Entry, Line, Token } from "../../syntax/tree.ts";
import type { Repair, Said } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { isJudgedInText, printedFigures } from "./printed-figures.ts";
import { printedTokens } from "./printed-text.ts";
import { mayHoldDate, writtenDates } from "./written-dates.ts";

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

interface Judged {
  reading: ChunkReading;
  house: HouseStyle;
  figures: WrittenFigure[];
  /** Those with faults: most chunks have none, and most checks ask for nothing else. */
  faulty: WrittenFigure[];
}
let last: Judged | undefined;

/** All figures of a chunk, in order. Every check of one chunk asks in turn, so the last answer is kept. */
export function figuresOf(context: ChunkContext): readonly WrittenFigure[] {
  return judgedFigures(context).figures;
}

function judgedFigures({ reading, policy, chunk }: ChunkContext): Judged {
  if (last?.reading === reading && last.house === policy.house) return last;
  const figures: WrittenFigure[] = [];
  for (const line of linesOf(reading)) figuresIn(line.tokens, chunk.text, policy.house, figures);
  const inWords = printedTokens(reading).flatMap((token) => inText(token, chunk.text, policy.house));
  const faulty = [...figures, ...inWords].filter((f) => f.faults.length > 0);
  last = { reading, house: policy.house, figures, faulty };
  return last;
}

function inText(token: Token, text: string, house: HouseStyle): WrittenFigure[] {
  return printedFigures(token).map(({ start, numberEnd, unit }) => {
    const figure = judged(text, start, numberEnd, unit, house);
    return { ...figure, faults: figure.faults.filter((fault) => isJudgedInText(fault.rule)) };
  });
}

/** Faults of figures under any of these rules. */
export function faultsNamed(context: ChunkContext, ...rules: string[]): WrittenFault[] {
  const { faulty } = judgedFigures(context);
  if (faulty.length === 0) return [];
  return faulty.flatMap((figure) => figure.faults.filter((f) => rules.includes(f.rule)).map((f) => written(figure, f)));
}

function written(figure: WrittenFigure, fault: NotationFault): WrittenFault {
  const text = figure.number + figure.gap + figure.unit;
  const at = { start: figure.start + fault.start, end: figure.start + fault.end };
  const { replacement } = fault;
  // Several faults of one figure are mended together: `10U` with a blank alone, or with the word alone, is unsafe still.
  const mended = replacement === undefined ? undefined : allMended(text, figure.faults, fault);
  const isAlone = figure.faults.length === 1;
  return {
    // A fault that lies between two letters has no width; the whole figure is shown.
    at: fault.start === fault.end ? { start: figure.start, end: figure.end } : at,
    rule: fault.rule,
    detail: fault.detail,
    written: text.trim(),
    safe: mended,
    edit:
      mended === undefined || replacement === undefined
        ? undefined
        : isAlone
          ? { at, text: replacement }
          : { at: { start: figure.start, end: figure.start + text.length }, text: mended },
  };
}

/** The figure with all faults mended that have one safe form; where two overlap, the one that is told. */
function allMended(text: string, faults: readonly NotationFault[], told: NotationFault): string {
  const taken: NotationFault[] = [told];
  for (const fault of faults) {
    if (fault.replacement === undefined) continue;
    if (taken.every((t) => t !== fault && (fault.end <= t.start || t.end <= fault.start))) taken.push(fault);
  }
  return taken
    .sort((a, b) => b.start - a.start || b.end - a.end)
    .reduce((mended, { start, end, replacement }) => mended.slice(0, start) + replacement + mended.slice(end), text);
}

/** The sentence of every check of figures: as written, why not, what instead. Quoted, so that a dot at its end stays its own. */
export function sayWritten({ written: text, detail, safe }: WrittenFault): Said {
  return { text: `Written as \`${text}\`. ${detail}${safe === undefined ? "" : ` Write \`${safe}\`.`}` };
}

export function writeSafe({ edit, safe }: WrittenFault): readonly Repair[] {
  return edit ? [{ title: `Write ${safe}`, edits: [replaceText(edit.at, edit.text)], preferred: true }] : [];
}

let lastLines: { reading: ChunkReading; lines: Line[] } | undefined;

/** Every statement of a chunk, heads of blocks included. */
export function linesOf(reading: ChunkReading): readonly Line[] {
  if (lastLines?.reading !== reading) lastLines = { reading, lines: readLines(reading) };
  return lastLines.lines;
}

/** The statement that a place stands in. */
export function lineAt(reading: ChunkReading, { start, end }: Spot): Line | undefined {
  return linesOf(reading).find((line) => line.start <= start && end <= line.end);
}

let lastFaulty: { reading: ChunkReading; tokens: Token[] } | undefined;

/** Tokens that the lexer found fault with, in order. */
export function faultyTokens(reading: ChunkReading): readonly Token[] {
  if (lastFaulty?.reading !== reading) {
    const tokens: Token[] = [];
    for (const line of linesOf(reading))
      for (const token of line.tokens) if (token.fault !== undefined) tokens.push(token);
    lastFaulty = { reading, tokens };
  }
  return lastFaulty.tokens;
}

function readLines(reading: ChunkReading): Line[] {
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

function figuresIn(tokens: readonly Token[], text: string, house: HouseStyle, figures: WrittenFigure[]): void {
  const dates = mayHoldDate(tokens) ? writtenDates(tokens) : [];
  for (let i = 0; i < tokens.length; ) {
    // The figures of a date that is written otherwise are told as a date.
    const date = dates.length > 0 ? dates.find((d) => d.from === i) : undefined;
    const reach = date ? undefined : figureAt(tokens, i);
    if (reach) figures.push(judged(text, tokens[i]!.start, reach.numberEnd, reach.unit, house));
    i = date?.to ?? reach?.next ?? i + 1;
  }
}

/** `5 M units` is one number token up to its letter, which belongs to the judging of the unit. */
const scaled = /^([\d.,]+)( ?)(MM|M|K|k)$/;

function judged(
  text: string,
  start: number,
  numberEnd: number,
  unit: Spot | undefined,
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
  if (first.kind !== "number" && first.kind !== "ratio") return undefined;
  return withUnit(tokens, first.end, at + 1);
}

function withUnit(tokens: readonly Token[], numberEnd: number, next: number) {
  const unit = tokens[next]?.kind === "unit" ? tokens[next] : undefined;
  return { numberEnd, unit, next: unit ? next + 1 : next };
}
