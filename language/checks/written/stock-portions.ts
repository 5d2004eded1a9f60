/**
 * A volume and the strength of the liquid that it is of tell an amount together, of a product that went in or of the finished container;
 * neither is a figure of its own.
 */
import { isRefusal, strengthOf } from "../../bench/amounts.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { countedForms } from "./counted-forms.ts";
import { percentsIn } from "./percents-in-text.ts";
import { type Source, sourcesOf } from "./portion-sources.ts";
import { type Portion, percentByVolume, percentUnit, portionsIn } from "./portions-in-text.ts";
import { isSame, productStrengths } from "./product-figures.ts";
import { near } from "./title-amounts.ts";
import { type Contradiction, fluidsOf, namesOf, wordsOf } from "./words-against-order.ts";

/** Words that stand before the strength of a liquid beside the name of its drug. */
const ofTheLiquid: ReadonlySet<string> = new Set(
  "a an the of x solution concentrate injection ampoule ampoules vial vials stock product strength containing intermediate dilution".split(
    " ",
  ),
);
const aContainer: ReadonlySet<string> = new Set(["ampoule", "ampoules", "vial", "vials"]);
/** A part of what the container holds is given at a time. */
const bolus = /\bbolus\w*\b/i;
const isPart = /\b(?:loading|each|every|per|increments?|aliquots?|portions?|up to|exceed\w*|flush\w*)\b/i;

/** Those of which nothing but an ordered drug is named between volume and strength. */
function portionsOf(sentence: string, recipe: Recipe, lookup: Lookup): readonly Portion[] {
  const pairs = portionsIn(sentence);
  if (pairs.length === 0) return [];
  const drugs = orderedDrugs(recipe).flatMap((drug) => namesOf("drug", drug, lookup).flatMap(wordsOf));
  const isOfDrug = (word: string) => ofTheLiquid.has(word) || drugs.includes(word);
  return pairs.filter(
    (pair) =>
      pair.words.every(isOfDrug) &&
      !isOfFluid(pair, recipe, lookup) &&
      (!pair.isLoose || isOfProduct(pair, recipe, lookup)),
  );
}

/** The strength is one that stands on the label of a product. */
function isOfProduct({ strength }: Portion, recipe: Recipe, lookup: Lookup): boolean {
  if (!strength) return false;
  const asSaid = strength.unit === percentUnit ? [strength, { ...strength, unit: percentByVolume }] : [strength];
  return productStrengths(recipe, lookup).some((each) => asSaid.some((said) => isSame(each, said)));
}

/** `500 mL of sodium chloride 0.9 %` where sodium chloride is added too: that is the fluid's name. */
function isOfFluid({ words, strength }: Portion, recipe: Recipe, lookup: Lookup): boolean {
  if (strength?.unit !== percentUnit) return false;
  return fluidsOf(recipe, lookup).some((fluid) =>
    percentsIn(lookup.find("fluid", fluid)?.facts.one("name")?.slots.text.text ?? "").some(
      (part) => Exact.of(part.percent).equals(strength.value) && part.words.every((word) => words.includes(word)),
    ),
  );
}

/** How the figures of portions are written; they say nothing alone. */
export function writtenInPortions(sentence: string, recipe: Recipe, lookup: Lookup): ReadonlySet<string> {
  return new Set(
    portionsOf(sentence, recipe, lookup).flatMap(({ volume, strength, strengthWritten }) =>
      strength ? [volume.written, strengthWritten] : [volume.written],
    ),
  );
}

/**
 * `80 mL of 500 mg/mL` for a dose of 4 g, and `8 mL of 50 mg/mL` where the product holds 500 mg/mL.
 * @param nominal volumes in mL by which a finished container may be reckoned too
 */
