/** How figures and things are named in messages. */

import { kindUnits } from "../bench/amounts.ts";
import type { AmountKind } from "../bench/liquid.ts";
import type { Run } from "../bench/run.ts";
import { allOf, shortened } from "../bench/spoken.ts";
import type { StepRun } from "../bench/step-run.ts";
import { thingOrEach, type Vessel } from "../bench/things.ts";
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { grouped } from "../quantities/number-text.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";

export { strength } from "../bench/spoken.ts";

const millilitre = findUnit("mL").unit!;

/** `8 mL`; at most four significant digits where it does not end. */
export function ml(volume: Exact): string {
  return showQuantity({ value: shortened(volume.plain()), unit: millilitre });
}

/** An amount in the unit its liquid is kept in, in a handy size: `4 g`, `500 mcg`; of long decimals six figures. */
export function amount(value: Exact, kind: AmountKind): string {
  const shown = handy({ value, unit: kindUnits[kind] });
  const places = shown.value.decimalPlaces();
  const isLong = places !== undefined && places > 4;
  return showQuantity({ value: isLong ? shown.value.roundedToDigits(6) : shown.value, unit: shown.unit });
}

/** Mass in g, mg, mcg or ng so that the figure stands between 1 and 1,000 where it can. */
export function handy({ value: own, unit }: Quantity): Quantity {
  const quantity = { value: own.plain(), unit };
  if (quantity.unit.spelling !== "g" || quantity.value.isZero()) return quantity;
  const ladder = ["g", "mg", "mcg", "ng"];
  for (const name of ladder) {
    const unit = findUnit(name).unit!;
    const value = quantity.value.over(unit.factor);
    if (value.abs().isAtLeast(Exact.one) || name === "ng") return { value, unit };
  }
  return quantity;
}

/** `0.05` → `5 %`. */
export function percent(share: Exact): string {
  return `${grouped(share.plain().times(Exact.of(100)).roundedToDigits(3).toText(), "comma")} %`;
}

/** A finished container by its name, or `each of bags` where all of its set hold the same. */
export function finalOrEach(vessel: Vessel, { finals }: Run): string {
  const { liquid } = vessel;
  const isAlike = (other: Vessel) =>
    other.liquid.volume.equals(liquid.volume) &&
    [...liquid.amounts].every(([name, held]) => other.liquid.amounts.get(name)?.equals(held));
  return thingOrEach(vessel, finals, isAlike);
}

/** `step 5`. */
export function stepName(run: Pick<StepRun, "number">): string {
  return `step ${run.number}`;
}

/** `; so does step 7`, `; so do steps 7 and 9`: the same slip at further steps. */
export function soDo(more: readonly Pick<StepRun, "number">[]): string {
  const numbers = more.map(({ number }) => number);
  if (numbers.length < 2) return numbers.length === 0 ? "" : `; so does step ${numbers[0]}`;
  return `; so do steps ${allOf(numbers.map(String))}`;
}

/** The whole line of a step. */
export function stepSpot(run: StepRun): Spot {
  return { start: run.step.start, end: run.step.end };
}

/** `a`, `a or b`, `a, b or c`. */
export function oneOf(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

/** ` Did you mean \`x\`?`, or nothing. */
export function didYouMean(near: readonly string[]): string {
  return near.length === 0 ? "" : ` Did you mean ${oneOf(near.map((n) => `\`${n}\``))}?`;
}

/** `an ampoule`, `a powder vial`. */
export function withArticle(kind: string): string {
  if (kind === "tubing") return kind;
  return `${/^[aeiou]/.test(kind) ? "an" : "a"} ${kind.replaceAll("-", " ")}`;
}
