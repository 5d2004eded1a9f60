/** Strengths and limits of use that a line of the label repeats, laid against what the recipe makes. */
import { isRefusal, strengthOf } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { figuresIn } from "./figures-in-text.ts";
import { near, tellingWords } from "./title-amounts.ts";
import { assertions, type Contradiction, isNamedLast, wordsOf } from "./words-against-order.ts";

/** What is made of it later, or an upper end, is another strength than the container's. */
const otherStrength = /\b(?:dilut\w*|reconstitut\w*|flush\w*|exceed\w*|up to|maximal|concentrate)\b/i;

/** `morphine 2 mg/mL` on a syringe of 1 mg/mL: the drug is named in the same breath. */
export function strengthContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const drugs = orderedDrugs(recipe);
  for (const sentence of assertions(text)) {
    if (otherStrength.test(sentence)) continue;
    for (const { written, quantity, before } of figuresIn(sentence)) {
      if (!quantity.unit.dimension.key.endsWith("/volume")) continue;
      const name = drugs.find((drug) => isNamedLast(before, drug, lookup));
      if (name === undefined) continue;
      const known = strengthsOf(name, quantity, before, recipe, runs, lookup);
      if (known.length === 0) continue;
      const stated = inBase(quantity);
      if (known.some((each) => inBase(each).minus(stated).abs().isAtMost(inBase(each).times(near)))) continue;
      return { said: written, ordered: showQuantity(known[0]!, 4), whole: `recipe for ${name}` };
    }
  }
  return undefined;
}

/** What finished containers hold of it and what the recipe states of it, in the unit of the figure. */
function strengthsOf(
  name: string,
  figure: Quantity,
  before: string,
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
    const one = strengthOf({ value: Exact.one, unit: figure.unit }, kind, drug.substance);
    if (isRefusal(one) || !one.isPositive()) continue;
    const form = formBefore(before, name, lookup);
    const inForm = form && strengthOf({ value: Exact.one, unit: figure.unit }, kind, drug.substance, form.as);
    const counted = inForm && !isRefusal(inForm) && inForm.isPositive() ? inForm : undefined;
    // `adrenaline (as tartrate) 1 mg/mL` counts adrenaline, by custom.
    const count = counted && !form?.isOfBase ? counted : one;
    for (const { liquid } of run.finals) {
      const held = liquid.amounts.get(name);
      if (!held || !liquid.volume.isPositive()) continue;
      found.push({ value: held.over(liquid.volume).over(count), unit: figure.unit });
    }
  }
  const nominal = recipe.preparations.flatMap((p) => p.facts.all("nominal-concentration"));
  for (const { slots } of nominal) {
    const { quantity } = slots.concentration;
    if (quantity?.unit.dimension === figure.unit.dimension)
      found.push({ value: inBase(quantity).over(inBase({ value: Exact.one, unit: figure.unit })), unit: figure.unit });
  }
  return found;
}

/** `Caffeine citrate 20 mg/mL`: the form that the word before the figure names. */
function formBefore(before: string, name: string, lookup: Lookup): { as: string; isOfBase: boolean } | undefined {
  const drug = lookup.find("drug", name);
  const words = wordsOf(before);
  const last = words.at(-1);
  if (!drug || last === undefined) return undefined;
  const salt = drug.substance.salts.find((each) => tellingWords(each.name, drug, lookup).includes(last));
  return salt && { as: salt.name, isOfBase: words.at(-2) === "as" };
}

const storedCold = /\b(?:refrigerator|refrigerated?|fridge)\b/i;
const neverCold =
  /\b(?:not|never) (?:be )?(?:refrigerate|refrigerated|put in(?:to)? (?:a|the) (?:refrigerator|fridge))\b/i;
const limit = /\b(?:use|used|discard|expires?) (?:within|after|in) ((\d+(?:\.\d+)?) ?([a-z]+))\b/i;

/** As a person counts. */
const daysInMonth = 30;

/** A longer life than the recipe gives it, or another storage. */
export function keepingContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const rows = recipe.preparations.flatMap((p) => p.facts.all("use-within"));
  if (rows.length === 0) return undefined;
  const places = rows.map(({ slots }) => slots.place.name);
  const whole = "preparation";
  if (neverCold.test(text) && places.includes("refrigerator"))
    return { said: neverCold.exec(text)![0], ordered: "use-within at refrigerator", whole };
  const [, said, number, word] = limit.exec(text) ?? [];
  const unit = word === undefined ? undefined : findUnit(word).unit;
  const stated = unit && hours({ value: Exact.of(number!), unit }, daysInMonth);
  const opened = recipe.preparations.flatMap((p) => p.facts.all("after-opening"));
  const known = [...rows, ...opened].map(({ slots }) => slots.time);
  const lives = known.map(({ quantity }) => hours(quantity, daysInMonth));
  if (stated && lives.every((life) => life !== undefined && stated.isAbove(life)))
    return { said: `${said}`, ordered: `use-within ${known.map((t) => t.written).join(" and ")}`, whole };
  if (/\b(?:store|keep)\b/i.test(text) && storedCold.test(text) && !/\b(?:not|never|room|or)\b/i.test(text)) {
    if (!places.includes("refrigerator"))
      return { said: storedCold.exec(text)![0], ordered: `use-within at ${[...new Set(places)].join(" and ")}`, whole };
  }
  return undefined;
}
