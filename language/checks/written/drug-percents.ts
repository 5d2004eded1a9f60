/** Percents behind the name of an ordered drug in printed text, laid against what the bench and the order say of its strength. */
import { isRefusal, strengthOf } from "../../bench/amounts.ts";
import type { Liquid } from "../../bench/liquid.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isOfPreparation } from "./bare-figures.ts";
import { namelessPercentsIn, percentsIn } from "./percents-in-text.ts";
import { near } from "./title-amounts.ts";
import { fluidsOf, namesOf, ownWords, wordsOf } from "./words-against-order.ts";

const percents = { mass: findUnit("% w/v").unit!, volume: findUnit("% v/v").unit! };

/** Beside the finished containers. */
interface Against {
  /** Volumes in mL by which one may be reckoned too. */
  nominal: readonly Exact[];
  /** A percentage may be that of a product. */
  withStocks: boolean;
  /** A percentage that stands alone may be that of the fluid: a line of a label may tell it by itself. */
  withFluids: boolean;
  /** Fluids of the very substance, such as glucose 10 % beside glucose 50 %: what they bring counts, and each may be told by its name. */
  alike?: readonly SameFluid[];
}

interface SameFluid {
  name: string;
  /** In g/mL; undefined where its name does not tell. */
  strength: Exact | undefined;
}

/**
 * `Vancomycin 0.5 %`: percents right behind a word of an ordered drug that are the strength of nothing here. Percents of a fluid are its
 * name, and a stock may be told by its strength.
 */
export function drugPercents(
  title: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
  against: Against,
): { written: string; known: string[] }[] {
  const found: { written: string; known: string[] }[] = [];
  for (const { written, percent, words, isFirst } of percentsIn(title)) {
    const word = isFirst ? words[0]! : words.at(-1)!;
    const name = orderedDrugs(recipe).find((drug) =>
      namesOf("drug", drug, lookup).some((each) => wordsOf(each).includes(word)),
    );
    if (name === undefined) continue;
    const fluids = lookup
      .names("fluid")
      .filter((fluid) => namesOf("fluid", fluid, lookup).some((each) => wordsOf(each).includes(word)));
    const stands = fluidsOf(recipe, lookup).filter((fluid) => fluids.includes(fluid));
    if (stands.length > 0 && !opensWith(title, written, name, lookup)) continue;
    const alike = stands.flatMap((fluid) => sameFluid(fluid, title, written, lookup) ?? []);
    // `Compatible with sodium chloride 0.9 %` names a fluid; `Glucose 12.5 %` is none, nor is what a text begins with.
    const isNamed = fluids.some((fluid) => namesOf("fluid", fluid, lookup).join(" ").includes(percent));
    if (isNamed && !opensWith(title, written, name, lookup)) continue;
    const withStocks = against.withStocks || isOfProduct(title, written, runs);
    const known = otherPercent({ written, percent }, name, recipe, runs, lookup, { ...against, withStocks, alike });
    if (known !== undefined) found.push({ written, known: [known] });
  }
  for (const { written, percent, before } of namelessPercentsIn(title)) {
    const name = drugSpokenOf(before, recipe, lookup);
    const known =
      name === undefined ? undefined : otherPercent({ written, percent }, name, recipe, runs, lookup, against);
    if (known !== undefined) found.push({ written, known: [known] });
  }
  return found;
}

/** `Glucose 12.5 %` over glucose 10 %; undefined where the fluid is of another substance, as saline is beside potassium chloride. */
function sameFluid(fluid: string, text: string, written: string, lookup: Lookup): SameFluid | undefined {
  const printed = namesOf("fluid", fluid, lookup);
  const own = new Set(printed.flatMap(wordsOf));
  const said = wordsOf(text.slice(0, text.indexOf(written)));
  if (!said.every((word) => own.has(word))) return undefined;
  const [part, second] = printed.flatMap((name) => percentsIn(name)).filter(({ isFirst }) => !isFirst);
  return { name: fluid, strength: part && !second ? Exact.of(part.percent).over(Exact.of(100)) : undefined };
}

const volumeBehind = /^ ?(?:[wv]\/v ?)?(?:\([^()]*\) ?)?(\d[\d.]*) ?(m?L)\b/;