export function portionContradicted(
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
  nominal: readonly Exact[] = [],
): Contradiction | undefined {
  for (const portion of portionsOf(sentence, recipe, lookup)) {
    if (runs.some((run) => run.unknown)) return undefined;
    const { before } = portion.volume;
    const isBolus = bolus.test(sentence);
    const possible = runs.flatMap((run) => sourcesOf(run, nominal)).filter(({ isFinished }) => isFinished || !isBolus);
    const sources = named(possible, [...wordsOf(before), ...portion.words], lookup);
    const isOfPart = isBolus || isPart.test(sentence);
    const judged = sources.flatMap((source) => judge(portion, source, isOfPart, sentence, recipe, lookup));
    if (judged.length === 0 || judged.some(({ isStrong, isMuch }) => isStrong && isMuch)) continue;
    const closest = judged.find(({ isStrong }) => isStrong) ?? judged.find(({ isMuch }) => isMuch) ?? judged[0]!;
    const said = portion.with(portion.volume.written, portion.strengthWritten);
    return { said, ordered: closest.right, whole: "recipe" };
  }
  return undefined;
}

/** Those of the drug that is named last; all where none is. */
function named(sources: readonly Source[], words: readonly string[], lookup: Lookup): readonly Source[] {
  for (const word of [...words].reverse()) {
    const own = sources.filter(({ drug }) =>
      namesOf("drug", drug.name.name, lookup).some((name) => wordsOf(name).includes(word)),
    );
    if (own.length > 0) return own;
  }
  return sources;
}

interface Judged {
  isStrong: boolean;
  isMuch: boolean;
  right: string;
}

/** Whether strength and volume are those of the source, and both as they should be; once for each form in which the strength may be counted. */
function judge(
  portion: Portion,
  { drug, kind, strength: real, volumes, size }: Source,
  isOfPart: boolean,
  sentence: string,
  recipe: Recipe,
  lookup: Lookup,
): Judged[] {
  const { volume, strengthWritten, words } = portion;
  const strength = portion.strength && asCounted(portion.strength, strengthWritten, kind);
  const { unit } = volume.quantity;
  // `2 x 4 mL of 1 mg/mL`.
  const count = /(\d+) ?[x×] ?$/.exec(volume.before)?.[1] ?? "1";
  const millilitres = inBase(volume.quantity).times(Exact.of(count));
  const [first] = volumes;
  if (!first) return [];
  // `10 mL ampoules of 500 mg/mL` tells the size of each.
  const spoken = size && words.some((word) => aContainer.has(word)) ? [...volumes, size] : volumes;
  const isMuch = isOfPart || spoken.some((each) => isAbout(each, millilitres));
  const much = isMuch
    ? volume.written
    : showQuantity({ value: first.over(inBase({ value: Exact.one, unit })), unit }, 4);
  if (!strength) return [{ isStrong: true, isMuch, right: portion.with(much, "") }];
  return countedForms(drug, sentence, recipe, lookup).flatMap((as) => {
    const one = strengthOf({ value: Exact.one, unit: strength.unit }, kind, drug.substance, as);
    if (isRefusal(one) || !one.isPositive()) return [];
    const known = { value: real.over(one), unit: strength.unit };
    const isStrong = isAbout(known.value, strength.value);
    const strong = isStrong ? strengthWritten : shownLike(known, strengthWritten);
    return [{ isStrong, isMuch, right: portion.with(much, strong) }];
  });
}

function isAbout(known: Exact, said: Exact): boolean {
  return known.minus(said).abs().isAtMost(known.times(near));
}

/** `50 %` beside `5 %`, and `50 % w/v` beside `5 % w/v`. */
function shownLike(known: Quantity, written: string): string {
  const shown = showQuantity(known, 4);
  return /[wv]\/v/.test(written) ? shown : shown.replace(/ [wv]\/v/, "");
}

/** `Ethanol 96 %`, bare, of what is counted by volume is % v/v. */
function asCounted(strength: Quantity, written: string, kind: AmountKind): Quantity {
  const isByVolume = kind === "volume" && strength.unit === percentUnit && !written.includes("w/v");
  return isByVolume ? { ...strength, unit: percentByVolume } : strength;
}
