/** An electrolyte with an amount on a printed line, of which the preparation holds nothing: `potassium 40 mmol` on a bag without any. */
import type { Run } from "../../bench/run.ts";
import { nameOfKey } from "../../bench/setup.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { fluidsOf, namesOf, wordsOf } from "./words-against-order.ts";

/** Those that are given for their own sake. Sodium and chloride come with many salts of drugs, whose monographs need not say so. */
const electrolytes: ReadonlySet<string> = new Set(["potassium", "calcium", "magnesium", "phosphate"]);

/** What is measured in the patient, not given: `target potassium 4.5 mmol/L`. */
const measured = /\b(?:serum|plasma|blood|levels?|target|monitor\w*|check\w*|measur\w*)\b/i;

const lastWord = /([A-Za-z]+)\s*:?\s*$/;
/** In `glucose 5 %, 40 mmol potassium`; in `4 mmol, potassium 40 mmol` the name is the next figure's. */
const nextWord = /^\s*\(?(?:of )?([A-Za-z]+)\b(?!\s*:?\s*\d)/;

/** @returns the electrolyte beside the figure; undefined also where something in the preparation may bring it. */
export function absentIonBeside(
  { before, after }: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): string | undefined {
  const beside = [lastWord.exec(before)?.[1], nextWord.exec(after)?.[1]].map((word) => word?.toLowerCase());
  const ion = beside.find((word) => word !== undefined && electrolytes.has(word));
  if (ion === undefined || measured.test(`${before} ${after}`)) return undefined;
  if (runs.length === 0 || runs.some((run) => run.unknown)) return undefined;
  const names = [
    ...orderedDrugs(recipe).flatMap((drug) => namesOf("drug", drug, lookup)),
    ...fluidsOf(recipe, lookup).flatMap((fluid) => namesOf("fluid", fluid, lookup)),
  ];
  // Glycerophosphate brings phosphate.
  if (names.some((name) => wordsOf(name).some((word) => word.endsWith(ion)))) return undefined;
  return runs.some((run) => mayBring(ion, run, recipe, lookup)) ? undefined : ion;
}

/** Something in a finished container has it, or does not say what is in it. */
function mayBring(ion: string, { setup, finals }: Run, recipe: Recipe, lookup: Lookup): boolean {
  const isSilent = fluidsOf(recipe, lookup).some((name) => {
    const fluid = lookup.find("fluid", name);
    return !fluid || (fluid.facts.all("contains").length === 0 && !wordsOf(name).includes("water"));
  });
  return (
    isSilent ||
    finals.some(({ liquid }) =>
      [...liquid.amounts.keys()].some(
        (key) =>
          nameOfKey(key) === ion || setup.drugs.get(key)?.substance.ions.some(({ name }) => name === ion) === true,
      ),
    )
  );
}
