/** Strengths and limits of use that a line of the label repeats, laid against what the recipe makes. */
import { ionSetFree, isRefusal, kindOf, strengthOf } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { measuresOf } from "../stated-measures.ts";
import { amountsInVolumes } from "./amounts-in-volumes.ts";
import { isBare, isEndOfRange, ofAnother } from "./bare-figures.ts";
import { drugPercents } from "./drug-percents.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { wrongOnAnother } from "./label-series.ts";
import { ionBefore, tellingWords } from "./named-forms.ts";
import { nominalVolumes } from "./nominal-volumes.ts";
import { isHeldByProduct, productStrengths } from "./product-figures.ts";
import { ratiosIn, withStrength } from "./ratios-in-text.ts";
import { isSaltWord } from "./salt-words.ts";
import { portionContradicted, writtenInPortions } from "./stock-portions.ts";
import { near } from "./title-amounts.ts";
import { undeclaredForm } from "./undeclared-forms.ts";
import { assertions, type Contradiction, isNamedLast, ownWords, wordsOf } from "./words-against-order.ts";

/** What is made of it later, an upper end, or what is measured in the patient is another strength than the container's. */
export const otherStrength =
  /\b(?:dilut\w*|reconstitut\w*|flush\w*|exceed\w*|(?<!\bma[dk]e )up to|maximal|concentrate|serum|plasma|target\w*|limits?|troughs?|peaks?|levels?)\b/i;

/**
 * `morphine 2 mg/mL` on a syringe of 1 mg/mL: the drug is named in the same breath. Where none is named, the figure must be the strength
 * of one of the ordered drugs.
 */
export function strengthContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    for (const figure of figuresIn(sentence)) {
      const dilution = dilutionContradicted(figure, recipe);
      if (dilution) return dilution;
    }
    if (otherStrength.test(sentence)) continue;
    const portion = portionContradicted(sentence, recipe, runs, lookup);
    if (portion) return portion;
    const inPortions = writtenInPortions(sentence, recipe, lookup);
    for (const figure of [...figuresIn(sentence), ...ratiosIn(sentence)]) {
      if (inPortions.has(figure.written) || isHeldByProduct(figure, recipe, lookup)) continue;
      const contradicted = strengthsAgainst(figure, sentence, recipe, runs, lookup);
      if (!contradicted) continue;
      if (undeclaredForm(figure, sentence, contradicted.known, recipe, lookup)) continue;
      if (!contradicted.known.some((each) => isNear(each, figure.quantity))) return contradicted;
      const known = (of: Recipe, made: readonly Run[]) =>
        strengthsAgainst(figure, sentence, of, made, lookup)?.known ?? [];
      const onAnother = wrongOnAnother(figure, text, recipe, runs, known, isNear);
      if (onAnother) return onAnother;
    }
  }
  return undefined;
}

/** `(4 mg/mL)` in the title of a bag of 40 mg/mL. A title may tell a product or an intermediate by its strength. */
export function titleStrengthContradicted(
  figure: TextFigure,
  title: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const dilution = dilutionContradicted(figure, recipe);
  if (dilution) return dilution;
  if (otherStrength.test(title)) return undefined;
  const contradicted = strengthsAgainst(figure, title, recipe, runs, lookup);
  if (!contradicted || undeclaredForm(figure, title, contradicted.known, recipe, lookup)) return undefined;
  const made = runs.flatMap((run) => run.finals.map(({ liquid }) => liquid.volume));
  const nominal = contradicted.known.flatMap(({ value, unit }) =>
    nominalVolumes(recipe).flatMap((volume) => made.map((all) => ({ value: value.times(all).over(volume), unit }))),
  );
  // `Heparin lock 1,000 units/mL` without a dose says how strong the lock is, and not from what it is made.
  // `500 mg in 100 mL (50 mg/mL)` says the strength of just that.
  const isOfThat = amountsInVolumes(title).some(
    ({ volume }) => figure.before === `${volume.before}${volume.written} (`,
  );
  const tellsDose = figuresIn(title).some(({ quantity }) => isAmount(quantity));
  const products = tellsDose && !isOfThat ? productStrengths(recipe, lookup) : [];
  const between = recipe.intermediates.flatMap(({ facts }) => facts.all("at")).flatMap(measuresOf);
  const stated = [...products, ...between.flatMap(({ quantity }) => quantity ?? [])].filter(
    ({ unit }) => unit.dimension === figure.quantity.unit.dimension,
  );
  const known = [...contradicted.known, ...nominal, ...stated];
  return known.some((each) => isNear(each, figure.quantity)) ? undefined : contradicted;
}

