/** A figure for each kg or m2 of the patient in printed text, laid against the dose of this patient where the order states none measured so. */
import { amountOf, isRefusal, kindOf } from "../../bench/amounts.ts";
import { forPatient, inputRanges } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { patientBounds } from "../limits/patient-bounds.ts";
import { withArticle } from "../showing.ts";
import { measuresOf } from "../stated-measures.ts";
import { isWithin } from "../written-bounds.ts";
import { isBare } from "./bare-figures.ts";
import { bodyWeightsIn, figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isNear } from "./label-figures.ts";
import { isInAllOfIt } from "./label-volumes.ts";
import { matchesDose } from "./title-amounts.ts";
import { dosesGiven, undeclaredForm } from "./undeclared-forms.ts";
import { ownWords } from "./words-against-order.ts";

const millilitre = findUnit("mL").unit!;

/** m2 of a patient of 30 kg or less as kg: oncology protocols give infants the dose for 1 m2 ÷ 30 for each kg (common practice, from memory). */
const kilogramsForSquareMetre = Exact.of(30);

/** mg/kg, units/kg, mL/kg, mg/m2; what is given by time is a rate. */
export function isForEach({ unit }: Quantity): boolean {
  const [, ...below] = unit.dimension.key.split("/");
  return below.length === 1 && (below[0] === "bodyWeight" || below[0] === "area");
}

/**
 * `50 mg/kg` where 15 mg are ordered for 3 kg, `5 mg/m2` where the order counts by kg.
 * @returns what is ordered, in words; undefined where the figure fits, or nothing can be said
 */
export function doseForPatientContradicted(
  figure: TextFigure,
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): string | undefined {
  const { quantity } = figure;
  if (!isForEach(quantity)) return undefined;
  if (isOfPart(recipe) && !isInAllOfIt(figure, recipe, runs)) return sameFigure(quantity, recipe);
  const [amount, by] = quantity.unit.dimension.key.split("/");
  const input = by === "area" ? "body-surface" : "weight";
  const [said] = input === "weight" ? bodyWeightsIn(text) : [];
  const known = new Set<string>();
  for (const run of runs) {
    if (run.doses.some(({ per }) => "time" in per)) return undefined;
    const patient = run.point.get(input) ?? said?.quantity;
    const all = patient && forPatient(quantity, new Map([[input, patient]]));
    if (!all) {
      for (const each of impliedPatient(quantity, input, text, run)) known.add(each);
      continue;
    }
    const against =
      amount === "volume"
        ? volumeContradicted({ ...figure, quantity: all }, text, recipe, run, lookup)
        : amountContradicted({ ...figure, quantity: all }, text, recipe, run, lookup);
    if (against === "fits") return undefined;
    for (const each of against) known.add(`${each} for ${showQuantity(patient)}`);
  }
  return countedOtherwise(quantity, input, recipe) ?? (known.size > 0 ? [...known].join(" and ") : undefined);
}

/** Of a part of the container it tells what is given at once, and the container holds more. */
function isOfPart({ order }: Recipe): boolean {
  const use = order?.one("use")?.slots.use.choice;
  return use === "part-of-container" || use === "titrated";
}

/** `20 mg/m2` where 20 mg/kg are ordered: the ordered figure, counted otherwise. */
function sameFigure({ value, unit }: Quantity, recipe: Recipe): string | undefined {
  return dosesForEach(recipe).find(
    ({ quantity }) => quantity?.value.equals(value) && quantity.unit.dimension !== unit.dimension,
  )?.written;
}

function dosesForEach({ order }: Recipe) {
  return [...(order?.all("dose") ?? []), ...(order?.all("additive") ?? [])]
    .flatMap(measuresOf)
    .filter(({ quantity }) => quantity && isForEach(quantity));
}

