/** Materials that have another name and are otherwise the same. */
import type { Recipe } from "../model/declaration.ts";
import { type NameOf, sameName } from "./canonical.ts";

/** Old name → new name of materials that differ in nothing else. */
export function renamedMaterials(before: Recipe, after: Recipe, nameOf: NameOf): Map<string, string> {
  const rows = (recipe: Recipe, rename: NameOf) =>
    recipe.materials.map((m) => ({
      name: m.name.name,
      item: `${rename(m.item.name)} ${m.count?.written ?? ""} ${m.when ? "when" : ""}`,
    }));
  const [was, is] = [rows(before, nameOf), rows(after, sameName)];
  const gone = was.filter((m) => !is.some((o) => o.name === m.name));
  const come = is.filter((m) => !was.some((o) => o.name === m.name));
  const names = new Map<string, string>();
  for (const material of gone) {
    const twins = come.filter((m) => m.item === material.item);
    const rivals = gone.filter((m) => m.item === material.item);
    if (twins.length === 1 && rivals.length === 1) names.set(material.name, twins[0]!.name);
  }
  return names;
}
