/** Strengths of what a preparation is said to be made from: `from 500 mg/mL ampoules`, `glucose 12.5 % from 20 % and 5 %`. */
import { baseShare, isRefusal } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { measuresOf } from "../stated-measures.ts";
import { isEndOfRange } from "./bare-figures.ts";
import { countedForms } from "./counted-forms.ts";
import { figuresIn } from "./figures-in-text.ts";
import { isNear } from "./label-figures.ts";
import { type Percent, percentsIn } from "./percents-in-text.ts";
import { drawnStrengths } from "./portion-sources.ts";
import { percentByVolume, percentUnit } from "./portions-in-text.ts";
import { productStrengths } from "./product-figures.ts";
import { writtenInPortions } from "./stock-portions.ts";
import { assertions, type Contradiction, fluidsOf, ownWords } from "./words-against-order.ts";

const made = "(?:made|prepared|compounded|drawn(?: up)?|mixed|diluted|taken)";
/** What stands behind `from`, up to where something else begins. */
const inTitle = /\bfrom\b((?:(?!\b(?:in|for|over|to|into|made|via|with|by|at)\b)[^,;()])*)/gi;
const onLabel = new RegExp(
  `\\b${made} ?from\\b((?:(?!\\b(?:in|for|over|to|into|with|by|at)\\b)[^,;()])*)` +
    "|\\bfrom ((?:(?!\\b(?:in|for|over|to|into|with|by|at)\\b)[^,;()])*\\b(?:ampoules?|vials?|concentrate)\\b)",
  "gi",
);
/** Behind it another beginning or end is meant: `from 2 mg/mL upwards`, `changed from 2 mg/mL`. */
const otherFrom =
  /\b(?:differ\w*|chang\w*|switch\w*|convert\w*|separate\w*|protect\w*|away|titrat\w*|rang\w*|up(?:wards)?|light)\b/i;
const percent = /(\d+(?:\.\d+)?) ?%(?: ?([wv])\/v)?/g;

interface Said {
  written: string;
  quantity: Quantity;
}

export function sourceContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
  isTitle: boolean,
): Contradiction | undefined {
  if (!text.includes("from") && !text.includes("From")) return undefined;
  for (const sentence of assertions(text)) {
    if (otherFrom.test(sentence)) continue;
    for (const [, first, second] of sentence.matchAll(isTitle ? inTitle : onLabel)) {
      const inPortions = writtenInPortions(sentence, recipe, lookup);
      for (const { written, quantity } of strengthsIn(first ?? second ?? "")) {
        if (inPortions.has(written)) continue;
        const known = sourcesOf(quantity, sentence, recipe, runs, lookup);
        if (!known || known.labelled.length === 0) continue;
        if ([...known.labelled, ...known.others].some((each) => isNear(each, quantity))) continue;
        const shown = known.labelled.map((each) => shownAs(written, each));
        return { said: `from ${written}`, ordered: [...new Set(shown)].join(" and "), whole: "recipe" };
      }
    }
  }
  return undefined;
}

function strengthsIn(stretch: string): Said[] {
  if (!/\d/.test(stretch)) return [];
  const figures = figuresIn(stretch).filter(
    (figure) =>
      /^[a-z]+\/volume$/i.test(figure.quantity.unit.dimension.key) &&
      !isEndOfRange(figure) &&
      // Held against what the recipe declares as a dilution.
      !/^\s*dilution\b/i.test(figure.after),
  );
  const percents = [...stretch.matchAll(percent)].map(([written, value, kind]) => ({
    written,
    quantity: { value: Exact.of(value!), unit: kind === "v" ? percentByVolume : percentUnit },
  }));
  return [...figures, ...percents];
}

function shownAs(written: string, known: Quantity): string {
  if (!written.includes("%")) return showQuantity(known, 4);
  const one = known.unit.factor.over(percentUnit.factor);
  return showQuantity({ value: known.value.times(one), unit: percentUnit }, 4).replace(/ w\/v$/, "");
}

interface Sources {
  /** As products and fluids are labelled. */
  labelled: Quantity[];
  /** What was drawn on the way, and declared forms of the drug. */
  others: Quantity[];
}

/** Measured as the figure is; undefined where a thing on the bench is not known. */
function sourcesOf(
  figure: Quantity,
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Sources | undefined {
  if (recipe.materials.some(({ item }) => !lookup.find("stock", item.name) && !lookup.find("device", item.name)))
    return undefined;
  const isAlike = (each: Quantity) => each.unit.dimension === figure.unit.dimension;
  const drugs = orderedDrugs(recipe);
  const isPercent = figure.unit === percentUnit;
  const fluids = isPercent ? fluidsOf(recipe, lookup).map((name) => percentsOf(name, lookup)) : [];
  const { drugs: words } = ownWords(recipe, lookup);
  const ofDrug = fluids.flat().filter((each) => each.words.some((word) => words.has(word)));
  const labelled = [...productStrengths(recipe, lookup).filter(isAlike), ...ofDrug.map(asQuantity)];
  const between = recipe.intermediates
    .flatMap(({ facts }) => facts.all("at"))
    .flatMap(measuresOf)
    .flatMap(({ quantity }) => quantity ?? []);
  const forms = drugs.flatMap((name) => inForms(labelled, name, sentence, recipe, lookup));
  const drawn = drugs.flatMap((name) => drawnStrengths(name, figure, runs));
  return { labelled, others: [...fluids.flat().map(asQuantity), ...between.filter(isAlike), ...forms, ...drawn] };
}

function percentsOf(fluid: string, lookup: Lookup): readonly Percent[] {
  return percentsIn(lookup.find("fluid", fluid)?.facts.one("name")?.slots.text.text ?? "");
}

function asQuantity(said: Percent): Quantity {
  return { value: Exact.of(said.percent), unit: percentUnit };
}

/** The same strengths in the forms of the drug that the text, the order or a product counts. */
function inForms(labelled: readonly Quantity[], name: string, sentence: string, recipe: Recipe, lookup: Lookup) {
  const drug = lookup.find("drug", name);
  if (!drug) return [];
  return countedForms(drug, sentence, recipe, lookup).flatMap((form) => {
    const share = baseShare(drug.substance, form);
    if (isRefusal(share) || !share.isPositive()) return [];
    return labelled.flatMap(({ value, unit }) => [
      { value: value.over(share), unit },
      { value: value.times(share), unit },
    ]);
  });
}
