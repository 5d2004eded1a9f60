/** For whom a printed line says that it is made: a body weight, or a dose for each kg or m2, laid against the order. */
import { baseShare, isRefusal } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot, NameSlot } from "../../model/slots.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { measuresOf } from "../stated-measures.ts";
import { isEndOfRange, ofAnother } from "./bare-figures.ts";
import { doseForPatientContradicted } from "./doses-for-patient.ts";
import { bodyWeightsIn, figuresIn, type TextFigure } from "./figures-in-text.ts";
import { figuresOfEquations } from "./label-equations.ts";
import { isNear } from "./label-figures.ts";
import { tellingWords } from "./named-forms.ts";
import { assertions, type Contradiction, isNamedLast, wordsOf } from "./words-against-order.ts";

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
      const stated = statedLike(figure.quantity, recipe);
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
      const named = formNamed(figure, recipe, lookup);
      if (named) {
        if (stated.some((each) => isNear(asForm(each, named), figure.quantity))) continue;
        const known = stated.map((each) => showQuantity(asForm(each, named), 4));
        return { said: `${figure.written} of ${named.form}`, ordered: [...new Set(known)].join(" and ") };
      }
      if (stated.some((each) => isNear(each.quantity, figure.quantity))) continue;
      if (stated.some((each) => isOtherForm(figure, each, recipe, lookup))) continue;
      if (isFormSaid(figure, sentence, recipe, lookup)) continue;
      return { said: figure.written, ordered: [...new Set(stated.map(({ written }) => written))].join(" and ") };
    }
  }
  return undefined;
}

/** mg/kg, mcg/kg/min, mg/m2, AUC; what is for each kg of a liquid is spelt out otherwise. */
function isForPatient({ unit }: Quantity): boolean {
  // What is given by time is laid against the rate of the order (label-rates.ts).
  const parts = unit.dimension.key.split("/");
  if (parts.includes("time")) return false;
  return parts.some((each) => each === "bodyWeight" || each === "area" || each === "exposure");
}

interface Stated {
  quantity: Quantity;
  written: string;
  /** The form that the order counts. */
  as: string | undefined;
  /** For how long it is, as written. */
  time: string | undefined;
}

function timeOf(slots: object): string | undefined {
  return "time" in slots ? (slots.time as MeasureSlot | undefined)?.written : undefined;
}

function formOf(slots: object): string | undefined {
  return "salt" in slots ? (slots.salt as NameSlot | undefined)?.name : undefined;
}

interface NamedForm {
  drug: Drug;
  form: string;
}

/** `Caffeine base 10 mg/kg`: the form that the words before the figure name, where it is another than the drug is counted as. */
function formNamed({ before }: TextFigure, recipe: Recipe, lookup: Lookup): NamedForm | undefined {
  const last = wordsOf(before).at(-1);
  for (const name of orderedDrugs(recipe)) {
    const drug = lookup.find("drug", name);
    if (!drug || last === undefined || !isNamedLast(before, name, lookup)) continue;
    const salt = drug.substance.salts.find((each) => tellingWords(each.name, drug, lookup).includes(last));
    if (salt) return { drug, form: salt.name };
  }
  return undefined;
}

/** `Caffeine base 20 mg (10 mg/kg)`: the ordered dose in a form that the text names elsewhere. */
export function isFormSaid({ quantity }: TextFigure, text: string, recipe: Recipe, lookup: Lookup): boolean {
  const said = new Set(wordsOf(text));
  return orderedDrugs(recipe).some((name) => {
    const drug = lookup.find("drug", name);
    return drug?.substance.salts.some(
      (salt) =>
        tellingWords(salt.name, drug, lookup).some((word) => said.has(word)) &&
        statedLike(quantity, recipe).some((each) => isNear(asForm(each, { drug, form: salt.name }), quantity)),
    );
  });
}

function asForm({ quantity, as }: Stated, { drug, form }: NamedForm): Quantity {
  const [ordered, said] = [baseShare(drug.substance, as), baseShare(drug.substance, form)];
  if (isRefusal(ordered) || isRefusal(said) || !said.isPositive()) return quantity;
  return { ...quantity, value: quantity.value.times(ordered).over(said) };
}

/** `Caffeine citrate 20 mg/kg = caffeine 10 mg/kg`: the ordered dose in the form that is named in front of the figure. */
function isOtherForm({ before, quantity }: TextFigure, stated: Stated, recipe: Recipe, lookup: Lookup): boolean {
  return orderedDrugs(recipe).some((name) => {
    const drug = lookup.find("drug", name);
    if (!drug || !isNamedLast(before, name, lookup)) return false;
    const last = wordsOf(before).at(-1)!;
    // Where the citrate is counted, plain `caffeine` is the form declared as caffeine-base.
    const named = drug.substance.salts.find(
      (salt) => salt.name === `${last}-base` || tellingWords(salt.name, drug, lookup).includes(last),
    );
    const [ordered, said] = [baseShare(drug.substance, stated.as), baseShare(drug.substance, named?.name)];
    if (isRefusal(ordered) || isRefusal(said) || !said.isPositive()) return false;
    const { value, unit } = stated.quantity;
    return isNear({ value: value.times(ordered).over(said), unit }, quantity);
  });
}

/** What the order states for each kg or m2. A rate that is only the first is changed at the bedside. */
function statedLike({ unit }: Quantity, { order }: Recipe): Stated[] {
  const isTitrated = order?.one("use")?.slots.use.choice === "titrated";
  return (order?.every() ?? [])
    .filter(({ word }) => word !== "infuse-at" || !isTitrated)
    .flatMap((fact) =>
      measuresOf(fact).map((measure) => ({
        ...measure,
        as: formOf(fact.slots as object),
        time: timeOf(fact.slots as object),
      })),
    )
    .flatMap(({ quantity, written, as, time }) =>
      quantity?.unit.dimension === unit.dimension ? [{ quantity, written, as, time }] : [],
    );
}

function weightsOf(runs: readonly Run[]): Quantity[] {
  return runs.flatMap((run) => run.point.get("weight") ?? []);
}

/** Of a range each weight is asked in turn, so that a line with one weight suits one order of it only. */
function isOtherWeight(said: Quantity, runs: readonly Run[]): boolean {
  const known = weightsOf(runs);
  return known.length > 0 && known.every((each) => !inBase(each).equals(inBase(said)));
}
