import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { printedNotes } from "../printed-notes.ts";
import { equatedUnitsSpelt } from "../written/equated-units.ts";
import { asPrinted, inFigures } from "../written/figures-spelt.ts";
import { fluidNameContradicted } from "../written/fluids-named.ts";
import { batchContradicted } from "../written/label-batches.ts";
import { dilutionContradicted, preservativeContradicted } from "../written/label-claims.ts";
import { contentsContradicted, ionVolumes } from "../written/label-contents.ts";
import { doseContradicted } from "../written/label-doses.ts";
import { dropsContradicted } from "../written/label-drops.ts";
import { equationContradicted } from "../written/label-equations.ts";
import { percentContradicted, strengthContradicted } from "../written/label-figures.ts";
import { fluidPercentContradicted } from "../written/label-fluids.ts";
import {
  filterContradicted,
  fluidForbidden,
  shakingContradicted,
  sterilisingContradicted,
} from "../written/label-handling.ts";
import { keepingContradicted, lightContradicted } from "../written/label-keeping.ts";
import { limitContradicted } from "../written/label-limits.ts";
import { patientFigureContradicted } from "../written/label-patients.ts";
import { patientContradicted } from "../written/label-populations.ts";
import { rateContradicted } from "../written/label-rates.ts";
import { refusalContradicted } from "../written/label-refusals.ts";
import { routeContradicted } from "../written/label-routes.ts";
import { saltContradicted } from "../written/label-salts.ts";
import { labelSubstanceContradicted } from "../written/label-substances.ts";
import { timeContradicted } from "../written/label-times.ts";
import { volumeContradicted } from "../written/label-volumes.ts";
import { wayOfGivingContradicted } from "../written/label-ways.ts";
import { namesInFull } from "../written/short-names.ts";
import { sourceContradicted } from "../written/source-strengths.ts";
import { strangeName } from "../written/strange-names.ts";
import { tailContradicted } from "../written/tail-names.ts";
import { accessContradicted, assertions, type Contradiction, wordsOf } from "../written/words-against-order.ts";

const label = (line: string) =>
  example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]);

export const labelTextContradictsOrder = recipeCheck({
  name: "label-text-contradicts-order",
  family: "record",
  severity: "error",
  title:
    "A line of the label or a note says another route, vein, patient, drug, fluid, time, rate, dose, strength, ion, osmolarity, volume, number, filter, handling or storage than the recipe",
  why: "At the bedside the label is all that is read; a line copied from another recipe sends the dose the wrong way.",
  source: "common practice",
  bad: label("For epidural use only."),
  good: label("For intravenous use only. Never give it by the epidural route."),
  *find({ recipe, runs, lookup }) {
    for (const { slots } of recipe.labelText?.all("line") ?? []) {
      const text = namesInFull(equatedUnitsSpelt(inFigures(slots.text.text)), recipe, lookup);
      for (const contradicted of [
        routeContradicted(text, recipe) ??
          wayOfGivingContradicted(text, recipe) ??
          dilutionContradicted(text, recipe, lookup),
        accessContradicted(text, recipe),
        patientContradicted(text, recipe),
        ...(/\d/.test(text)
          ? figuresContradicted(text, recipe, runs, lookup)
          : [
              labelSubstanceContradicted(text, recipe, lookup) ??
                tailContradicted(text, recipe, lookup) ??
                saltContradicted(text, recipe, lookup) ??
                fluidNameContradicted(text, recipe, lookup),
            ]),
        keepingContradicted(text, recipe),
        lightContradicted(text, recipe, lookup),
        refusalContradicted(text, recipe, lookup),
        preservativeContradicted(text, recipe, runs, lookup),
        shakingContradicted(text, recipe, lookup),
        fluidForbidden(text, recipe, lookup),
        sterilisingContradicted(text, recipe),
      ]) {
        if (contradicted)
          yield { at: slots.text, line: "line of the label", ...withName(contradicted, text, recipe, lookup) };
      }
    }
    for (const note of printedNotes(recipe)) {
      const text = inFigures(note.text);
      // A note speaks of much beside the giving.
      const given = assertions(text)
        .filter((sentence) => speaksOfGiving.test(sentence))
        .join(". ");
      for (const contradicted of [
        routeContradicted(given, recipe) ?? wayOfGivingContradicted(given, recipe),
        timeContradicted(given, recipe),
        rateContradicted(given, recipe, runs, lookup),
        dropsContradicted(given, recipe, runs),
        limitContradicted(text, recipe, runs, lookup),
        keepingContradicted(text, recipe),
        lightContradicted(note.text, recipe, lookup),
        refusalContradicted(note.text, recipe, lookup),
      ]) {
        if (contradicted) yield { at: note, line: "note", ...contradicted };
      }
    }
  },
  say: ({ at, said, ordered, whole, line }) => ({
    text: `This ${line} says ${asPrinted(at.text, said)}; the ${whole ?? "order"} says ${ordered}. Correct whichever is wrong.`,
  }),
});

