/**
 * Another size of the same product, where the one on the tray is told as not the one that is meant: a bag of the ordered volume, a powder
 * vial whose label says the volume that the step adds. Whether all is in order with it is for the judging to say.
 */
import { happened, type Run } from "../bench/run.ts";
import type { Material, Stock } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Exact } from "../quantities/exact.ts";
import { volumeOf } from "../quantities/quantity.ts";
import type { Mend } from "./mended-figures.ts";

export function* mendedProducts(run: Run, lookup: Lookup): Generator<Mend> {
  yield* ofBags(run, lookup);
  yield* ofPowders(run, lookup);
}

function* ofBags({ recipe, finals }: Run, lookup: Lookup): Generator<Mend> {
  const [ordered, second] = recipe.order?.all("diluent-volume") ?? [];
  const volume = second ? undefined : volumeOf(ordered?.slots.volume.quantity);
  const stock = finals[0]?.stock;
  if (!volume || !stock || fillOf(stock)?.equals(volume)) return;
  for (const material of materialsOf(stock, recipe.materials)) {
    for (const other of othersLike(stock, lookup)) {
      if (fillOf(other)?.equals(volume)) yield of(material, other, "diluent-volume-differs");
    }
  }
}

function* ofPowders(run: Run, lookup: Lookup): Generator<Mend> {
  for (const { data } of happened(run, "reconstituted-otherwise")) {
    const { stock } = data.vessel;
    if (!stock) continue;
    for (const material of materialsOf(stock, run.recipe.materials)) {
      for (const other of othersLike(stock, lookup)) {
        if (addedTo(other)?.equals(data.volume)) yield of(material, other, "reconstituted-otherwise");
      }
    }
  }
}

function of({ item }: Material, { name }: Stock, told: string): Mend {
  return { at: item, text: name.name, told };
}

/** The lines that lay it out for every order. */
function materialsOf({ name }: Stock, materials: readonly Material[]): readonly Material[] {
  return materials.filter(({ item, when }) => item.name === name.name && !when);
}

/** The same drug or fluid in the same kind of container. */
function othersLike(stock: Stock, lookup: Lookup): readonly Stock[] {
  const own = heldIn(stock);
  return lookup.names("stock").flatMap((name) => {
    const other = name === stock.name.name ? undefined : lookup.find("stock", name);
    return other && own !== "" && heldIn(other) === own ? [other] : [];
  });
}

function heldIn({ facts }: Stock): string {
  const held = facts.one("drug")?.slots.drug.name ?? facts.one("fluid")?.slots.fluid.name;
  const kind = facts.one("container")?.slots.kind.choice;
  return held === undefined || kind === undefined ? "" : `${kind} ${held}`;
}

function fillOf({ facts }: Stock): Exact | undefined {
  return volumeOf(facts.one("fill")?.slots.fill.quantity);
}

/** What its label says goes in. */
function addedTo({ reconstitute }: Stock): Exact | undefined {
  return volumeOf(reconstitute?.one("with")?.slots.volume.quantity);
}
