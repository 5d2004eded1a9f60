/** An order by concentration and final volume (a pump reservoir, an epidural bag) has a dose all the same: what the container must hold. */
import type { Recipe } from "../model/declaration.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { inBase, preferredUnit, type Quantity, showQuantity } from "../quantities/quantity.ts";
import { kindOf, kindUnits } from "./amounts.ts";
import { type OrderedDose, rowsOf } from "./order-rows.ts";
import { line } from "./working-line.ts";

/**
 * @param volumeOf the final volume of a container that holds at this point of the order
 * @returns one dose for each finished container; none where the order states no concentration of a drug
 */
export function dosesByConcentration(
  recipe: Recipe,
  volumeOf: (container: string) => MeasureSlot | undefined,
): OrderedDose[] {
  const order = recipe.order;
  const drug = order?.one("drug");
  if (!order || !drug) return [];
  const makes = order.one("makes")?.slots.what.name;
  const names = new Set(makes === undefined ? recipe.preparations.map((p) => p.name.name) : [makes]);
  return [...names].flatMap((container): OrderedDose[] => {
    const [fact] = rowsOf(order.all("concentration"), container);
    const volume = volumeOf(container);
    if (!fact || !volume) return [];
    const stated = fact.slots.concentration;
    const content = stated.quantity && volume.quantity ? contentOf(stated.quantity, volume.quantity) : undefined;
    const product = `${stated.written} × ${volume.written}`;
    return [
      {
        drug: drug.slots.drug.name,
        given: content,
        calculated: content,
        ion: fact.slots.ion?.name,
        as: (fact.slots.salt ?? drug.slots.salt)?.name,
        per: { container },
        measure: stated,
        byConcentration: true,
        working: content ? [line("computed", `${product} = ${showQuantity(content)}`, content)] : [],
        missing: content ? undefined : "the ordered concentration and final volume give no amount",
        start: fact.start,
        end: fact.end,
      },
    ];
  });
}

function contentOf(concentration: Quantity, volume: Quantity): Quantity | undefined {
  const kind = kindOf(concentration);
  const isConcentration = concentration.unit.dimension.key.endsWith("/volume");
  if (!kind || !isConcentration || volume.unit.dimension.key !== "volume") return undefined;
  return preferredUnit({ value: inBase(concentration).times(inBase(volume)), unit: kindUnits[kind] });
}