/** `75 mg/m2 of docetaxel` where the figure stands beside a name that is not the drug's. */
function withName(contradicted: Contradiction, text: string, recipe: Recipe, lookup: Lookup): Contradiction {
  const strange = strangeName(text, recipe, lookup);
  if (!strange || contradicted.said !== strange.written) return contradicted;
  return { ...contradicted, said: `${strange.written} of ${strange.name}` };
}

/** What a line says by a figure; most lines hold none. */
function figuresContradicted(text: string, recipe: Recipe, runs: readonly Run[], lookup: Lookup) {
  const contents = contentsContradicted(text, recipe, runs, lookup);
  const dose = doseContradicted(text, recipe, runs, lookup);
  const volume = volumeContradicted(text, recipe, runs, lookup, ionVolumes(text, recipe, runs, lookup));
  const substance =
    labelSubstanceContradicted(text, recipe, lookup) ??
    tailContradicted(text, recipe, lookup) ??
    saltContradicted(text, recipe, lookup);
  const source = sourceContradicted(text, recipe, runs, lookup, false);
  const unlessOfSource = (found: Contradiction | undefined) =>
    found && source?.said === `from ${found.said}` ? undefined : found;
  const strength = unlessOfSource(strengthContradicted(text, recipe, runs, lookup));
  const equation = equationContradicted(text, recipe, runs, lookup);
  const isOnePair = dose && volume?.said.startsWith(`${dose.said} in `);
  return [
    timeContradicted(text, recipe),
    rateContradicted(text, recipe, runs, lookup),
    dropsContradicted(text, recipe, runs),
    limitContradicted(text, recipe, runs, lookup),
    patientFigureContradicted(text, recipe, runs, lookup),
    filterContradicted(text, recipe, lookup),
    batchContradicted(text, recipe),
    substance ?? fluidPercentContradicted(text, recipe, runs, lookup) ?? fluidNameContradicted(text, recipe, lookup),
    unlessOfSource(percentContradicted(text, recipe, runs, lookup)),
    source,
    strength,
    // `4 g = 80 mL of 50 %`: a volume that is told with its strength is not told again with its amount.
    strength && equation?.said.endsWith(` = ${strength.said.split(" of ")[0]}`) ? undefined : equation,
    // `Potassium chloride 20 mmol` in a bag without it is told by its name.
    contents && substance && wordsOf(substance.said).includes(wordsOf(contents.said)[0]!) ? undefined : contents,
    // `chloride 1 mmol` may be read as the ion of a fluid and as the drug: one figure, one finding.
    isOnePair || (contents && dose && contents.said.endsWith(dose.said)) ? undefined : dose,
    volume,
  ];
}

const speaksOfGiving =
  /\b(?:give|given|infuse|infused|administer|inject|for (?:[a-z]+ )?[a-z]+ (?:use|injection|infusion))\b/i;
