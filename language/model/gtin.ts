/**
 * GTINs: the article number on a pack. Kept as 14 digits of text; never as a number, which would lose leading zeros.
 * Source: GS1 General Specifications; check digit as in GS1's "Check digit calculator, worked GTIN-13 example".
 */

/** A GTIN whose check digit agrees. */
export interface Gtin {
  /** As written: 8, 12, 13 or 14 digits. */
  text: string;
  /** Padded on the left with zeros to 14 digits; compare this. */
  gtin14: string;
  /**
   * First of the 14 digits. 0: the base unit (the vial). 1 to 8: a grouping (a carton of them), another number than its
   * content. 9: an article of varying measure.
   */
  level: number;
}

export type GtinFaultKind = "not-digits" | "spreadsheet-number" | "other-length" | "all-zeros" | "check-digit";

export interface GtinFault {
  fault: GtinFaultKind;
  text: string;
  message: string;
  /** Only for `check-digit`: the digit that the others call for. */
  expected?: number;
}

export function isGtinFault(value: Gtin | GtinFault): value is GtinFault {
  return "fault" in value;
}

/** Weights 3, 1, 3, 1 … from the digit left of the check digit. `digits`: digits alone, without the check digit. */
export function weightedSum(digits: string): number {
  let sum = 0;
  let weight = 3;
  for (let i = digits.length - 1; i >= 0; i--) {
    sum += weight * Number(digits[i]);
    weight = 4 - weight;
  }
  return sum;
}

/** 0 to 9. `digits`: digits alone, without the check digit. */
export function checkDigit(digits: string): number {
  return (10 - (weightedSum(digits) % 10)) % 10;
}

/** Reads a GTIN of 8, 12, 13 or 14 digits; a faulty one is refused, never repaired. */
export function readGtin(text: string): Gtin | GtinFault {
  const fault = shapeFault(text);
  if (fault) return fault;
  const expected = checkDigit(text.slice(0, -1));
  const last = text.slice(-1);
  if (Number(last) !== expected) {
    const message = `The pack number ${text} ends in ${last}, but its other digits call for ${expected}. A digit is wrong; scan the pack or copy the number again.`;
    return { fault: "check-digit", text, message, expected };
  }
  const gtin14 = text.padStart(14, "0");
  return { text, gtin14, level: Number(gtin14[0]) };
}

function shapeFault(text: string): GtinFault | undefined {
  if (/^\d[.,]\d+E\+?\d+$/i.test(text)) {
    const message = `The pack number ${text} was shortened by a spreadsheet and its last digits are lost. Export the column as text.`;
    return { fault: "spreadsheet-number", text, message };
  }
  if (!/^[0-9]+$/.test(text)) {
    const message = `The pack number ${text === "" ? "is empty" : `${text} has other signs than digits`}. Write its 8, 12, 13 or 14 digits alone.`;
    return { fault: "not-digits", text, message };
  }
  if (![8, 12, 13, 14].includes(text.length)) {
    const lost = text.length < 14 ? " Leading zeros may be lost." : "";
    const message = `The pack number ${text} has ${text.length} digits, a pack number has 8, 12, 13 or 14.${lost} Scan the pack or copy the number again.`;
    return { fault: "other-length", text, message };
  }
  // Zeros alone pass the sum; exports put them where nothing is known.
  if (/^0+$/.test(text)) {
    return {
      fault: "all-zeros",
      text,
      message: `The pack number ${text} is a placeholder. Give the number on the pack, or leave it out.`,
    };
  }
  return undefined;
}
