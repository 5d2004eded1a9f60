/**
 * Two figures of a printed line that tell a strength together: `1 mL = 2 mg`, `1 mL contains 2 mg`, `1 mL/h = 2 mg/h`. Neither is a dose,
 * a volume or a rate of its own.
 */
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isEndOfRange, ofAnother } from "./bare-figures.ts";
import { drugAmounts } from "./drug-rates.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isNear, otherStrength, shownAll, strengthsOf } from "./label-figures.ts";
import { drawnStrengths } from "./portion-sources.ts";
import { writtenInPortions } from "./stock-portions.ts";
import { assertions, type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

interface Equation {
  figures: readonly TextFigure[];
  /** Undefined for `each mL`. */
  volume: TextFigure | undefined;
  /** `1 mL = 2 mg`, `2 mL (2 mg)`. */
  said: string;
  /** What stands between the two figures. */
  between: string;
  /** Amount in one mL, or for each kg or m2 of the patient. */
  strength: Quantity;
  by?: ByPatient;
}

type ByPatient = "weight" | "body-surface";
type Strength = Pick<Equation, "strength" | "by">;

/** What makes two figures say the same, with a word or two on either side. */
const equals =
  /^(?: bolus| of (?:the )?[a-z]+)?\s*(?:=|\b(?:equals?|is|contains?|holds?|provides?|gives?|delivers?)\b)\s*(?:[a-z]+ ){0,3}$/i;

/** `each mL contains 2 mg`; a product holds so much in each mL too, and is named as that. */
const eachHolds =
  /\b(?:each|every|one) mL (?:of (?:the )?[a-z]+ )?(?:contains?|holds?|provides?|gives?|delivers?) (?:[a-z]+ ){0,3}$/i;
/** A further drug in the same volume. */
const andAlso = /^(?:,? and|,| plus|,? with) (?:[a-z]+ ){1,3}$/i;
const oneMillilitre: Quantity = { value: Exact.one, unit: findUnit("mL").unit! };

/** `Bolus 2 mL (2 mg)`, `bolus of 2 mg in 2 mL`: one amount in two ways. Elsewhere `4 g (8 mL)` may speak of what went in. */
const isBolus = /\b(?:bolus(?:es)?|demand|breakthrough|rescue|top-up|pca)\b/i;
const saysAgain = /^(?: \(| in |, | or | = )(?:= |of )?$/i;

/** `Rate: 1 mL/h = 2 mg/h` and a bolus speak of the preparation. */
const ofThePreparation = /\b(?:rates?|bolus|loading)\b/gi;
const flushes = /\bflush\w*\b/i;

const equationsIn = remembered((sentence: string): readonly Equation[] => {
  const figures = figuresIn(sentence);
  const found: Equation[] = [];
  for (const [i, second] of figures.entries()) {
    const first = figures[i - 1];
    const between = first && second.before.slice(first.before.length + first.written.length);
    const above = found.at(-1);
    if (
      first &&
      between !== undefined &&
      (equals.test(between) ||
        (saysAgain.test(between) && isBolus.test(sentence) && !isEndOfRange(first) && !isEndOfRange(second)))
    ) {
      const strength = strengthOf(first.quantity, second.quantity) ?? strengthOf(second.quantity, first.quantity);
      const said = equals.test(between)
        ? `${first.written} = ${second.written}`
        : `${first.written}${between}${second.written}${between.includes("(") ? ")" : ""}`;
      const volume = isVolume(first) ? first : second;
      if (strength) found.push({ figures: [first, second], volume, said, between, ...strength });
    } else if (first && above?.figures.includes(first) && between !== undefined && andAlso.test(between)) {
      // `1 mL contains levobupivacaine 1 mg and fentanyl 2 mcg`.
      const strength = strengthOf(second.quantity, above.volume?.quantity ?? oneMillilitre);
      const said = `${above.volume?.written ?? "1 mL"} = ${second.written}`;
      if (strength) found.push({ figures: [second], volume: above.volume, said, between, ...strength });
    } else {
      const each = eachHolds.exec(second.before);
      const strength = each && strengthOf(second.quantity, oneMillilitre);
      if (strength)
        found.push({
          figures: [second],
          volume: undefined,
          said: `1 mL = ${second.written}`,
          between: each[0],
          ...strength,
        });
    }
  }
  return found;
}, mostSentences);

function isVolume({ quantity }: TextFigure): boolean {
  return quantity.unit.dimension.key.startsWith("volume");
}

const patientFigures: Readonly<Record<string, ByPatient>> = { bodyWeight: "weight", area: "body-surface" };

/** An amount, or one by time or for each kg, and the volume that it is in. `0.1 mL/kg = 10 mcg/kg` needs no weight. */
function strengthOf(amount: Quantity, volume: Quantity): Strength | undefined {
  const [kind, ...over] = amount.unit.dimension.key.split("/");
  const [below, second] = over;
  if (!kind || !drugAmounts.has(kind) || second !== undefined || !volume.value.isPositive()) return undefined;
  const by = below === undefined ? undefined : patientFigures[below];
  if (below !== undefined && below !== "time" && !by) return undefined;
  const isAlike = volume.unit.dimension.key === ["volume", ...over].join("/");
  if (!isAlike && !(by && volume.unit.dimension.key === "volume")) return undefined;
  const spelling = amount.unit.spelling.split("/")[0]!;
  const [one, unit] = [findUnit(spelling).unit, findUnit(`${spelling}/mL`).unit];
  if (!one || !unit) return undefined;
  const counted = inBase(amount).over(inBase({ value: Exact.one, unit: one }));
  const strength = { value: counted.over(inBase(volume)), unit };
  return by && !isAlike ? { strength, by } : { strength };
}

/** `1 mL = 20 mcg/kg` for 2 kg is 40 mcg/mL; undefined where the patient's figure is not known. */
function forThisPatient({ strength, by }: Strength, runs: readonly Run[]): Quantity | undefined {
  if (!by) return strength;
  const patient = runs[0]?.point.get(by);
  return (
    patient && { ...strength, value: strength.value.times(patient.value).times(patient.unit.factor).over(unitOf(by)) }
  );
}

function unitOf(by: ByPatient): Exact {
  return findUnit(by === "weight" ? "kg" : "m2").unit!.factor;
}

/** Figures that belong to an equation, and say nothing alone. */
export function figuresOfEquations(sentence: string): ReadonlySet<TextFigure> {
  return new Set(equationsIn(sentence).flatMap(({ figures }) => figures));
}

/** `1 mL = 20 mg` on a syringe of 2 mg/mL. */
export function equationContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    // A flush is another liquid, but on what is itself one.
    const isFlush = flushes.test(
      `${recipe.facts.one("title")?.slots.text.text} ${recipe.name.name.replaceAll("-", " ")}`,
    );
    const own = (isFlush ? sentence.replace(flushes, "") : sentence).replace(ofThePreparation, "");
    if (otherStrength.test(isFlush ? own : sentence) || ofAnother.test(own)) continue;
    const equations = equationsIn(sentence);
    const inPortions = equations.length > 0 ? writtenInPortions(sentence, recipe, lookup) : undefined;
    for (const { volume, said, between, ...stated } of equations) {
      const strength = forThisPatient(stated, runs);
      if (!strength) continue;
      const drugs = orderedDrugs(recipe);
      const words = new Set(wordsOf(between));
      const named = drugs.find((drug) =>
        namesOf("drug", drug, lookup).some((name) => wordsOf(name).some((word) => words.has(word))),
      );
      const of = named ?? (drugs.length === 1 ? drugs[0] : undefined);
      // `calcium gluconate 10 % 10 mL = calcium 2.3 mmol` tells what a volume of the product holds.
      const isOfProduct = volume !== undefined && inPortions?.has(volume.written) === true;
      const known = (of === undefined ? drugs : [of]).flatMap((drug) =>
        isOfProduct
          ? drawnStrengths(drug, strength, runs)
          : strengthsOf(drug, strength, undefined, recipe, runs, lookup),
      );
      if (known.length === 0 || known.some((each) => isNear(each, strength))) continue;
      const ordered = of === undefined ? shownAll(known) : shownAll(known.slice(0, 1));
      // What is for each kg is said in the kg of this patient.
      const patient = stated.by && showQuantity(runs[0]!.point.get(stated.by)!);
      return {
        said: patient ? `${said} (${showQuantity(strength, 4)} for ${patient})` : said,
        ordered,
        whole: of === undefined ? "recipe" : `recipe for ${of}`,
      };
    }
  }
  return undefined;
}
