/** `10 mg in 1 mL` in running text: two figures that may tell what is in all of it, or a strength. */
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { remembered } from "../../quantities/remembered.ts";
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
});
