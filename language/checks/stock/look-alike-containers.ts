import { isOneLiquid } from "../../bench/one-liquid.ts";
import type { Material, Stock } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { recipeCheck } from "../check.ts";
import { withThirdMaterial } from "./third-material.ts";

export const lookAlikeContainers = recipeCheck({
  name: "look-alike-containers",
  family: "stock",
  severity: "warning",
  title: "Two materials are taken for each other",
  why: "What looks or sounds alike and lies side by side is swapped without anybody noticing.",
  source: "common practice",
  bad: withThirdMaterial("saline-ampoule"),
  good: withThirdMaterial("saline-ampoule").replace("  looks-like  magnesium-ampoule\n", ""),
  *find({ recipe, lookup }) {
    const met: { material: Material; stock: Stock }[] = [];
    for (const material of recipe.materials) {
      const stock = lookup.find("stock", material.item.name);
      if (!stock) continue;
      for (const other of met) {
        const how = taken(stock, other.stock, lookup);
        if (how) yield { at: material.item, how, stock, other };
      }
      if (!met.some((m) => m.stock.name.name === stock.name.name)) met.push({ material, stock });
    }
  },
  say: ({ how, stock, other }) => ({
    text: `${stock.name.name} and ${other.stock.name.name} are both on the tray, and ${how === "pack" ? "their packs look alike" : "their drugs are confused with each other"}. Use another product, or keep them apart and have both read out before use.`,
    related: [{ at: other.material.item, text: "the other one" }],
  }),
});

function taken(a: Stock, b: Stock, lookup: Lookup): "pack" | "name" | undefined {
  // Whoever takes one pack of a liquid for another of it draws the same.
  if (isOneLiquid(a, b)) return undefined;
  if (looksLike(a, b.name.name) || looksLike(b, a.name.name)) return "pack";
  return confused(a, b, lookup) || confused(b, a, lookup) ? "name" : undefined;
}

function looksLike(stock: Stock, name: string): boolean {
  return stock.facts.all("looks-like").some((f) => f.slots.stock.name === name);
}

function confused(a: Stock, b: Stock, lookup: Lookup): boolean {
  const drug = a.facts.one("drug")?.slots.drug.name;
  const other = b.facts.one("drug")?.slots.drug.name;
  if (drug === undefined || other === undefined) return false;
  return (lookup.find("drug", drug)?.facts.all("confused") ?? []).some((f) => f.slots.drug.name === other);
}
