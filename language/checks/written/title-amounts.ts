/** Amounts that a title states in another unit than the order or in another form of the drug, laid against what is ordered. */
import { amountOf, baseShare, ionSetFree, isRefusal, kindOf, kindUnits } from "../../bench/amounts.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import type { OrderedDose } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, preferredUnit, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { isWithinHalf } from "../volumes/held-after.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { counterOf, ionBefore, namesForm, saltBefore } from "./named-forms.ts";
import { isSaltWord } from "./salt-words.ts";
import { isNamedLast, namesOf, wordsOf } from "./words-against-order.ts";

export interface JudgedAmount {
  fits: boolean;
  /** What the ordered doses come to, measured as the title does. */
  known: string[];
  /** It is the ordered figure, and the title does not say that it counts another form than the drug is counted as. */
  form: { as: string; base: string; amount: string } | undefined;
  /** The drug that the title names before the figure, where several are ordered. */
  drug: string | undefined;
  /** The ion or form that the title names behind the figure. */
  counter: string | undefined;
}

/** Titles and labels round what they convert: 8 mmol for 8.11 mmol. */
export const near = Exact.of("0.05");

/** In `150 g, potassium 40 mmol` and `3 g (calcium 6.97 mmol)` the name is the next figure's. */
export const namesNext =
  /^\s*(?:[,;+=]|\(?(?:(?!(?:of|as|in)\b)[a-z]+ )?(?!(?:in|per|for|with|and|plus|over|by)\b)[a-z]+:? \d)/i;
/** `4 g of the sulfate`. */
const countsSalt = /^\s*\(?(?:of |as )(?:the )?([a-z]+)/i;

/** Undefined where the figure is no amount, or nothing ordered can be measured so. */
export function matchesDose(
  figure: TextFigure,
  title: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): JudgedAmount | undefined {
  const { quantity } = figure;
  const kind = kindOf(quantity);
  if (!kind || kind === "volume" || quantity.unit.dimension.key !== kind || quantity.unit.spelling === "kg")
    return undefined;
  const said = new Set(wordsOf(title));
  const next = namesNext.test(figure.after) ? [] : wordsOf(figure.after.replace(/^\s*(?:of|as)\b/, ""));
  const meant = drugBefore(figure.before, recipe, lookup);
  const known = new Set<string>();
  let form: JudgedAmount["form"];
  let counter: string | undefined;
  for (const dose of runs.flatMap((run) => run.doses)) {
    const drug = lookup.find("drug", dose.drug);
    if (!drug || !dose.given || (meant !== undefined && dose.drug !== meant)) continue;
    const asOrdered =
      dose.given.unit.dimension === quantity.unit.dimension && inBase(dose.given).equals(inBase(quantity));
    const other = otherForm(dose, drug, lookup);
    const salt = saltBefore(figure, title, drug, lookup);
    // In mmol the name of the drug and that of its ion count the same.
    const isSalt = isSaltWord(countsSalt.exec(figure.after)?.[1]?.toLowerCase() ?? "");
    const ion = kind === "mass" && !isSalt ? ionBefore(figure, drug, lookup) : undefined;
    const named = counterOf(next, drug, lookup) ?? salt ?? ion;
    const isOfIon = kind === "mass" && dose.ion !== undefined && !isNamedAlone(dose.ion, title, drug, lookup);
    counter ??= named ?? (isOfIon && isNamedLast(figure.before, dose.drug, lookup) ? drug.name.name : undefined);
    if (asOrdered && named === undefined && !isOfIon && (!other || namesForm(said, other, drug, lookup)))
      return fitting;
    const amounts = amountsOf(dose, drug, kind, said, named, title, lookup);
    if (amounts.some((each) => isSaidBy(quantity, each))) return fitting;
    const first = amounts[0]?.amount;
    if (!first) continue;
    const shown = showQuantity(preferredUnit({ value: first, unit: kindUnits[kind] }), 4);
    known.add(shown);
    const base = drug.substance.base ?? drug.name.name;
    if (asOrdered && isOfIon && named === undefined) form = { as: dose.ion!, base, amount: shown };
    else if (asOrdered && other && named === undefined) form = { as: other, base, amount: shown };
    else if (asOrdered && salt !== undefined && named === salt) form = { as: base, base: salt, amount: shown };
  }
  if (known.size === 0) return unitSlip(figure, [title, titleWith(figure, recipe)], runs, meant);
  return { fits: false, known: [...known], form, drug: meant, counter };
}

/** The recipe's title where it states the figure too, so that a line of the label repeats it. */
function titleWith({ written }: TextFigure, recipe: Recipe): string {
  const title = recipe.facts.one("title")?.slots.text.text ?? "";
  return title.includes(written) ? title : "";
}

/**
 * `50 mg` for an order of 50 units: the figure of the order in a unit that no fact turns into the ordered one, or any figure in such a unit
 * where the texts have none in the ordered one. `10 units (16.7 mcg)` cannot be judged.
 * @param texts with the figure
 */
function unitSlip(
  { quantity }: TextFigure,
  texts: readonly string[],
  runs: readonly Run[],
  meant: string | undefined,
): JudgedAmount | undefined {
  const kinds = new Set(texts.flatMap(figuresIn).map((each) => kindOf(each.quantity)));
  const slipped = runs.flatMap(({ doses, setup }) =>
    doses.flatMap(({ drug, given }) => {
      if (!given || (meant !== undefined && drug !== meant)) return [];
      const kind = kindOf(given);
      if (kind === kindOf(quantity)) return [];
      if (given.value.equals(quantity.value)) return [given];
      // An order that its own products cannot be counted by is told at the order.
      return !kinds.has(kind) && setup.kinds.get(drug) === kind ? [given] : [];
    }),
  );
  if (slipped.length === 0) return undefined;
  const known = [...new Set(slipped.map((dose) => showQuantity(dose)))];
  return { fits: false, known, form: undefined, drug: meant, counter: undefined };
}

const fitting: JudgedAmount = { fits: true, known: [], form: undefined, drug: undefined, counter: undefined };

/** Of several ordered drugs the one that is named last before the figure. */
function drugBefore(before: string, recipe: Recipe, lookup: Lookup): string | undefined {
  const ordered = orderedDrugs(recipe);
  if (ordered.length < 2) return undefined;
  const words = wordsOf(before);
  const shared = (word: string) =>
    ordered.filter((drug) => namesOf("drug", drug, lookup).some((each) => wordsOf(each).includes(word))).length > 1;
  for (const word of [...words].reverse()) {
    // Behind another figure it is that one's.
    if (/^\d/.test(word)) return undefined;
    const named = ordered.filter((drug) => namesOf("drug", drug, lookup).some((each) => wordsOf(each).includes(word)));
    if (named.length === 1 && !shared(word)) return named[0];
  }
  return undefined;
}

/** The form that the order counts, where it is not the one in which the drug is counted. */
function otherForm({ as, given }: OrderedDose, { substance }: Drug, lookup: Lookup): string | undefined {
  if (as === undefined || as === substance.base || !given || kindOf(given) !== "mass") return undefined;
  return lookup.find("drug", as) ? undefined : as;
}

interface KnownAmount {
  /** In the base unit. */
  amount: Exact;
  /** It is the figure of the order; what is turned into another unit or form rests on a molar mass or a share, which differ with the source. */
  isAsOrdered: boolean;
}

/**
 * Whether `said` stands for the amount. What the order says itself is repeated, rounded at most where the figure ends: 2 g for 1.96 g, and
 * not 260 mg for 250 mg.
 */
function isSaidBy({ value, unit }: Quantity, { amount, isAsOrdered }: KnownAmount): boolean {
  const counted = amount.over(unit.factor);
  if (!counted.minus(value).abs().isAtMost(counted.times(near))) return false;
  return !isAsOrdered || isWithinHalf(counted, value, placesOf(value));
}

/** Decimals up to the last figure that is not zero: 2 for 1.25, -2 for 300. */
function placesOf(value: Exact): number {
  const text = value.toText();
  return text.includes(".") ? text.length - text.indexOf(".") - 1 : text.replace(/0+$/, "").length - text.length;
}

/** The dose as the drug is counted, as the forms that the title names, and as its ions; `named` alone where the title says which. */
function amountsOf(
  dose: OrderedDose,
  drug: Drug,
  kind: AmountKind,
  said: ReadonlySet<string>,
  named: string | undefined,
  title: string,
  lookup: Lookup,
): KnownAmount[] {
  const { substance } = drug;
  const found: { of: string | undefined; amount: Exact }[] = [];
  const counted = amountOf(dose.given!, kind, substance, dose.as, dose.ion);
  if (!isRefusal(counted)) found.push({ of: undefined, amount: counted });
  if (kind === "mass" && !isRefusal(counted)) {
    for (const { name } of substance.salts) {
      const share = baseShare(substance, name);
      if (!isRefusal(share) && share.isPositive() && namesForm(said, name, drug, lookup))
        found.push({ of: name, amount: counted.over(share) });
    }
  }
  const held = (["mass", "moles"] as const)
    .map((from) => ({ from, amount: amountOf(dose.given!, from, substance, dose.as, dose.ion) }))
    .find(({ amount }) => !isRefusal(amount));
  if (held && !isRefusal(held.amount)) {
    for (const ion of substance.ions) {
      const free = ionSetFree(held.amount, held.from, kind, substance, ion);
      if (isRefusal(free)) continue;
      // `Magnesium sulfate 2 g` is no bag of 20 g that holds 2 g of magnesium.
      if (kind === "mass" && !isNamedAlone(ion.name, title, drug, lookup)) continue;
      // What the order says of an ion is what the title is laid against.
      const each = { of: ion.name, amount: free };
      if (dose.ion === ion.name) found.unshift(each);
      else found.push(each);
    }
  }
  const own = named === undefined ? found : found.filter(({ of }) => of === named);
  const ordered = kindOf(dose.given!) === kind ? inBase(dose.given!) : undefined;
  return own.map(({ amount }) => ({ amount, isAsOrdered: ordered !== undefined && amount.equals(ordered) }));
}

/** Whether a text names an ion elsewhere than in the whole name of the drug. */
function isNamedAlone(ion: string, title: string, drug: Drug, lookup: Lookup): boolean {
  const words = wordsOf(title);
  const names = namesOf("drug", drug.name.name, lookup).map(wordsOf);
  return words.some((word, i) => {
    const next = words[i + 1];
    return word === ion && !(next !== undefined && names.some((name) => name.includes(ion) && name.includes(next)));
  });
}
