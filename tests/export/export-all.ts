/** Exports of every sample recipe, for the tests of this folder. */
import { type Exported, fhirOf, isWithheld } from "../../language/export/fhir.ts";
import type { Library } from "../../language/library.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";

/** Orders at which the ranged samples are exported; every other recipe has one order only. */
const inputsOf: Record<string, [string, string][]> = {
  "vancomycin-loading": ["40kg", "62.3kg", "120kg"].map((w) => ["weight", w]),
  "paclitaxel-banded": ["1.4m2", "2m2"].map((a) => ["body-surface", a]),
};

export const nothing: ReadonlyMap<string, never> = new Map<string, never>();

/** @throws Error with the reason, so that a test shows it. */
export function exportFrom(
  library: Library,
  recipe: string,
  inputs: ReadonlyMap<string, string> = nothing,
  lots: ReadonlyMap<string, readonly string[]> = nothing,
): Exported {
  const exported = fhirOf(library, { recipe, inputs, lots });
  if (isSheetRefusal(exported)) throw new Error(exported.refusal);
  if (isWithheld(exported)) throw new Error(exported.withheld.join("\n"));
  return exported;
}

export function exportsOf(library: Library): { name: string; exported: Exported }[] {
  return library.ofKind("recipe").flatMap(({ name: { name } }) => {
    const cases = inputsOf[name]?.map((pair) => new Map([pair])) ?? [new Map<string, string>()];
    return cases.map((inputs) => ({
      name: `${name} ${[...inputs.values()].join()}`.trim(),
      exported: exportFrom(library, name, inputs),
    }));
  });
}
