/** For whom a printed line says that it is made: a body weight, or a dose for each kg or m2, laid against the order. */
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { isEndOfRange, ofAnother } from "./bare-figures.ts";
import { doseForPatientContradicted } from "./doses-for-patient.ts";
import { bodyWeightsIn, figuresIn } from "./figures-in-text.ts";
import { formForPatient, isFormSaid, isForPatient, statedForPatient } from "./forms-for-patients.ts";
import { figuresOfEquations } from "./label-equations.ts";
import { isNear } from "./label-figures.ts";
import { undeclaredForm } from "./undeclared-forms.ts";
import { assertions, type Contradiction } from "./words-against-order.ts";

/** An upper end, and what is given before or beside it, is another dose. */
export const otherDose =
  /\b(?:exceed\w*|(?<!made )up to|maxim\w*|minim\w*|limit|bolus|loading|start\w*|initial\w*|titrat\w*|range)\b/i;

/** `Trastuzumab 420 mg for 80 kg (8 mg/kg)` on a bag for 70 kg at 6 mg/kg. */
export function patientFigureContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    const weight = bodyWeightsIn(sentence).find((said) => !isEndOfRange(said) && isOtherWeight(said.quantity, runs));
    if (weight)
      return {
        said: weight.written,
        ordered: weightsOf(runs)
          .map((each) => showQuantity(each))
          .join(" and "),
      };
    if (otherDose.test(sentence) || ofAnother.test(sentence.replace(/\bmade up\b/gi, ""))) continue;
    for (const figure of figuresIn(sentence)) {
      if (!isForPatient(figure.quantity) || isEndOfRange(figure) || figuresOfEquations(sentence).has(figure)) continue;
      const stated = statedForPatient(figure.quantity, recipe);
      if (stated.length === 0) {
        const ordered = doseForPatientContradicted(figure, sentence, recipe, runs, lookup);
        if (ordered !== undefined) return { said: figure.written, ordered };
        continue;
      }
      const timed = /\bdose$/.test(figure.written) ? stated.filter(({ time }) => time !== undefined) : [];
      if (timed.length > 0)
        return {
          said: figure.written,
          ordered: timed.map(({ written, time }) => `${written} per ${time}`).join(" and "),
        };
      const form = formForPatient(figure, recipe, lookup);
      if (form && !form.fits) return { said: `${figure.written} of ${form.of}`, ordered: form.known };
      if (form || stated.some((each) => isNear(each.quantity, figure.quantity))) continue;
      const known = stated.map(({ quantity }) => quantity);
      if (isFormSaid(figure, sentence, recipe, lookup) || undeclaredForm(figure, sentence, known, recipe, lookup))
        continue;
      return { said: figure.written, ordered: [...new Set(stated.map(({ written }) => written))].join(" and ") };
    }
  }
  return undefined;
}

function weightsOf(runs: readonly Run[]): Quantity[] {
  return runs.flatMap((run) => run.point.get("weight") ?? []);
}

/** Of a range each weight is asked in turn, so that a line with one weight suits one order of it only. */
function isOtherWeight(said: Quantity, runs: readonly Run[]): boolean {
  const known = weightsOf(runs);
  return known.length > 0 && known.every((each) => !inBase(each).equals(inBase(said)));
}
