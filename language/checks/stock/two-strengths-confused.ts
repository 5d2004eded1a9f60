import type { Material, Stock } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { standardLibrary } from "../example.ts";
import { withThirdMaterial } from "./third-material.ts";

interface Labelled {
  material: Material;
  stock: Stock;
  drug: string;
  label: MeasureSlot;
}

export const twoStrengthsConfused = recipeCheck({
  name: "two-strengths-confused",
  family: "stock",
  severity: "warning",
  title: "One drug lies ready in two strengths",
  why: "Two strengths of one drug on one tray are taken for each other.",
  source: "common practice",
  bad: withThirdMaterial("magnesium-ampoule-10"),
  good: standardLibrary,
  *find({ recipe, lookup }) {
    const met: Labelled[] = [];
    for (const material of recipe.materials) {
      const stock = lookup.find("stock", material.item.name);
      const drug = stock?.facts.one("drug")?.slots.drug.name;
      const label = stock?.facts.one("strength")?.slots.strength ?? stock?.facts.one("content")?.slots.content;
      if (!stock || drug === undefined || !label) continue;
      const now: Labelled = { material, stock, drug, label };
      const before = met.find((other) => other.drug === drug && differ(other, now));
      if (before) yield { at: material.item, now, before };
      met.push(now);
    }
  },
  say: ({ now, before }) => ({
    text: `${before.stock.name.name} (${before.label.written}) and ${now.stock.name.name} (${now.label.written}) are both ${now.drug}. Make it from one strength, or keep them apart and say so in a note.`,
    related: [{ at: before.material.item, text: `${before.label.written} here` }],
  }),
});

/** Materials of one name with conditions take turns: only one of them is ever on the tray. */
function differ(a: Labelled, b: Labelled): boolean {
  if (a.material.name.name === b.material.name.name && a.material.when && b.material.when) return false;
  const one = a.label.quantity;
  const other = b.label.quantity;
  if (!one || !other || a.stock.name.name === b.stock.name.name) return false;
  return one.unit.dimension !== other.unit.dimension || !inBase(one).equals(inBase(other));
}
