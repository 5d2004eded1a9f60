/**
 * A title may reckon with the volume of the diluent alone, as shelves and protocols call a bag: `4 g in 100 mL (40 mg/mL)` and `4 %` are one
 * way of naming a bag of 108 mL, in mass for each mL as in percent, alone or with the volume beside it. A label says what the patient gets,
 * so that there only the finished volume counts.
 */
import type { Recipe } from "../../model/declaration.ts";
import type { Exact } from "../../quantities/exact.ts";
import { volumeOf } from "../../quantities/quantity.ts";

export function nominalVolumes(recipe: Recipe): Exact[] {
  return (recipe.order?.all("diluent-volume") ?? [])
    .flatMap(({ slots }) => volumeOf(slots.volume.quantity) ?? [])
    .filter((volume) => volume.isPositive());
}
