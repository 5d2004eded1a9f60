/** The percentage by which a printed line names a fluid: `in glucose 10 %`, `10 % glucose`. */
import type { Run } from "../../bench/run.ts";
import { nameOfKey } from "../../bench/setup.ts";
import type { Fluid, Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { finals } from "./contained.ts";
import { otherStrength } from "./label-figures.ts";
import { besides } from "./label-substances.ts";
import { type Percent, percentsIn } from "./percents-in-text.ts";
import { near } from "./title-amounts.ts";
import { assertions, type Contradiction, fluidsOf, ownWords } from "./words-against-order.ts";

/** `glucose 5 % w/v and sodium chloride 0.45 % w/v`: each part of a fluid by its name in print. */
const partsOfFluid = keptWith(({ facts }: Fluid): readonly Percent[] =>
  percentsIn(facts.one("name")?.slots.text.text ?? ""),
);

/**
 * Another percentage of what the recipe's fluids are made of, or a fluid of another substance. A percentage of the drug itself is its
 * strength.
 */
export function fluidPercentContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  if (!text.includes("%")) return undefined;
  const { drugs } = ownWords(recipe, lookup);
  const fluids = fluidsOf(recipe, lookup).flatMap((name) => lookup.find("fluid", name) ?? []);
  for (const sentence of assertions(text)) {
    if (!sentence.includes("%") || besides.test(sentence) || otherStrength.test(sentence)) continue;
    for (const said of percentsIn(sentence)) {
      const isOfDrug = said.words.every((word) => drugs.has(word));
      if (isOfDrug && !said.isIn) continue;
      const words = asDeclared(said.words);
      const isOf = (part: Percent) => asDeclared(part.words).every((word) => words.includes(word));
      const own = fluids.flatMap((fluid) =>
        partsOfFluid(fluid).flatMap((part) => (isOf(part) ? [{ fluid, part }] : [])),
      );
      if (own.some(({ part }) => Exact.of(part.percent).equals(Exact.of(said.percent)))) continue;
      if (isMade(said, runs)) continue;
      const others = own.length === 0 && said.isIn ? otherFluids(lookup).find((part) => isOf(part)) : undefined;
      if (isOfDrug && own.length === 0) continue;
      const named = own[0]?.part ?? others;
      const told = own.length > 0 ? own.map(({ fluid }) => fluid) : fluids;
      if (!named || told.length === 0) continue;
      const names = told.map((fluid) => fluid.facts.one("name")?.slots.text.text ?? fluid.name.name);
      const substance = (words === said.words ? named : said).words.join(" ");
      return {
        said: said.isFirst ? `${said.percent} % ${substance}` : `${substance} ${said.percent} %`,
        ordered: [...new Set(names)].join(" and "),
        whole: "recipe",
      };
    }
  }
  return undefined;
}

/** What is printed for the fluids that everybody knows. */
const otherNames: Readonly<Record<string, readonly string[]>> = {
  dextrose: ["glucose"],
  saline: ["sodium", "chloride"],
};

function asDeclared(words: readonly string[]): readonly string[] {
  if (!words.some((word) => Object.hasOwn(otherNames, word))) return words;
  return words.flatMap((word) => otherNames[word] ?? [word]);
}

/** mL that g are counted in. */
const hundred = Exact.of(100);

/** `Glucose 15 %` on a nutrition bag made with glucose 50 %: the strength in the end. */
function isMade(said: Percent, runs: readonly Run[]): boolean {
  const percent = Exact.of(said.percent);
  return finals(runs).some(({ run, vessel: { liquid } }) =>
    [...liquid.amounts].some(([key, held]) => {
      if (run.setup.kinds.get(key) !== "mass" || !said.words.includes(nameOfKey(key))) return false;
      const made = held.times(hundred).over(liquid.volume);
      return made.minus(percent).abs().isAtMost(percent.times(near));
    }),
  );
}

function otherFluids(lookup: Lookup): Percent[] {
  return lookup.names("fluid").flatMap((name) => {
    const fluid = lookup.find("fluid", name);
    return fluid ? partsOfFluid(fluid) : [];
  });
}
