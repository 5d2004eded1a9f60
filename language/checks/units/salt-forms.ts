/** Where a figure of a drug says, or leaves open, whether it is counted as the salt or as the base. */
import type { Declaration, Drug } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import type { MeasureSlot, NameSlot } from "../../model/slots.ts";
import type { RecipeContext } from "../context.ts";

export interface CountedFigure {
  measure: MeasureSlot;
  as: NameSlot | undefined;
  drug: Drug;
  /** `strength`, `content`, `dose`, `concentration`, `rate`, `limit`. */
  word: string;
}

/** Figures by mass of drugs that declare salts. Units, mmol and mEq are the same for salt and base. */
export function countedFigures(declaration: Declaration, lookup: Lookup): CountedFigure[] {
  const found: CountedFigure[] = [];
  const take = (
    name: NameSlot | undefined,
    word: string,
    measure: MeasureSlot | undefined,
    as: NameSlot | undefined,
  ) => {
    const drug = name && lookup.find("drug", name.name);
    // Without a salt among its facts a drug has one form, and only a figure that names another is looked at.
    if (!drug || !measure?.quantity || (drug.facts.all("salt").length === 0 && !as)) return;
    if ((measure.quantity.unit.dimension.exponents.mass ?? 0) > 0) found.push({ measure, as, drug, word });
  };
  if (declaration.kind === "stock") {
    const { facts } = declaration;
    const name = facts.one("drug")?.slots.drug;
    // `drug ketamine as ketamine-hydrochloride` speaks for the figures that name no form of their own.
    const own = facts.one("drug")?.slots.salt;
    for (const { slots } of facts.all("strength")) take(name, "strength", slots.strength, slots.salt ?? own);
    for (const { slots } of facts.all("content")) take(name, "content", slots.content, slots.salt ?? own);
    const gives = declaration.reconstitute?.one("gives")?.slots;
    // Where it names none it counts as the content does, which is told if it does not say.
    if (gives?.salt) take(name, "gives", gives.strength, gives.salt);
  }
  if (declaration.kind === "drug") {
    const { facts, stable, name } = declaration;
    // A limit that names none counts as the drug does.
    const limits = limitWords.flatMap((word) => facts.all(word).map(({ slots }) => slots));
    const rows = stable.flatMap((row) => row.one("concentration")?.slots ?? []);
    for (const { limits: bound, salt } of [...limits, ...rows])
      if (salt) take(name, "limit", (bound.high ?? bound.low)?.measure, salt);
  }
  if (declaration.kind === "recipe" && declaration.order) {
    const { order } = declaration;
    const name = order.one("drug")?.slots.drug;
    const own = order.one("drug")?.slots.salt;
    const [additive, another] = order.all("additive");
    for (const { slots } of order.all("infuse-at"))
      take(name ?? (another ? undefined : additive?.slots.drug), "rate", slots.rate, slots.salt ?? own);
    // What rounds and bounds the dose counts as the dose does, where it names none.
    for (const { slots } of order.all("round")) if (slots.salt) take(name, "step", slots.step, slots.salt);
    for (const { slots } of [...order.all("maximum"), ...order.all("minimum")])
      if (slots.salt) take(name, "limit", slots.limit, slots.salt);
    for (const { slots } of order.all("dose")) take(name, "dose", slots.dose, slots.salt ?? own);
    for (const { slots } of order.all("concentration")) {
      take(name, "concentration", slots.concentration, slots.salt ?? own);
    }
    for (const { slots } of order.all("additive")) take(slots.drug, "additive", slots.dose, slots.salt);
    for (const { facts } of declaration.preparations) {
      for (const { slots } of [...facts.all("concentration"), ...facts.all("nominal-concentration")]) {
        // Where it names none it is counted as the drug is: that the order names one is told of the order.
        if (slots.salt) take(slots.drug ?? name, "concentration", slots.concentration, slots.salt);
      }
    }
  }
  return found;
}

const limitWords = ["dose", "concentration", "usual-concentration", "rate"] as const;

/** A form that the drug does not declare. */
export function isFormNotKnown(drug: Drug, as: string | undefined): boolean {
  return as !== undefined && !formsOf(drug).includes(as);
}

/** The same, told as an error at its place. */
export function isFormTold(
  drug: Drug,
  as: string | undefined,
  { recipe, policy }: Pick<RecipeContext, "recipe" | "policy">,
): boolean {
  return isFormNotKnown(drug, as) && isShownAsError("salt-not-known", recipe, policy);
}

/** The forms that `as` may name: the salts, and the form that the drug is counted as. */
export function formsOf(drug: Drug): string[] {
  const base = drug.facts.one("counted-as")?.slots.base.name;
  const salts = drug.facts.all("salt").map(({ slots }) => slots.salt.name);
  return [...new Set(base === undefined ? salts : [base, ...salts])];
}
