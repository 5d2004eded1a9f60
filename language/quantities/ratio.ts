/** Ratio strengths `1:1000 w/v`: read, and the strength per mL offered, because ratios are misread and miscounted. */
import { Exact } from "./exact.ts";
import { preferredUnit, type Quantity, showQuantity } from "./quantity.ts";
import type { MeasureReading, NotationFault } from "./reading.ts";
import { findUnit } from "./unit.ts";

/** By kind: what one part in one part is. 1:1 w/v is 1 g in 1 mL. */
const kinds: Readonly<Record<string, { unit: string; perPart: string }>> = {
  "w/v": { unit: "g/mL", perPart: "1" },
  "v/v": { unit: "% v/v", perPart: "100" },
  "w/w": { unit: "% w/w", perPart: "100" },
};

/**
 * The strength that a ratio stands for, in mg/mL (or the unit a pharmacist would say) for w/v.
 * @param kind `w/v`, `v/v` or `w/w`; @returns undefined where the text is no ratio `1:N` or the kind is not one of these
 */
export function ratioStrength(ratio: string, kind: string): Quantity | undefined {
  const parts = /^(\d{1,9}):(\d{1,3}(?:,\d{3})+|\d{1,12})$/.exec(ratio.replace(/\s/g, "").replace("\u2236", ":"));
  const meant = kinds[kind.replace(/^%\s*/, "")];
  if (!parts || !meant) return undefined;
  const [, first = "", second = ""] = parts;
  const inParts = Exact.of(second.replaceAll(",", ""));
  if (inParts.isZero() || Exact.of(first).isZero()) return undefined;
  const value = Exact.of(first).over(inParts).times(Exact.of(meant.perPart));
  return strengthUnit({ value, unit: findUnit(meant.unit).unit! });
}

/** mg/mL where that is no smaller than a hundredth, as labels print it; else the smaller unit. */
function strengthUnit(q: Quantity): Quantity {
  const perMl = findUnit("mg/mL").unit!;
  if (q.unit.dimension !== perMl.dimension) return q;
  const asMg = { value: q.value.times(q.unit.factor).over(perMl.factor), unit: perMl };
  return asMg.value.isAtLeast(Exact.ratio(1, 1000)) ? asMg : preferredUnit(asMg);
}

export function readRatio(numberPart: string, gap: string, unitPart: string): MeasureReading {
  const end = numberPart.length + gap.length + unitPart.length;
  const strength = ratioStrength(numberPart, unitPart);
  if (strength) {
    const detail = "Ratios are misread and miscounted; deaths are reported.";
    const fault: NotationFault = {
      rule: "ratio-single-drug",
      start: 0,
      end,
      replacement: showQuantity(strength),
      detail,
    };
    return { quantity: strength, faults: [fault] };
  }
  const meant = ratioStrength(numberPart, "w/v");
  const example = meant ? ` As ${numberPart} w/v it is ${showQuantity(meant)}.` : "";
  const time = clockTime(numberPart);
  if (time) {
    const detail = `This can be a ratio, or hours and minutes. Write ${time} if it is a time, or the amount per mL.${example}`;
    return { quantity: undefined, faults: [{ rule: "clock-or-ratio", start: 0, end, detail }] };
  }
  const detail = `A ratio does not say what it is a share of. Write the amount per mL, or 1 in 10 for a dilution.${example}`;
  return { quantity: undefined, faults: [{ rule: "ratio-single-drug", start: 0, end, detail }] };
}

/** `4:30` as hours and minutes: 4.5 h. */
export function clockTime(text: string): string | undefined {
  const [, hours, minutes] = /^(\d{1,2}):([0-5]\d)$/.exec(text) ?? [];
  if (hours === undefined || minutes === undefined) return undefined;
  const value = Exact.of(hours).plus(Exact.of(minutes).over(Exact.of(60)));
  const inMinutes = { value: value.times(Exact.of(60)), unit: findUnit("min").unit! };
  return showQuantity(value.terminates() ? { value, unit: findUnit("h").unit! } : inMinutes);
}
