/** A figure as somebody writes it down: a value with its unit, and what of the drug it counts. */
import { Fraction } from "./fraction.ts";

export interface Figure {
  /** In mL, g, mmol, mEq, units, kg of body weight, or those in a mL. */
  readonly value: Fraction;
  readonly unit: string;
  /** An amount of this ion, not of the drug. */
  readonly ion?: string;
  /** The form of the drug that is counted. */
  readonly as?: string;
}

/** What a figure measures. */
export type Measure = "volume" | "mass" | "moles" | "equivalents" | "activity" | "weight" | "surface";

const plain: Readonly<Record<string, readonly [measure: Measure, size: string]>> = {
  mcL: ["volume", "0.001"],
  mL: ["volume", "1"],
  L: ["volume", "1000"],
  nanograms: ["mass", "0.000000001"],
  mcg: ["mass", "0.000001"],
  mg: ["mass", "0.001"],
  g: ["mass", "1"],
  mcmol: ["moles", "0.001"],
  mmol: ["moles", "1"],
  mEq: ["equivalents", "1"],
  units: ["activity", "1"],
  kg: ["weight", "1"],
  m2: ["surface", "1"],
};

/** A percent is g in 100 mL; a ratio is one g in so many mL. */
const hundredth = Fraction.of("0.01");

export function measureOf(unit: string): Measure {
  if (unit === "% w/v" || unit === "1: w/v") return "mass";
  const found = plain[unit.split("/")[0]!];
  if (!found) throw new RangeError(`no unit ${unit}`);
  return found[0];
}

function sizeOf(unit: string): Fraction {
  if (unit === "% w/v") return hundredth;
  const [above = "", ...below] = unit.split("/");
  let size = Fraction.of(plain[above]![1]);
  for (const part of below) size = size.over(Fraction.of(plain[part]![1]));
  return size;
}

/** What stands on paper, as a figure. */
export function figure(number: number | string | Fraction, unit: string, more: Partial<Figure> = {}): Figure {
  const written = number instanceof Fraction ? number : Fraction.of(number);
  return { ...more, unit, value: written.times(sizeOf(unit)) };
}

/** The number that is written before the unit. */
export function writtenNumber({ value, unit }: Figure): Fraction {
  return unit === "1: w/v" ? Fraction.one.over(value) : value.over(sizeOf(unit));
}

/** Whether the figure can be written in this unit without rounding, at no great length. */
export function fits(value: Fraction, unit: string): boolean {
  const text = writtenNumber({ value, unit }).decimal();
  return text !== undefined && text.replace(".", "").length <= 8;
}

/** As it is written: commas between thousands, no zero behind the point. */
export function figureText(stated: Figure): string {
  const text = writtenNumber(stated).decimal();
  if (text === undefined) throw new RangeError(`${stated.value} cannot be written in ${stated.unit}`);
  const [whole = "", part] = text.split(".");
  const number = `${whole.replace(/\B(?=(\d{3})+$)/g, ",")}${part ? `.${part}` : ""}`;
  if (stated.unit === "1: w/v") return `1:${number} w/v`;
  return `${number} ${stated.unit}`;
}

/** The same with the words that say what is counted: `of magnesium`, `as lentipressin`. */
export function amountText(stated: Figure): string {
  const counted = stated.ion ? ` of ${stated.ion}` : stated.as ? ` as ${stated.as}` : "";
  return `${figureText(stated)}${counted}`;
}
