import type { Material, Recipe, Stock } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { standardLibrary } from "../example.ts";
import { printedNotes } from "../printed-notes.ts";
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
      if (before && !isSaidInNote(recipe, [before.label.written, label.written]))
        yield { at: material.item, now, before };
      met.push(now);
    }
  },
  say: ({ now, before }) => ({
    text: `${before.stock.name.name} (${before.label.written}) and ${now.stock.name.name} (${now.label.written}) are both ${now.drug}. Make it from one strength, or keep them apart and say so in a note that names both strengths.`,
    related: [{ at: before.material.item, text: `${before.label.written} here` }],
  }),
  fixes({ now, before }, { recipe, chunk }) {
    const [first] = recipe.steps;
    if (!first) return [];
    const line = `note "${now.drug} in two strengths: ${before.label.written} and ${now.label.written}. Keep them apart."`;
    return [{ title: "Add a note of both strengths", edits: [stepBefore(chunk.text, first, line)] }];
  },
});

/** Materials of one name with conditions take turns: only one of them is ever on the tray. */
function differ(a: Labelled, b: Labelled): boolean {
  if (a.material.name.name === b.material.name.name && a.material.when && b.material.when) return false;
  const one = a.label.quantity;
  const other = b.label.quantity;
  if (!one || !other || a.stock.name.name === b.stock.name.name) return false;
  return one.unit.dimension !== other.unit.dimension || !inBase(one).equals(inBase(other));
}

/** Who mixes two strengths on purpose, as in an alligation, says so where it is printed. */
function isSaidInNote(recipe: Recipe, strengths: readonly string[]): boolean {
  return printedNotes(recipe).some(({ text }) => strengths.every((strength) => names(text, strength)));
}

/** `25 mg/mL` does not name 5 mg/mL. */
function names(text: string, strength: string): boolean {
  for (let at = text.indexOf(strength); at >= 0; at = text.indexOf(strength, at + 1)) {
    if (!/[\d.,]/.test(text[at - 1] ?? "")) return true;
  }
  return false;
}