/** `50 % 8 mL in ...`: so much of a product, where it is much less than there is in the end. */
function isOfProduct(text: string, written: string, runs: readonly Run[]): boolean {
  const [, number, unit] = volumeBehind.exec(text.slice(text.indexOf(written) + written.length)) ?? [];
  if (number === undefined || unit === undefined) return false;
  const twice = inBase({ value: Exact.of(number), unit: findUnit(unit).unit! }).times(Exact.of(2));
  return runs.every((run) => run.finals.every(({ liquid }) => liquid.volume.isAbove(twice)));
}

/** Nothing but words of the drug stands before the figure. */
function opensWith(text: string, written: string, drug: string, lookup: Lookup): boolean {
  const own = new Set(namesOf("drug", drug, lookup).flatMap(wordsOf));
  const before = wordsOf(text.slice(0, text.indexOf(written)));
  return before.length > 0 && before.every((word) => own.has(word));
}

/** What the drug's strength is in percent where it is not this one; undefined where it is, or nothing is known. */
function otherPercent(
  { written, percent }: { written: string; percent: string },
  name: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
  against: Against,
): string | undefined {
  const isByVolume = runs.some((run) => run.setup.kinds.get(name) === "volume");
  const kind = written.endsWith("v/v") || (isByVolume && !written.endsWith("w/v")) ? "volume" : "mass";
  const strengths = strengthsOf(name, kind, recipe, runs, lookup, against);
  const claimed = Exact.of(percent).over(Exact.of(100));
  if (strengths.some((each) => each.minus(claimed).abs().isAtMost(each.times(near)))) return undefined;
  const [first] = strengths;
  return first && showQuantity({ value: first.times(Exact.of(100)), unit: percents[kind] }, 4);
}

/** The drug that a text speaks of last, with nothing behind it but figures and words of the preparation. */
function drugSpokenOf(before: string, recipe: Recipe, lookup: Lookup): string | undefined {
  const ordered = orderedDrugs(recipe);
  const { fluids } = ownWords(recipe, lookup);
  const last = wordsOf(before).findLast(
    (word) => !/^\d/.test(word) && !isOfPreparation(word) && findUnit(word).unit === undefined,
  );
  if (last === undefined) return ordered.length === 1 ? ordered[0] : undefined;
  if (fluids.has(last)) return undefined;
  return ordered.find((drug) => namesOf("drug", drug, lookup).some((each) => wordsOf(each).includes(last)));
}

/** In g/mL, or mL/mL of what is counted by volume: what the finished containers hold, and what the stock of the drug says. */
function strengthsOf(
  name: string,
  kind: "mass" | "volume",
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
  { nominal, withStocks, withFluids, alike = [] }: Against,
): Exact[] {
  const drug = lookup.find("drug", name);
  if (!drug || alike.some(({ strength }) => strength === undefined)) return [];
  const brought = ({ fluids }: Liquid) =>
    alike.reduce((sum, fluid) => sum.plus((fluids.get(fluid.name) ?? Exact.zero).times(fluid.strength!)), Exact.zero);
  const finished = runs.flatMap((run) =>
    run.unknown || run.setup.kinds.get(name) !== kind
      ? []
      : run.finals.flatMap(({ liquid }) => {
          const held = liquid.amounts.get(name);
          return held && liquid.volume.isPositive()
            ? [liquid.volume, ...nominal].map((volume) => held.plus(brought(liquid)).over(volume))
            : [];
        }),
  );
  const ordered = [
    ...(recipe.order?.all("concentration") ?? []),
    ...recipe.preparations.flatMap((p) => [
      ...p.facts.all("concentration").filter(({ slots }) => !slots.ion),
      ...p.facts.all("nominal-concentration").filter(({ slots }) => !slots.ion),
    ]),
  ].flatMap((fact) => fact.slots.concentration.quantity ?? []);
  const stocks = (withStocks ? recipe.materials : []).flatMap(({ item }) => {
    const stock = lookup.find("stock", item.name);
    return stock?.facts.one("drug")?.slots.drug.name === name
      ? (stock.facts.one("strength")?.slots.strength.quantity ?? [])
      : [];
  });
  const stated = [...ordered, ...stocks].flatMap((quantity) => {
    const strength = strengthOf(quantity, kind, drug.substance);
    return isRefusal(strength) ? [] : [strength];
  });
  // What is known of the drug alone is no strength of all that is there.
  const ofNames = withFluids ? alike.flatMap(({ strength }) => strength ?? []) : [];
  return finished.length === 0 && alike.length > 0 ? [] : [...finished, ...ofNames, ...stated];
}
