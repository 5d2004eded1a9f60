/**
 * Judges how a number and its unit are written. The tokens are broad on purpose, so that unsafe notation is read and named
 * instead of tripping the reader. One possible reading: a fault with its safe form, and the value is kept. Two: a fault and
 * no value, so that nothing is computed from it.
 *
 * Rules are ids of rows of the published list (tests/reference/measuring/error-prone-notation.json), which carries the
 * sources; the tool's own ids are `comma-not-thousands`, `gap-in-number`, `raised-point`, `clock-or-ratio`, `number-shape`, `leading-zero`, `negative-zero`,
 * `unit-case`, `unit-spelling`, `customary-unit`.
 */
import { Exact } from "./exact.ts";
import type { HouseStyle } from "./house.ts";
import { readNumber } from "./number-reading.ts";
import { numberText } from "./number-text.ts";
import { preferredUnit, type Quantity, withUnit } from "./quantity.ts";
import { readRatio } from "./ratio.ts";
import type { MeasureReading, NotationFault, NumberReading, UnitProblem } from "./reading.ts";
import { Remembered } from "./remembered.ts";
import { findUnit, type Unit, type UnitFault } from "./unit.ts";

export { defaultHouse, type HouseStyle } from "./house.ts";
export { readNumber } from "./number-reading.ts";
export type { MeasureReading, NotationFault, NumberReading, UnitProblem } from "./reading.ts";

/**
 * A number (or ratio `1:1000`), what stands between, and the unit, judged together. Pure; the answer is remembered and shared,
 * so it must not be changed.
 */
export function readMeasure(numberPart: string, gap: string, unitPart: string, house: HouseStyle): MeasureReading {
  // With the lengths, so that the parts cannot be told apart in two ways.
  const key = `${numberPart.length} ${gap.length} ${numberPart}${gap}${unitPart}`;
  return measures.get(house, key) ?? measures.put(house, key, judgeMeasure(numberPart, gap, unitPart, house));
}

const measures = new Remembered<MeasureReading>();

function judgeMeasure(numberPart: string, gap: string, unitPart: string, house: HouseStyle): MeasureReading {
  if (/[:\u2236]/.test(numberPart)) return readRatio(numberPart, gap, unitPart);
  const scaled = scaledUnits(numberPart, gap, unitPart, house);
  if (scaled) return scaled;
  const number = readNumber(numberPart, house);
  const offset = numberPart.length + gap.length;
  const found = findUnit(unitPart);
  const faults: NotationFault[] = [...number.faults];
  // Setting a blank before what is no unit would mend nothing.
  const isUnit = found.unit !== undefined || found.faults.length > 0;
  const together = gap === "" && isUnit && unitPart !== "" && !/^[%/]/.test(unitPart);
  if (together) faults.push(runTogether(numberPart.length));
  // A microunit is mended as a whole below, because its figure changes with it.
  const ofUnit = found.unit?.spelling === "microunits" ? [] : found.faults;
  const singular = number.value?.equals(Exact.one) ? found.unit?.singular : undefined;
  faults.push(
    ...ofUnit.map((fault) => {
      const placed = unitFaultFor(fault, offset, house);
      return singular !== undefined && placed.replacement === found.unit?.spelling
        ? { ...placed, replacement: singular }
        : placed;
    }),
  );
  faults.push(...houseFaults(unitPart, found.unit, offset, house));
  if (!found.unit) {
    const fault: UnitProblem = { kind: "unknown-unit", text: unitPart, near: [...found.near] };
    return { quantity: undefined, faults, ...(found.isUnknown ? { unitFault: fault } : {}) };
  }
  if (found.unit.notInRecipes && found.faults.length === 0) faults.push(customary(offset, unitPart));
  if (number.value === undefined || found.unit.notInRecipes) return { quantity: undefined, faults };
  const quantity = { value: number.value, unit: found.unit };
  const whole = { start: 0, end: offset + unitPart.length };
  faults.push(...wholeFaults(quantity, number, whole, house));
  return { quantity, faults };
}

function customary(start: number, unitPart: string): NotationFault {
  const detail = "Customary units have more than one size and are unfamiliar. Write the amount in metric units.";
  return { rule: "customary-unit", start, end: start + unitPart.length, detail };
}

function runTogether(at: number): NotationFault {
  return {
    rule: "run-together-number-unit",
    start: at,
    end: at,
    replacement: " ",
    detail: "Without a blank the m of a unit has been read as one or two zeros.",
  };
}

