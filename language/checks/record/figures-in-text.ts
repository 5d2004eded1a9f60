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

/** `4 g`, `1,000 mL`, `2.4 million units`, `20 mmol/L`, `5 mg per hour`, `AUC 5` in running text. Percents are left aside: most name a fluid. */
export const figuresIn = remembered((text: string): readonly TextFigure[] => {
  const found: TextFigure[] = [];
  for (const match of text.matchAll(
    /(?<![\w.,-])(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?)(?: (million|thousand))? ?((?:international |USP )?[A-Za-z]+(?:\/[A-Za-z0-9]+)*)((?: per (?:mL|millilitre|L|litre|kg|kilogram|hour|h|minute|min)\b)*)/g,
  )) {
    const [whole, number, scale, word, per = ""] = match;
    // `5 mg per hour` is one figure; `1 day per L` is a figure and words behind it.
    const together = per === "" ? undefined : findUnit(inShort(`${word}${per.replaceAll(" per ", "/")}`)).unit;
    const written = together ? whole : whole.slice(0, whole.length - per.length);
    const unit = together ?? findUnit(word!).unit;
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

/** `milligrams/kilogram` is mg/kg: the kg of a dose is a body's. */
function inShort(unit: string): string {
  return unit.replace("/kilogram", "/kg").replace(/^[a-z]+(?=\/)/, (word) => findUnit(word).unit?.spelling ?? word);
}

const weighed = /\b(?:for|weigh\w*|of)(?: about| approximately)?\s*:?\s*$/i;
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
