/**
 * Two figures of a printed line that tell a strength together: `1 mL = 2 mg`, `1 mL contains 2 mg`, `1 mL/h = 2 mg/h`,
 * `1 mL/h = 10 mcg/kg/min`. Neither is a dose,
 * a volume or a rate of its own.
 */
import { forPatient, type OrderPoint } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { ofAnother } from "./bare-figures.ts";
import { bodyWeightsIn, figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isNear, otherStrength, shownAll, strengthsOf } from "./label-figures.ts";
import { assertions, type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

interface Equation {
  figures: readonly [TextFigure, TextFigure];
  /** `1 mL = 2 mg`. */
  said: string;
  /** What stands before the second figure. */
  between: string;
  /** The volume stands before another amount: `1 mL contains …`. */
  isContinued: boolean;
  /** An amount, or an amount by time, perhaps for each kg or m2 of the patient. */
  amount: Quantity;
  /** The volume that it is in, or the volume by time. */
  volume: Quantity;
}

/** What makes two figures say the same, with a word or two on either side. */
const equals =
  /^(?: of (?:the )?[a-z]+)?\s*(?:=|\b(?:equals?|is|contains?|holds?|provides?|gives?|delivers?)\b)\s*(?:[a-z]+ ){0,3}$/i;

/** `Rate: 1 mL/h = 2 mg/h` speaks of the preparation. */
const rate = /\brates?\b/gi;

const amounts: ReadonlySet<string> = new Set(["mass", "moles", "equivalents", "activity"]);
/** What a dose is counted for. */
const patient: ReadonlySet<string> = new Set(["bodyWeight", "area"]);

/** `1 mL contains ropivacaine 2 mg and sufentanil 0.5 mcg`: the second amount is in the same volume. */
const andAlso = /^(?:,| and| with| plus)\s+(?:[a-z]+ ){1,3}$/i;

const equationsIn = remembered((sentence: string): readonly Equation[] => {
  const figures = figuresIn(sentence);
  // The volume that the figures in a row are in.
  let shared: TextFigure | undefined;
  return figures.flatMap((second, i) => {
    const before = figures[i - 1];
    const between = before && second.before.slice(before.before.length + before.written.length);
    const isNext = between !== undefined && equals.test(between);
    if (isNext) shared = before;
    else if (between === undefined || !andAlso.test(between)) shared = undefined;
    const first = shared;
    if (!first || between === undefined) return [];
    const [one, other] = [first.quantity, second.quantity];
    const sides = isInVolume(one, other)
      ? { amount: one, volume: other }
      : isInVolume(other, one)
        ? { amount: other, volume: one }
        : undefined;
    const said = `${first.written} = ${second.written}`;
    return sides ? [{ figures: [first, second] as const, said, between, isContinued: !isNext, ...sides }] : [];
  });
});

function isInVolume(amount: Quantity, volume: Quantity): boolean {
  const [kind, ...below] = amount.unit.dimension.key.split("/");
  const over = below.filter((each) => !patient.has(each)).join("/");
  if (kind === undefined || !amounts.has(kind) || !volume.value.isPositive()) return false;
  return volume.unit.dimension.key === (over === "" ? "volume" : `volume/${over}`) && (over === "" || over === "time");
}

/** Amount in one mL. */
function strengthOf(amount: Quantity, volume: Quantity): Quantity | undefined {
  const spelling = amount.unit.spelling.split("/")[0]!;
  const [one, unit] = [findUnit(spelling).unit, findUnit(`${spelling}/mL`).unit];
  if (!one || !unit) return undefined;
  const counted = inBase(amount).over(inBase({ value: Exact.one, unit: one }));
  return { value: counted.over(inBase(volume)), unit };
}

/** Figures that belong to an equation, and say nothing alone. */
export function figuresOfEquations(sentence: string): ReadonlySet<TextFigure> {
  return new Set(equationsIn(sentence).flatMap(({ figures }) => figures));
}

/** `1 mL = 20 mg` on a syringe of 2 mg/mL, `1 mL/h = 10 mcg/kg/min` on one that gives 1 mcg/kg/min to a patient of the ordered weight. */
export function equationContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    if (otherStrength.test(sentence) || ofAnother.test(sentence.replace(rate, ""))) continue;
    for (const equation of equationsIn(sentence)) {
      const drugs = orderedDrugs(recipe);
      const words = new Set(wordsOf(equation.between));
      const named = drugs.find((drug) =>
        namesOf("drug", drug, lookup).some((name) => wordsOf(name).some((word) => words.has(word))),
      );
      // Behind another amount only the name of a drug tells that it is in the same volume.
      if (equation.isContinued && named === undefined) continue;
      const of = named ?? (drugs.length === 1 ? drugs[0] : undefined);
      const judged = runs.flatMap((run) =>
        judge(equation, sentence, of === undefined ? drugs : [of], recipe, run, lookup),
      );
      if (judged.length === 0 || judged.some(({ known, strength }) => isNear(known, strength))) continue;
      const { amount, volume, said } = equation;
      const [first] = judged;
      if (isForPatient(amount)) {
        // The same volume with what it gives.
        const right = { value: amount.value.times(first!.known.value).over(first!.strength.value), unit: amount.unit };
        const ordered = `${showQuantity(volume)} = ${showQuantity(right, 4)}${first!.patient}`;
        return { said, ordered, whole: of === undefined ? "recipe" : `recipe for ${of}` };
      }
      const known = judged.map((each) => each.known);
      const ordered = of === undefined ? shownAll(known) : shownAll(known.slice(0, 1));
      return { said, ordered, whole: of === undefined ? "recipe" : `recipe for ${of}` };
    }
  }
  return undefined;
}

interface Judged {
  /** The strength that the recipe makes or states. */
  known: Quantity;
  /** The strength that the equation tells for the patient of this run. */
  strength: Quantity;
  /** ` at 3 kg`; empty where the equation is for anybody. */
  patient: string;
}

/** Empty where the equation is for each kg and no weight is known, or no strength is. */
function judge(
  { amount, volume }: Equation,
  sentence: string,
  drugs: readonly string[],
  recipe: Recipe,
  run: Run,
  lookup: Lookup,
): Judged[] {
  const points = isForPatient(amount) ? patientsOf(run, sentence) : [run.point];
  return points.flatMap((point) => {
    const whole = isForPatient(amount) ? forPatient(amount, point) : amount;
    const strength = whole && strengthOf(whole, volume);
    if (!strength?.value.isPositive()) return [];
    const by = amount.unit.dimension.key.includes("area") ? point.get("body-surface") : point.get("weight");
    const at = isForPatient(amount) && by ? ` at ${showQuantity(by)}` : "";
    return drugs
      .flatMap((drug) => strengthsOf(drug, strength, undefined, recipe, [run], lookup))
      .map((known) => ({ known, strength, patient: at }));
  });
}

function isForPatient({ unit }: Quantity): boolean {
  return unit.dimension.key.split("/").some((each) => patient.has(each));
}

/** Of the ordered weight, and of the one that the sentence says, which is told by itself where it is another. */
function patientsOf({ point }: Run, sentence: string): OrderPoint[] {
  const said = bodyWeightsIn(sentence).map(({ quantity }) => new Map([...point, ["weight", quantity] as const]));
  return [point, ...said];
}