/** `from a 50 mcg/mL dilution` where the recipe declares its dilutions, and none of that strength. */
function dilutionContradicted(
  { quantity, written, after }: TextFigure,
  { intermediates }: Recipe,
): Contradiction | undefined {
  if (!/^\s*dilution\b/i.test(after)) return undefined;
  const declared = intermediates
    .flatMap(({ facts }) => facts.all("at"))
    .flatMap(measuresOf)
    .filter((each) => each.quantity?.unit.dimension === quantity.unit.dimension);
  if (declared.length === 0 || declared.some((each) => isNear(each.quantity!, quantity))) return undefined;
  return { said: `${written} dilution`, ordered: declared.map((each) => each.written).join(" and "), whole: "recipe" };
}

export function isAmount(quantity: Quantity): boolean {
  const kind = kindOf(quantity);
  return kind !== undefined && kind !== "volume" && quantity.unit.dimension.key === kind;
}

/** What a figure would have to be, whether it is or not; undefined where it is no strength of the preparation, or nothing is known. */
function strengthsAgainst(
  figure: TextFigure,
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): (Contradiction & { known: Quantity[] }) | undefined {
  const { quantity, before } = figure;
  if (!quantity.unit.dimension.key.endsWith("/volume") || isEndOfRange(figure)) return undefined;
  const drugs = orderedDrugs(recipe);
  const named = drugs.find((drug) => isNamedLast(before, drug, lookup));
  if (named === undefined && !isBare(figure, sentence, ownWords(recipe, lookup))) return undefined;
  let ion: string | undefined;
  const known = (named === undefined ? drugs : [named]).flatMap((drug) => {
    const forms = named === undefined ? formsSaid(sentence, drug, recipe, lookup) : formBefore(figure, drug, lookup);
    if (forms && "ion" in forms) ion = forms.ion;
    return strengthsOf(drug, quantity, forms, recipe, runs, lookup);
  });
  if (known.length === 0) return undefined;
  const of = drugs.length === 1 ? drugs[0] : named;
  const ordered = of === undefined ? shownAll(known) : shownAll(known.slice(0, 1));
  const said = withStrength(figure);
  return {
    said: ion === undefined ? said : `${said} of ${ion}`,
    ordered,
    whole: of === undefined ? "recipe" : `recipe for ${of}`,
    known,
  };
}

/** A label tells what is in the container it sticks to. */
const finished = { nominal: [], withStocks: false, withFluids: true };

/** `Morphine 1 %` on a bag of 0.1 %. */
export function percentContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    if (otherStrength.test(sentence) || ofAnother.test(sentence)) continue;
    const inPortions = writtenInPortions(sentence, recipe, lookup);
    const first = drugPercents(sentence, recipe, runs, lookup, finished).find(
      ({ written }) => !inPortions.has(written),
    );
    const [known] = first?.known ?? [];
    if (first && known !== undefined) return { said: first.written, ordered: known, whole: "recipe" };
  }
  return undefined;
}

/** Figures as a message lays them beside the text, each once. */
export function shownAll(known: readonly Quantity[]): string {
  return [...new Set(known.map((each) => showQuantity(each, 4)))].join(" and ");
}

/** Whether a figure in print is that strength, as print rounds. */
export function isNear(known: Quantity, said: Quantity): boolean {
  return inBase(known).minus(inBase(said)).abs().isAtMost(inBase(known).times(near));
}

/** In which forms a strength without a name may be counted: as the drug is, as it was ordered, and as the line says. */
function formsSaid(sentence: string, name: string, recipe: Recipe, lookup: Lookup): string[] {
  const drug = lookup.find("drug", name);
  if (!drug) return [];
  const said = new Set(wordsOf(sentence));
  const orderedAs = [...recipe.order!.all("dose"), ...recipe.order!.all("drug"), ...recipe.order!.all("additive")].map(
    ({ slots }) => slots.salt?.name,
  );
  return drug.substance.salts
    .map((salt) => salt.name)
    .filter((salt) => orderedAs.includes(salt) || tellingWords(salt, drug, lookup).some((word) => said.has(word)));
}