/** For whom the ordered dose would be by such a figure, where nobody is that heavy or that large. */
function impliedPatient(figure: Quantity, input: "weight" | "body-surface", text: string, run: Run): string[] {
  const who = run.recipe.order?.one("population")?.slots.who.choice;
  const bounds = patientBounds(input, who);
  const kind = kindOf(figure);
  const [dose, second] = run.doses;
  const drug = dose && run.setup.drugs.get(dose.drug);
  if (!bounds || !kind || !dose?.given || second || !drug || !figure.value.isPositive()) return [];
  const amount = amountOf(dose.given, kind, drug.substance, dose.as, dose.ion);
  // Nothing turns the one into the other; a text that says both cannot be judged.
  if (isRefusal(amount))
    return figuresIn(text).some((each) => kindOf(each.quantity) === kindOf(dose.given!))
      ? []
      : [showQuantity(dose.given)];
  const patient = { value: amount.over(inBase(figure)), unit: findUnit(input === "weight" ? "kg" : "m2").unit! };
  // `40 mcg/kg` where 40 mcg are ordered: nobody says so of a patient of just 1 kg without the weight.
  if (isWithin(patient, bounds) !== false && !patient.value.equals(Exact.one)) return [];
  const given = `${showQuantity(dose.given)}${who === undefined ? "" : ` for ${withArticle(who)}`}`;
  return [`${given}, which would be a patient of ${showQuantity(patient, 3)}`];
}

function amountContradicted(
  figure: TextFigure,
  text: string,
  recipe: Recipe,
  run: Run,
  lookup: Lookup,
): "fits" | readonly string[] {
  const judged = matchesDose(figure, text, recipe, [run], lookup);
  if (judged?.fits || judged?.form || undeclaredForm(figure, text, dosesGiven([run]), recipe, lookup)) return "fits";
  if (judged) return judged.known;
  // `50 units/kg` where 50 mg/kg come to the dose: the right figure, in a unit that no fact turns into the ordered one.
  return run.doses.flatMap(({ given }) =>
    given && prefixes.some((by) => given.value.times(by).equals(figure.quantity.value)) ? showQuantity(given) : [],
  );
}

/** From one unit of mass to the next. */
const prefixes = ["1", "1000", "0.001", "1000000"].map((by) => Exact.of(by));

/** A volume for each kg is that of all of it, of its diluent, or of what is drawn for it; beside other words it may be another liquid's. */
function volumeContradicted(
  figure: TextFigure,
  text: string,
  recipe: Recipe,
  run: Run,
  lookup: Lookup,
): "fits" | readonly string[] {
  if (run.unknown || !isBare(figure, text, ownWords(recipe, lookup))) return "fits";
  const whole = run.finals.map(({ liquid }) => asVolume(liquid.volume));
  const moved = run.steps.flatMap(({ movements }) => movements.map((each) => asVolume(each.moved)));
  const stated = [...(recipe.order?.all("final-volume") ?? []), ...(recipe.order?.all("diluent-volume") ?? [])].flatMap(
    ({ slots }) => (slots.volume.quantity && forPatient(slots.volume.quantity, run.point)) ?? [],
  );
  const fits = [...whole, ...moved, ...stated].some(
    (each) => each.unit.dimension === millilitre.dimension && isNear(each, figure.quantity),
  );
  return fits ? "fits" : whole.map((each) => showQuantity(each, 4));
}

function asVolume(value: Exact): Quantity {
  return { value, unit: millilitre };
}

/** The dose that the order states for each kg, for a figure for each m2, and the other way round, where the patient's other figure is not known. */
function countedOtherwise({ value, unit }: Quantity, input: string, recipe: Recipe): string | undefined {
  if (inputRanges(recipe).some((range) => range.input === input)) return undefined;
  const isByArea = input === "body-surface";
  const others = dosesForEach(recipe).filter(({ quantity }) => quantity!.unit.dimension !== unit.dimension);
  if (others.length === 0) return undefined;
  const counted = findUnit(unit.spelling.replace(/\/.*$/, isByArea ? "/kg" : "/m2")).unit;
  const asOther = isByArea ? value.over(kilogramsForSquareMetre) : value.times(kilogramsForSquareMetre);
  const isByRule = others.some(
    ({ quantity }) =>
      counted && quantity?.unit.dimension === counted.dimension && isNear(quantity, { value: asOther, unit: counted }),
  );
  return isByRule ? undefined : [...new Set(others.map(({ written }) => written))].join(" and ");
}
