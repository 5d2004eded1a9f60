/**
 * A volume and the strength of the liquid that it is of: `8 mL of 500 mg/mL`, `8 mL of magnesium sulfate 50 %`, `1 mL of 1 in 1,000`.
 * Together they tell an amount, of a product that went in or of the finished container; neither is a figure of its own.
 */
import { amountOf, isRefusal, kindOf, kindUnits, strengthOf } from "../../bench/amounts.ts";
import type { AmountKind, Liquid } from "../../bench/liquid.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity, volumeOf } from "../../quantities/quantity.ts";
import { remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { countedForms } from "./counted-forms.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { percentsIn } from "./percents-in-text.ts";
import { isSame, productStrengths } from "./product-figures.ts";
import { ratiosIn } from "./ratios-in-text.ts";
import { near } from "./title-amounts.ts";
import { type Contradiction, fluidsOf, namesOf, wordsOf } from "./words-against-order.ts";

interface Portion {
  volume: TextFigure;
  /** Undefined in `4 g (8 mL) in ...`, where the amount stands beside its volume. */
  strength: Quantity | undefined;
  /** `500 mg/mL`, `50 %`, `1 in 1,000`; nothing where there is none. */
  strengthWritten: string;
  /** The whole text with other figures: `8 mL of magnesium sulfate 500 mg/mL`. */
  with(volume: string, strength: string): string;
  /** The words between the two. */
  words: readonly string[];
  /** Nothing says that it goes into something: `37 mg/mL, 100 mL` may be the finished container by its nominal volume. */
  isLoose?: true;
}

const percentUnit = findUnit("% w/v").unit!;

const link = /^ (?:(?:of|[x×]) (?:[A-Za-z][A-Za-z-]* ){0,5}|(?:[A-Za-z][A-Za-z-]* ){1,5})$/;
const percent = /^((?: [A-Za-z][A-Za-z-]*){0,6} )((\d+(?:\.\d+)?) ?%(?: w\/v)?)/;
/** `500 mg/mL 8 mL in ...`: what goes into something, its strength first. */
const strengthFirst = /^\)?,? \(?$/;
const percentBefore = /((\d+(?:\.\d+)?) ?%(?: w\/v)?)(,? \(?)$/;
const goesIn = /^[),]* (?:diluted |added |made up )?(?:in|to|with)\b/i;
/** `10 % 10 mL = calcium 2.3 mmol`, `100 units/mL 1 mL`: nothing else is said to be of this volume. */
const saysNoMore = /^\)?(?: ?=|[,;.]|\s*$| \(| (?:added|drawn|withdrawn)\b)/;
const wordsBefore = /(?:[A-Za-z][A-Za-z-]* )+$/;
/** `contains insulin 100 units/mL 1 mL`: the name begins behind such a word. */
const beforeNames = /^.*\b(?:in|into|with|and|plus|of|to|from|contains?|containing|holds?|add|added|using)\b/i;
/** Words that stand before the strength of a liquid beside the name of its drug. */
const ofTheLiquid: ReadonlySet<string> = new Set(
  "a an the of x solution concentrate injection ampoule ampoules vial vials stock product strength containing intermediate dilution".split(
    " ",
  ),
);
const aContainer: ReadonlySet<string> = new Set(["ampoule", "ampoules", "vial", "vials"]);
/** `in 50 mL of 2 mg/mL` and `to 50 mL of 1 mg/mL` tell what it is made up to. */
const isWhole = /\b(?:in|to)\s*$/i;
/** A part of what the container holds is given at a time. */
const bolus = /\bbolus\w*\b/i;
const isPart = /\b(?:loading|each|every|per|increments?|aliquots?|portions?|up to|exceed\w*|flush\w*)\b/i;

/** Volumes next to a strength, whatever stands between them. */
const pairsIn = remembered((sentence: string): readonly Portion[] => {
  const figures = figuresIn(sentence);
  const strengths = [...figures.filter(isStrength), ...ratiosIn(sentence)];
  return figures.flatMap((volume): Portion[] => {
    if (volume.quantity.unit.dimension.key !== "volume" || isWhole.test(volume.before)) return [];
    const found =
      strengthInFront(volume, strengths) ?? strengthBehind(volume, strengths) ?? amountInFront(volume, figures);
    return found ? [found] : [];
  });
});

function strengthBehind(volume: TextFigure, strengths: readonly TextFigure[]): Portion | undefined {
  const start = volume.before.length + volume.written.length;
  const pair = (between: string, strength: Quantity, strengthWritten: string): Portion => ({
    volume,
    strength,
    strengthWritten,
    with: (so, strong) => `${so}${between}${strong}${between.endsWith("(") ? ")" : ""}`,
    words: wordsOf(between),
  });
  for (const { before, written, after, quantity } of strengths) {
    const between = before.slice(start);
    if (before.length > start && (link.test(between) || (between === " (" && goesIn.test(after))))
      return pair(between, quantity, written);
  }
  const [, between, written, number] = percent.exec(volume.after) ?? [];
  if (between === undefined || written === undefined || number === undefined || !link.test(between)) return undefined;
  return pair(between, { value: Exact.of(number), unit: percentUnit }, written);
}

function strengthInFront(volume: TextFigure, strengths: readonly TextFigure[]): Portion | undefined {
  const isLoose = !goesIn.test(volume.after);
  if (isLoose && !saysNoMore.test(volume.after)) return undefined;
  const pair = (before: string, between: string, strength: Quantity, strengthWritten: string): Portion => ({
    ...(isLoose ? { isLoose } : {}),
    volume,
    strength,
    strengthWritten,
    with: (so, strong) => `${strong}${between}${so}${between.endsWith("(") ? ")" : ""}`,
    // `in glucose 5 % 1 L` is no volume of the drug.
    words: wordsOf((wordsBefore.exec(before)?.[0] ?? "").replace(beforeNames, "")),
  });
  for (const { before, written, quantity } of strengths) {
    const between = volume.before.slice(before.length + written.length);
    if (volume.before.length > before.length && strengthFirst.test(between))
      return pair(before, between, quantity, written);
  }
  const found = percentBefore.exec(volume.before);
  const [, written, number, between] = found ?? [];
  if (!found || between === undefined || written === undefined || number === undefined) return undefined;
  const before = volume.before.slice(0, found.index);
  return pair(before, between, { value: Exact.of(number), unit: percentUnit }, written);
}

/** `4 g (8 mL) in ...`: the volume of the product that holds the amount. */
function amountInFront(volume: TextFigure, figures: readonly TextFigure[]): Portion | undefined {
  const amount = figures.find(({ before, written }) => volume.before === `${before}${written} (`);
  const kind = amount && kindOf(amount.quantity);
  if (!amount || !kind || kind === "volume" || kindUnits[kind].dimension !== amount.quantity.unit.dimension)
    return undefined;
  if (!goesIn.test(volume.after)) return undefined;
  return { volume, strength: undefined, strengthWritten: "", with: (so) => `${amount.written} (${so})`, words: [] };
}

function isStrength({ quantity }: TextFigure): boolean {
  return quantity.unit.dimension.key.endsWith("/volume");
}

/** Those of which nothing but an ordered drug is named between volume and strength. */
function portionsOf(sentence: string, recipe: Recipe, lookup: Lookup): readonly Portion[] {
  const pairs = pairsIn(sentence);
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
  return strength !== undefined && productStrengths(recipe, lookup).some((each) => isSame(each, strength));
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

/** A liquid of the bench that a portion may be of. */
interface Source {
  drug: Drug;
  kind: AmountKind;
  /** In one mL, in the base unit of the drug's kind. */
  strength: Exact;
  /** mL that may be spoken of; the first is what the order comes to. */
  volumes: readonly Exact[];
  /** mL of one container of the product. */
  size: Exact | undefined;
  isFinished: boolean;
}

/** `80 mL of 500 mg/mL` for a dose of 4 g, and `8 mL of 50 mg/mL` where the product holds 500 mg/mL. */
export function portionContradicted(
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const portion of portionsOf(sentence, recipe, lookup)) {
    if (runs.some((run) => run.unknown)) return undefined;
    const { before } = portion.volume;
    const isBolus = bolus.test(sentence);
    const possible = runs.flatMap(sourcesOf).filter(({ isFinished }) => isFinished || !isBolus);
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

/** Strengths of what was drawn of a drug, in the unit of a figure; none where they cannot be counted so. */
export function drawnStrengths(name: string, figure: Quantity, runs: readonly Run[]): Quantity[] {
  return runs.flatMap((run) => {
    if (run.unknown) return [];
    return sourcesOf(run).flatMap(({ drug, kind, strength, isFinished }) => {
      if (isFinished || drug.name.name !== name) return [];
      const one = strengthOf({ value: Exact.one, unit: figure.unit }, kind, drug.substance);
      return isRefusal(one) || !one.isPositive() ? [] : [{ value: strength.over(one), unit: figure.unit }];
    });
  });
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

/** Liquids that were drawn, and the finished containers. What goes into an intermediate is more than the dose, so all that was drawn counts. */
function sourcesOf(run: Run): Source[] {
  const drawn = run.steps
    .flatMap(({ movements }) => movements)
    .filter(({ how, from }) => how === "draw" && !(from && run.finals.includes(from)));
  const all = (from: Vessel | undefined) =>
    drawn.reduce((sum, each) => (each.from?.name === from?.name ? sum.plus(each.moved) : sum), Exact.zero);
  return orderedDrugs(run.recipe).flatMap((name) => {
    const kind = run.setup.kinds.get(name);
    const drug = run.setup.drugs.get(name);
    if (!kind || !drug) return [];
    const doses = run.doses.flatMap(({ drug: of, given, as, ion, per }) => {
      const amount =
        of === name && given && !("time" in per) ? amountOf(given, kind, drug.substance, as, ion) : undefined;
      return amount && !isRefusal(amount) ? [amount] : [];
    });
    const held = run.finals.flatMap(({ liquid }) => liquid.amounts.get(name) ?? []);
    const amounts = [...doses, ...held];
    const together = run.makes > 1 ? amounts.map((amount) => amount.times(Exact.of(run.makes))) : [];
    const source = (liquid: Liquid, spoken: Exact, size?: Exact, isFinished = false): Source[] => {
      const { volume } = liquid;
      const amount = liquid.amounts.get(name);
      if (!amount?.isPositive() || !volume.isPositive()) return [];
      const strength = amount.over(volume);
      const needed = [...amounts, ...together].map((each) => each.over(strength));
      return [{ drug, kind, strength, volumes: [...needed, spoken], size, isFinished }];
    };
    return [
      ...drawn.flatMap(({ liquid, from }) => source(liquid, all(from), sizeOf(from))),
      ...run.finals.flatMap(({ liquid }) => source(liquid, liquid.volume, undefined, true)),
    ];
  });
}

function sizeOf(vessel: Vessel | undefined): Exact | undefined {
  return volumeOf(vessel?.stock?.facts.one("fill")?.slots.fill.quantity);
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
  const { volume, strength, strengthWritten, words } = portion;
  const { unit } = volume.quantity;
  const millilitres = inBase(volume.quantity);
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
  return written.includes("w/v") ? shown : shown.replace(" w/v", "");
}
