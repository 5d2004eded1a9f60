/**
 * A volume and the strength of the liquid that it is of: `8 mL of 500 mg/mL`, `8 mL of magnesium sulfate 50 %`, `1 mL of 1 in 1,000`.
 * Together they tell an amount, of a product that went in or of the finished container; neither is a figure of its own.
 */
import { amountOf, isRefusal, strengthOf } from "../../bench/amounts.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { countedForms } from "./counted-forms.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { ratiosIn } from "./ratios-in-text.ts";
import { near } from "./title-amounts.ts";
import { type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

interface Portion {
  volume: TextFigure;
  strength: Quantity;
  /** `500 mg/mL`, `50 %`, `1 in 1,000`. */
  strengthWritten: string;
  /** The whole text with other figures: `8 mL of magnesium sulfate 500 mg/mL`. */
  with(volume: string, strength: string): string;
  /** The words between the two. */
  words: readonly string[];
}

const percentUnit = findUnit("% w/v").unit!;

const link = /^ (?:(?:of|[x×]) (?:[A-Za-z][A-Za-z-]* ){0,5}|(?:[A-Za-z][A-Za-z-]* ){1,5})$/;
const percent = /^((?: [A-Za-z][A-Za-z-]*){0,6} )((\d+(?:\.\d+)?) ?%(?: w\/v)?)/;
/** `500 mg/mL 8 mL in ...`: what goes into something, its strength first. */
const strengthFirst = /^,? \(?$/;
const percentBefore = /((\d+(?:\.\d+)?) ?%(?: w\/v)?)(,? \(?)$/;
const goesIn = /^\)? (?:diluted |added |made up )?(?:in|to|with)\b/i;
/** Words that stand before the strength of a liquid beside the name of its drug. */
const ofTheLiquid: ReadonlySet<string> = new Set(
  "a an the of x solution concentrate injection ampoule ampoules vial vials stock product strength containing intermediate dilution".split(
    " ",
  ),
);
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
    const found = strengthInFront(volume, strengths) ?? strengthBehind(volume, strengths);
    return found ? [found] : [];
  });
});

function strengthBehind(volume: TextFigure, strengths: readonly TextFigure[]): Portion | undefined {
  const start = volume.before.length + volume.written.length;
  const pair = (between: string, strength: Quantity, strengthWritten: string): Portion => ({
    volume,
    strength,
    strengthWritten,
    with: (so, strong) => `${so}${between}${strong}`,
    words: wordsOf(between),
  });
  for (const { before, written, quantity } of strengths) {
    const between = before.slice(start);
    if (before.length > start && link.test(between)) return pair(between, quantity, written);
  }
  const [, between, written, number] = percent.exec(volume.after) ?? [];
  if (between === undefined || written === undefined || number === undefined || !link.test(between)) return undefined;
  return pair(between, { value: Exact.of(number), unit: percentUnit }, written);
}

function strengthInFront(volume: TextFigure, strengths: readonly TextFigure[]): Portion | undefined {
  if (!goesIn.test(volume.after)) return undefined;
  const pair = (between: string, strength: Quantity, strengthWritten: string): Portion => ({
    volume,
    strength,
    strengthWritten,
    with: (so, strong) => `${strong}${between}${so}`,
    words: [],
  });
  for (const { before, written, quantity } of strengths) {
    const between = volume.before.slice(before.length + written.length);
    if (volume.before.length > before.length && strengthFirst.test(between)) return pair(between, quantity, written);
  }
  const [, written, number, between] = percentBefore.exec(volume.before) ?? [];
  if (between === undefined || written === undefined || number === undefined) return undefined;
  return pair(between, { value: Exact.of(number), unit: percentUnit }, written);
}

function isStrength({ quantity }: TextFigure): boolean {
  return quantity.unit.dimension.key.endsWith("/volume");
}

/** Those of which nothing but an ordered drug is named between volume and strength. */
function portionsOf(sentence: string, recipe: Recipe, lookup: Lookup): readonly Portion[] {
  const pairs = pairsIn(sentence);
  if (pairs.length === 0) return [];
  const drugs = orderedDrugs(recipe).flatMap((drug) => namesOf("drug", drug, lookup).flatMap(wordsOf));
  return pairs.filter(({ words }) => words.every((word) => ofTheLiquid.has(word) || drugs.includes(word)));
}

/** How the figures of portions are written; they say nothing alone. */
export function writtenInPortions(sentence: string, recipe: Recipe, lookup: Lookup): ReadonlySet<string> {
  return new Set(
    portionsOf(sentence, recipe, lookup).flatMap(({ volume, strengthWritten }) => [volume.written, strengthWritten]),
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
    const source = (volume: Exact, amount: Exact | undefined, spoken: Exact, isFinished: boolean): Source[] => {
      if (!amount?.isPositive() || !volume.isPositive()) return [];
      const strength = amount.over(volume);
      const needed = [...amounts, ...together].map((each) => each.over(strength));
      return [{ drug, kind, strength, volumes: [...needed, spoken], isFinished }];
    };
    return [
      ...drawn.flatMap(({ liquid, from }) => source(liquid.volume, liquid.amounts.get(name), all(from), false)),
      ...run.finals.flatMap(({ liquid }) => source(liquid.volume, liquid.amounts.get(name), liquid.volume, true)),
    ];
  });
}

/** Whether strength and volume are those of the source, and both as they should be; once for each form in which the strength may be counted. */
function judge(
  portion: Portion,
  { drug, kind, strength: real, volumes }: Source,
  isOfPart: boolean,
  sentence: string,
  recipe: Recipe,
  lookup: Lookup,
): { isStrong: boolean; isMuch: boolean; right: string }[] {
  const { volume, strength } = portion;
  const millilitres = inBase(volume.quantity);
  const { unit } = volume.quantity;
  return countedForms(drug, sentence, recipe, lookup).flatMap((as) => {
    const one = strengthOf({ value: Exact.one, unit: strength.unit }, kind, drug.substance, as);
    const [first] = volumes;
    if (isRefusal(one) || !one.isPositive() || !first) return [];
    const known = { value: real.over(one), unit: strength.unit };
    const isStrong = isAbout(known.value, strength.value);
    const isMuch = isOfPart || volumes.some((each) => isAbout(each, millilitres));
    const needed = { value: first.over(inBase({ value: Exact.one, unit })), unit };
    const right = portion.with(
      isMuch ? volume.written : showQuantity(needed, 4),
      isStrong ? portion.strengthWritten : shownLike(known, portion.strengthWritten),
    );
    return [{ isStrong, isMuch, right }];
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
