/**
 * A dose for each kg or m2 in the form that a printed text names beside it: `Calcium 50 mg/kg` where calcium gluconate is ordered, `caffeine
 * citrate 20 mg/kg (base 10 mg/kg)`.
 */
import { baseShare, ionSetFree, isRefusal } from "../../bench/amounts.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot, NameSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { measuresOf } from "../stated-measures.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { isNear } from "./label-figures.ts";
import { counterOf, ionBefore, tellingWords } from "./named-forms.ts";
import { namesNext } from "./title-amounts.ts";
import { isNamedLast, wordsOf } from "./words-against-order.ts";

/** What the order states for each kg or m2. */
export interface StatedForPatient {
  quantity: Quantity;
  written: string;
  /** The drug, where the line names one, and the form or ion that it counts. */
  drug: string | undefined;
  as: string | undefined;
  ion: string | undefined;
  /** For how long it is, as written. */
  time: string | undefined;
}

/** mg/kg, mcg/kg/min, mg/m2, AUC; what is for each kg of a liquid is spelt out otherwise. */
export function isForPatient({ unit }: Quantity): boolean {
  // What is given by time is laid against the rate of the order (label-rates.ts).
  const parts = unit.dimension.key.split("/");
  if (parts.includes("time")) return false;
  return parts.some((each) => each === "bodyWeight" || each === "area" || each === "exposure");
}

/** A rate that is only the first is changed at the bedside. */
export function statedForPatient({ unit }: Quantity, { order }: Recipe): StatedForPatient[] {
  const isTitrated = order?.one("use")?.slots.use.choice === "titrated";
  return (order?.every() ?? [])
    .filter(({ word }) => word !== "infuse-at" || !isTitrated)
    .flatMap((fact) => {
      const slots = fact.slots as { drug?: NameSlot; salt?: NameSlot; ion?: NameSlot; time?: MeasureSlot };
      const [drug, as, ion, time] = [slots.drug?.name, slots.salt?.name, slots.ion?.name, slots.time?.written];
      return measuresOf(fact).flatMap(({ quantity, written }) =>
        quantity?.unit.dimension === unit.dimension ? [{ quantity, written, drug, as, ion, time }] : [],
      );
    });
}

export interface JudgedForm {
  fits: boolean;
  /** As the text counts it. */
  of: string;
  known: string;
}

/** Undefined where the text names no form beside the figure, or it cannot be worked out what the dose is in it. */
export function formForPatient(figure: TextFigure, recipe: Recipe, lookup: Lookup): JudgedForm | undefined {
  const stated = statedForPatient(figure.quantity, recipe);
  if (stated.length === 0 || !figure.quantity.unit.dimension.key.startsWith("mass/")) return undefined;
  const drugs = orderedDrugs(recipe);
  let judged: JudgedForm | undefined;
  for (const name of drugs) {
    const drug = lookup.find("drug", name);
    const isOfIt = drugs.length === 1 || isNamedLast(figure.before, name, lookup);
    const said = drug && isOfIt ? formBeside(figure, drug, lookup) : undefined;
    if (!drug || said === undefined) continue;
    for (const each of stated) {
      const known = inForm(each, drug, said);
      if (!known) continue;
      if (isNear(known, figure.quantity)) return { fits: true, of: said, known: showQuantity(known, 4) };
      judged ??= { fits: false, of: said, known: showQuantity(known, 4) };
    }
  }
  return judged;
}

/** `Caffeine base 20 mg (10 mg/kg)`: the ordered dose in a form that the text names elsewhere. */
export function isFormSaid({ quantity }: TextFigure, text: string, recipe: Recipe, lookup: Lookup): boolean {
  const said = new Set(wordsOf(text));
  return orderedDrugs(recipe).some((name) => {
    const drug = lookup.find("drug", name);
    return drug?.substance.salts.some((salt) => {
      if (!tellingWords(salt.name, drug, lookup).some((word) => said.has(word))) return false;
      return statedForPatient(quantity, recipe).some((each) => {
        const known = inForm(each, drug, salt.name);
        return known !== undefined && isNear(known, quantity);
      });
    });
  });
}

/** What the order states, counted in that form; undefined where it is of another drug or cannot be worked out. */
function inForm({ quantity, drug: of, as, ion }: StatedForPatient, drug: Drug, form: string): Quantity | undefined {
  const share = shareOf(drug, form);
  const ordered = of === undefined || of === drug.name.name ? shareOf(drug, ion ?? as) : undefined;
  return ordered && share?.isPositive() ? { ...quantity, value: quantity.value.times(ordered).over(share) } : undefined;
}

/** The ion, the salt or the base whose name stands beside the figure. */
function formBeside(figure: TextFigure, drug: Drug, lookup: Lookup): string | undefined {
  const behind = namesNext.test(figure.after) ? undefined : /^\s*\(?(?:of |as )?([a-z ]+)/i.exec(figure.after)?.[1];
  const words = wordsOf(behind ?? "");
  const counter =
    counterOf(words, drug, lookup) ??
    drug.substance.salts.find(({ name }) => wordsOf(name).every((word) => words.slice(0, 2).includes(word)))?.name;
  const last = wordsOf(figure.before).at(-1);
  if (counter !== undefined || last === undefined) return counter;
  // Where the citrate is counted, plain `caffeine` is the form declared as caffeine-base.
  const salt = drug.substance.salts.find(
    ({ name }) => name === `${last}-base` || tellingWords(name, drug, lookup).includes(last),
  );
  return salt?.name ?? ionBefore(figure, drug, lookup);
}

/** How much of the counted drug is in so much of a form, or with so much of an ion. */
function shareOf({ substance }: Drug, form: string | undefined): Exact | undefined {
  const ion = substance.ions.find(({ name }) => name === form);
  const free = ion && ionSetFree(Exact.one, "mass", "mass", substance, ion);
  if (free) return isRefusal(free) || !free.isPositive() ? undefined : Exact.one.over(free);
  const share = baseShare(substance, form);
  return isRefusal(share) ? undefined : share;
}