/** The one form that a line names for its figure. */
type NamedForm = { as: string; isOfBase: boolean } | { ion: string };

/**
 * What finished containers hold of it and what the recipe states of it, in the unit of the figure.
 * @param forms in which it may be counted instead of as the drug is; a single one is the form that the line names
 */
export function strengthsOf(
  name: string,
  figure: Quantity,
  forms: readonly string[] | NamedForm | undefined,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Quantity[] {
  const drug = lookup.find("drug", name);
  if (!drug) return [];
  const found: Quantity[] = [];
  for (const run of runs) {
    const kind = run.setup.kinds.get(name);
    if (!kind || run.unknown) continue;
    const countedAs = (as?: string) => {
      const one = strengthOf({ value: Exact.one, unit: figure.unit }, kind, drug.substance, as);
      return isRefusal(one) || !one.isPositive() ? undefined : one;
    };
    const one = countedAs();
    if (!one) continue;
    // `adrenaline (as tartrate) 1 mg/mL` counts adrenaline, by custom.
    const counts =
      forms === undefined
        ? [one]
        : "ion" in forms
          ? countedInIon(one, forms.ion, drug)
          : "as" in forms
            ? [forms.isOfBase ? one : (countedAs(forms.as) ?? one)]
            : [one, ...forms.flatMap((form) => countedAs(form) ?? [])];
    for (const { liquid } of run.finals) {
      const held = liquid.amounts.get(name);
      if (!held || !liquid.volume.isPositive()) continue;
      for (const count of counts) found.push({ value: held.over(liquid.volume).over(count), unit: figure.unit });
    }
  }
  // What the preparation states is laid against the bench where it stands, and not once more on the label.
  const claims = recipe.preparations.flatMap(({ facts }) => [
    ...facts.all("nominal-concentration"),
    ...facts.all("concentration"),
  ]);
  for (const { slots } of claims) {
    const { quantity } = slots.concentration;
    const of = (slots as { drug?: { name: string } }).drug?.name;
    const claimedIon = (slots as { ion?: { name: string } }).ion?.name;
    if (forms && "ion" in forms && claimedIon !== forms.ion) continue;
    if (isOtherForm(slots.salt?.name, forms, drug.substance.base)) continue;
    if ((of === undefined || of === name) && quantity?.unit.dimension === figure.unit.dimension)
      found.push({ value: inBase(quantity).over(inBase({ value: Exact.one, unit: figure.unit })), unit: figure.unit });
  }
  return found;
}

/** The counted amount of the drug that brings so much of the ion; none where that cannot be worked out. */
function countedInIon(one: Exact, name: string, { substance }: Drug): Exact[] {
  const ion = substance.ions.find((each) => each.name === name);
  const free = ion && ionSetFree(Exact.one, "mass", "mass", substance, ion);
  return !free || isRefusal(free) || !free.isPositive() ? [] : [one.over(free)];
}

/** `Calcium 20 mg/mL (as gluconate)` counts the salt. */
function saysSalt({ after }: TextFigure): boolean {
  return isSaltWord(/^\s*\(?(?:of |as )(?:the )?([a-z]+)/i.exec(after)?.[1]?.toLowerCase() ?? "");
}

/** A claim that counts another form than the line names says nothing of it. */
function isOtherForm(
  claimed: string | undefined,
  forms: readonly string[] | NamedForm | undefined,
  base: string | undefined,
): boolean {
  if (forms === undefined || !("as" in forms)) return false;
  const wanted = forms.isOfBase ? base : forms.as;
  return (claimed ?? base) !== wanted;
}

/** `Caffeine citrate 20 mg/mL`, `Calcium 2 mg/mL`: the form, or the ion by mass, that the word before the figure names. */
function formBefore(figure: TextFigure, name: string, lookup: Lookup): NamedForm | undefined {
  const drug = lookup.find("drug", name);
  const words = wordsOf(figure.before);
  const last = words.at(-1);
  if (!drug || last === undefined) return undefined;
  const ion = kindOf(figure.quantity) === "mass" ? ionBefore(figure, drug, lookup) : undefined;
  if (ion !== undefined && !saysSalt(figure)) return { ion };
  const salt = drug.substance.salts.find((each) => tellingWords(each.name, drug, lookup).includes(last));
  return salt && { as: salt.name, isOfBase: words.at(-2) === "as" };
}
