/** `10 mg in 1 mL` in running text: two figures that may tell what is in all of it, or a strength. */
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";

export interface AmountInVolume {
  amount: TextFigure;
  volume: TextFigure;
  /** In one mL, in the unit of the amount. */
  strength: Quantity;
}

export const amountsInVolumes = remembered((sentence: string): readonly AmountInVolume[] => {
  const figures = figuresIn(sentence);
  return figures.flatMap((volume, i) => {
    const amount = figures[i - 1];
    if (!amount || volume.quantity.unit.dimension.key !== "volume" || !volume.quantity.value.isPositive()) return [];
    const unit =
      volume.before.endsWith(`${amount.written} in `) && findUnit(`${amount.quantity.unit.spelling}/mL`).unit;
    if (!unit) return [];
    return [{ amount, volume, strength: { value: amount.quantity.value.over(inBase(volume.quantity)), unit } }];
  });
}, mostSentences);

const amountBelow = /(\d ?[a-zA-Z]+) ?(?:\/ ?(?=\d)|per (?=\d[\d.,]* ?(?:m?L|ml|millilitres?|litres?)\b))/g;

const amountInEach = /(\d ?[a-zA-Z]+) (?:in|per) (?:each|every|one|a) (m?L|millilitre|litre)\b/g;

/** `10 mg/100 mL` is 10 mg in 100 mL, and `1 mg in each mL` is 1 mg in 1 mL. */
export function inVolumesSpelt(text: string): string {
  return text.replace(amountBelow, "$1 in ").replace(amountInEach, "$1 in 1 $2");
}

/** How the two figures of `1 mg in 0.1 mL` are written where they tell a strength that is stated, here 10 mg/mL. */
export function writtenAsStrength(
  text: string,
  stated: readonly { quantity: Quantity | undefined }[],
): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { amount, volume, strength } of amountsInVolumes(text)) {
    // `4 g in 1 L` tells what is in the container, `4 mg in 1 mL` may tell how strong it is.
    if (volume.quantity.unit.spelling !== "mL") continue;
    const isStated = stated.some(
      ({ quantity }) =>
        quantity?.unit.dimension === strength.unit.dimension && inBase(quantity).equals(inBase(strength)),
    );
    if (isStated) for (const { written } of [amount, volume]) found.add(written);
  }
  return found;
}