/** `5 M units`, `5 K units`: the letter scales the number and is no unit. */
function scaledUnits(numberPart: string, gap: string, unitPart: string, house: HouseStyle): MeasureReading | undefined {
  const mega = /^[Mm]ega[- ]?units?$/.test(unitPart) ? readNumber(numberPart, house).value : undefined;
  if (mega) {
    const value = mega.times(Exact.of(1_000_000));
    const place = { start: 0, end: numberPart.length + gap.length + unitPart.length };
    const replacement = withUnit(numberText(value, "words"), "units");
    const fault = { rule: "million-M", ...place, replacement, detail: "A mega unit is a million units." };
    return { quantity: { value, unit: findUnit("units").unit! }, faults: [fault] };
  }
  const parts = /^(MM|M|K|k)(?: (.+))?$/.exec(unitPart);
  if (!parts) return undefined;
  const [, letter = "", rest = ""] = parts;
  const start = 0;
  const end = numberPart.length + gap.length + unitPart.length;
  const number = readNumber(numberPart, house);
  if (letter === "M") {
    const detail = `M has meant both thousand and million. Write ${numberPart} million or ${numberPart} thousand, whichever is meant; for moles write mol/L.`;
    return { quantity: undefined, faults: [...number.faults, { rule: "million-M", start, end, detail }] };
  }
  const rule = letter === "MM" ? "million-M" : "thousand-K";
  const factor = Exact.of(letter === "MM" ? 1_000_000 : 1000);
  const { unit } = findUnit(rest);
  const value = number.value?.times(factor);
  const style = house.thousands === "none" ? "comma" : house.thousands;
  const replacement = value && withUnit(numberText(value, letter === "MM" ? "words" : style), rest);
  const detail = "K and M are taken for thousand or for million.";
  return {
    quantity: value && unit ? { value, unit } : undefined,
    faults: [...number.faults, { rule, start, end, detail, ...(replacement ? { replacement } : {}) }],
  };
}

/** Where the lists disagree the house chooses the safe form and the rule that asks for it. */
function unitFaultFor(fault: UnitFault, offset: number, house: HouseStyle): NotationFault {
  const placed = { ...fault, start: fault.start + offset, end: fault.end + offset };
  if (fault.rule === "unit-IU") {
    const isPlain = house.activity === "units";
    return { ...placed, rule: isPlain ? "unit-IU-ismp" : "unit-IU-jc", replacement: house.activity };
  }
  if (house.microgram === "micrograms" && fault.replacement === "mcg") {
    return { ...placed, rule: fault.rule === "ug-sign" ? "microgram-full" : fault.rule, replacement: "micrograms" };
  }
  return placed;
}

/** A spelling that is safe in itself but not the house's. */
function houseFaults(text: string, unit: Unit | undefined, offset: number, house: HouseStyle): NotationFault[] {
  if (!unit || house.microgram === "mcg") return [];
  const faults: NotationFault[] = [];
  let start = offset;
  for (const piece of text.split("/")) {
    if (piece === "mcg") {
      const detail = "This site writes micrograms in full.";
      faults.push({ rule: "microgram-full", start, end: start + piece.length, replacement: "micrograms", detail });
    }
    start += piece.length + 1;
  }
  return faults;
}

function wholeFaults(
  q: Quantity,
  number: NumberReading,
  whole: { start: number; end: number },
  house: HouseStyle,
): NotationFault[] {
  const faults: NotationFault[] = [];
  if (q.unit.spelling === "microunits") {
    const replacement = withUnit(q.value.times(q.unit.factor).toText(), "units");
    const detail = "A microunit is easily taken for a milliunit or a unit.";
    faults.push({ rule: "microunits", ...whole, replacement, detail });
  }
  if (house.smallDecimals === "smaller-unit" && q.value.isPositive() && q.value.isBelow(Exact.one)) {
    const smaller = preferredUnit(q);
    if (smaller.unit !== q.unit && smaller.value.isWhole()) {
      const detail = "Below one, the smaller unit needs no decimal point.";
      faults.push({ rule: "unneeded-decimal", ...whole, replacement: formatMeasure(smaller, house), detail });
    }
  }
  if (house.decimals === "one-place" && number.decimals > 1) {
    const detail =
      "This site keeps one decimal place where possible. Choose a dose with fewer decimals, or the smaller unit.";
    faults.push({ rule: "many-decimals", ...whole, detail });
  }
  return faults;
}

/** The safe spelling in this house: leading zero, no trailing zero, grouped thousands, a blank before the unit. */
export function formatMeasure(q: Quantity, house: HouseStyle): string {
  return withUnit(numberText(q.value, house.thousands), unitInHouse(q, house));
}

function unitInHouse(q: Quantity, house: HouseStyle): string {
  const { unit } = q;
  if (unit.spelling.startsWith("%")) return unit.spelling;
  const word = unit.singular && q.value.equals(Exact.one) ? unit.singular : unit.spelling;
  const pieces = word
    .split("/")
    .map((piece) => (piece === "mcg" && house.microgram === "micrograms" ? "micrograms" : piece));
  return pieces.join(house.strengthSlash === "words" ? " per " : "/");
}
