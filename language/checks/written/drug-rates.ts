/** Rates of a drug in printed text (`5 mg/h`, `20 mcg/kg/min`) as the rate of the pump that gives them from a finished container. */
import { ionSetFree, isRefusal, kindOf, strengthOf } from "../../bench/amounts.ts";
import { forPatient } from "../../bench/order.ts";
import { rateFor } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { countedForms } from "./counted-forms.ts";
import { bodyWeightsIn, figuresIn, type TextFigure } from "./figures-in-text.ts";
import { namesOf, wordsOf } from "./words-against-order.ts";

/** What a drug is counted in. */
export const drugAmounts: ReadonlySet<string> = new Set(["mass", "moles", "equivalents", "activity"]);
/** The base unit of each kind in one mL. */
const perMillilitre = {
  mass: findUnit("g/mL").unit!,
  moles: findUnit("mmol/mL").unit!,
  equivalents: findUnit("mEq/mL").unit!,
  activity: findUnit("units/mL").unit!,
} as const;
const below: ReadonlySet<string> = new Set(["time", "bodyWeight", "area"]);

/** An amount by time, or by weight and time. */
export function isDrugRate({ unit }: Quantity): boolean {
  const [kind, ...over] = unit.dimension.key.split("/");
  return drugAmounts.has(kind!) && over.includes("time") && over.every((each) => below.has(each));
}

export interface NeededRates {
  run: Run;
  vessel: Vessel;
  /** mL/h that give the figure, one for each way in which it may be counted. */
  needed: readonly Exact[];
}

/** The drug that a rate is of: the one named last before it, or the only one ordered. */
function drugOf(before: string, recipe: Recipe, lookup: Lookup): string | undefined {
  const drugs = orderedDrugs(recipe);
  if (drugs.length === 1) return drugs[0];
  for (const word of [...wordsOf(before)].reverse()) {
    const named = drugs.filter((drug) => namesOf("drug", drug, lookup).some((name) => wordsOf(name).includes(word)));
    if (named.length > 0) return named.length === 1 ? named[0] : undefined;
  }
  return undefined;
}

/** `For 70 kg: 0.1 mcg/kg/min = 2.6 mL/h`, `70 kg: 2.6 mL/h (0.1 mcg/kg/min)`. */
function weightIn(sentence: string): Quantity | undefined {
  const weighed = bodyWeightsIn(sentence);
  const before = figuresIn(sentence).filter(
    ({ quantity, after }) => quantity.unit.spelling === "kg" && /^ ?:/.test(after),
  );
  const [only, second] = weighed.length > 0 ? weighed : before;
  return second ? undefined : only?.quantity;
}

/** Nothing where it cannot be worked out: several drugs and none named, a rate per kg and no weight. */
export function neededRates(
  { quantity, before, after }: TextFigure,
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): NeededRates[] {
  const name = drugOf(before, recipe, lookup);
  const drug = name === undefined ? undefined : lookup.find("drug", name);
  const count = kindOf(quantity);
  if (name === undefined || !drug || !count || count === "volume") return [];
  const { substance } = drug;
  const beside = [wordsOf(before).at(-1), wordsOf(after.replace(/^\s*of\b/, ""))[0]];
  return runs.flatMap((run) =>
    run.finals.flatMap((vessel): NeededRates[] => {
      const isByArea = quantity.unit.dimension.key.split("/").includes("area");
      const all = isByArea ? forPatient(quantity, run.point) : quantity;
      const found =
        run.unknown || !all ? "" : rateFor(run, vessel, name, all, run.point.get("weight") ?? weightIn(sentence));
      const kind = run.setup.kinds.get(name);
      if (typeof found === "string" || !kind) return [];
      const rate = inBase(found.rate);
      const one = (as?: string) => strengthOf({ value: Exact.one, unit: perMillilitre[count] }, kind, substance, as);
      const plain = one();
      if (isRefusal(plain)) return [];
      const asForms = countedForms(drug, sentence, recipe, lookup).flatMap((as) => {
        const form = one(as);
        return isRefusal(form) ? [] : [rate.times(form).over(plain)];
      });
      const asIons = substance.ions.flatMap((ion) => {
        const free = beside.includes(ion.name) ? ionSetFree(plain, kind, count, substance, ion) : undefined;
        return !free || isRefusal(free) || !free.isPositive() ? [] : [rate.over(free)];
      });
      return [{ run, vessel, needed: [...asForms, ...asIons] }];
    }),
  );
}
