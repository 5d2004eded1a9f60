/** Quantities in running text. */
import { Exact } from "../../quantities/exact.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";

/** A figure of a text with the words around it. */
export interface TextFigure {
  written: string;
  quantity: Quantity;
  before: string;
  after: string;
}

const exposure = findUnit("AUC").unit!;

const scaled: Readonly<Record<string, number>> = { million: 1_000_000, thousand: 1000 };

/** What stands behind a unit and belongs to it: `per kilogram`, `kg-1`, `daily`. */
const tail =
  "(?: per (?:mL|millilitre|L|litre|kg|kilogram(?:me)?|m2|square metre|day|hour|h|minute|min|dose)\\b| (?:kg|h|min|day)-1\\b| m-2\\b| (?:daily|a day|each day|every day)\\b)*";
const figure = new RegExp(
  `(?<![\\w.,-])(\\d{1,3}(?:,\\d{3})+(?:\\.\\d+)?|\\d+(?:\\.\\d+)?)(?: (million|thousand))? ?((?:international |USP )?[A-Za-z]+(?:\\/[A-Za-z0-9]+)*)(${tail})`,
  "g",
);

/** `milligrams per kilogram daily` as `mg/kg/day`. What is for a dose is for the container: `mg/kg/dose` as `mg/kg`. */
function unitText(words: string): string {
  return words
    .replace(/ (kg|h|min|day)-1\b/g, "/$1")
    .replace(/ m-2\b| per square metre\b/g, "/m2")
    .replace(/ (?:daily|(?:a|each|every) day)\b/g, "/day")
    .replace(/ per /g, "/")
    .replace(/\/kilogram(?:me)?\b/g, "/kg")
    .replace(/\/dose\b/g, "")
    .replace(/^[a-z]+(?=\/)/, (word) => findUnit(word).unit?.spelling ?? word);
}

/** `4 g`, `1,000 mL`, `2.4 million units`, `20 mmol/L`, `5 mg per kilogram`, `AUC 5` in running text. Percents are left aside: most name a fluid. */
export const figuresIn = remembered((text: string): readonly TextFigure[] => {
  const found: TextFigure[] = [];
  for (const match of text.matchAll(figure)) {
    const [whole, number, scale, word, per = ""] = match;
    // `5 mg per hour` is one figure; `1 day per L` is a figure and words behind it.
    const together = per === "" ? undefined : findUnit(unitText(`${word}${per}`)).unit;
    const written = together ? whole : whole.slice(0, whole.length - per.length);
    const unit = together ?? findUnit(unitText(word!)).unit;
    const [before, after] = [text.slice(0, match.index), text.slice(match.index + written.length)];
    const value = Exact.of(number!.replaceAll(",", "")).times(Exact.of(scaled[scale ?? ""] ?? 1));
    if (unit && unit.parts.length > 0) found.push({ written, quantity: { value, unit }, before, after });
  }
  // `AUC 5`, as protocols write it.
  for (const match of text.matchAll(/\bAUC (?:of )?(\d+(?:\.\d+)?)(?! ?mg|[\d.])/g)) {
    const [before, after] = [text.slice(0, match.index), text.slice(match.index + match[0].length)];
    found.push({ written: match[0], quantity: { value: Exact.of(match[1]!), unit: exposure }, before, after });
  }
  return found.sort((a, b) => a.before.length - b.before.length);
}, mostSentences);

const weighed = /(?:\b(?:for|weigh\w*|of|times|x)|[×*])(?: about| approximately)?\s*:?\s*$/i;
const weighing = /^\s*(?:patient|body|adult|child|neonate|newborn|infant|baby)\b/i;

/** `for 3 kg`, `weight 70 kg`, `70 kg patient`: what the patient weighs, by a text. */
export function bodyWeightsIn(text: string): readonly TextFigure[] {
  return figuresIn(text).filter(
    ({ quantity, before, after }) =>
      quantity.unit.spelling === "kg" &&
      (weighed.test(before) || weighing.test(after)) &&
      !/^\s*(?:\/|per\b)/.test(after),
  );
}
