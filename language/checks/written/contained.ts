/**
 * Figures of a printed line that belong to what a preparation holds beside its drugs: the sodium of its fluid, the glucose of a nutrition
 * bag, the potassium that a phosphate brings. `Potassium chloride 20 mmol` in a bag of saline is the drug and no chloride of the fluid.
 */
import type { Run } from "../../bench/run.ts";
import { nameOfKey } from "../../bench/setup.ts";
import { type Solution, solutionOf } from "../../bench/solution.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import { ionIn } from "../../bench/targets.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { Exact } from "../../quantities/exact.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { namesOf, wordsOf } from "./words-against-order.ts";

const unit = (spelling: string) => findUnit(spelling).unit!;

/** How an amount of an ion may be counted, and where the solution says it. */
export const ionCounts = [
  { unit: unit("mmol"), figure: "mmol" },
  { unit: unit("mEq"), figure: "mEq" },
  { unit: unit("mmol/L"), figure: "mmolPerLitre" },
  { unit: unit("mEq/L"), figure: "mEqPerLitre" },
] as const;

const gram = unit("g");
const gramPerMillilitre = unit("g/mL");

export interface Contained {
  /** As stocks and fluids call it. */
  name: string;
  /** What the finished containers hold of it, in all or in a volume as the figure asks; empty where nobody can say. */
  known: Quantity[];
}

/** Undefined where the figure names nothing that the preparation holds beside its drugs. */
export function containedIn(
  figure: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contained | undefined {
  const { dimension } = figure.quantity.unit;
  const count = ionCounts.find((each) => each.unit.dimension === dimension);
  const isMass = dimension === gram.dimension;
  if (!count && !isMass && dimension !== gramPerMillilitre.dimension) return undefined;
  const name = nameBeside(figure, recipe, runs, lookup);
  if (name === undefined) return undefined;
  if (isPerhapsOfDrug(name, recipe, lookup)) return { name, known: [] };
  const known = count
    ? solutions(runs).map(({ ions }) => of(ions.find(({ ion }) => ion === name)?.[count.figure], count.unit))
    : finals(runs).map(({ run, vessel }) => {
        const { total, unknown } = ionIn(vessel, name, "mass", run);
        if (unknown.length > 0) return undefined;
        return isMass ? of(total, gram) : of(total.over(vessel.liquid.volume), gramPerMillilitre);
      });
  // What cannot be worked out is laid against nothing.
  return { name, known: known.every((each) => each !== undefined) ? known : [] };
}

/** The name alone; undefined also where nobody can say how much of it there is. */
export function namedBeside(
  figure: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): string | undefined {
  const name = nameBeside(figure, recipe, runs, lookup);
  return name !== undefined && isPerhapsOfDrug(name, recipe, lookup) ? undefined : name;
}

function of(value: Exact | undefined, counted: Quantity["unit"]): Quantity | undefined {
  return value && { value, unit: counted };
}

const wordsBefore = /([A-Za-z]+)?[ -]?\b([A-Za-z]+)\s*:?\s*$/;
/** `22 mmol of potassium`; in `150 g, potassium 40 mmol` and `4 g glucose 5 %` the name is the next figure's. */
const wordsBehind = /^\s*\(?(?:of )?([A-Za-z]+)\b(?:[ -]([A-Za-z]+)\b)?(?!\s*:?\s*\d)/;

function nameBeside(
  { before, after }: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): string | undefined {
  const [, first, last] = wordsBefore.exec(before)?.map((word) => word?.toLowerCase()) ?? [];
  const [, next, second] = wordsBehind.exec(after)?.map((word) => word?.toLowerCase()) ?? [];
  const held = heldBesideDrugs(runs);
  const isHeld = (word: string | undefined): word is string => word !== undefined && held.has(word);
  // Most figures stand beside the drug or beside no name at all.
  if (!isHeld(last) && !isHeld(next)) return undefined;
  const names = orderedDrugs(recipe).flatMap((drug) => namesOf("drug", drug, lookup).map(wordsOf));
  const isDrug = (one: string | undefined, other: string | undefined) =>
    one !== undefined && other !== undefined && names.some((name) => name.includes(one) && name.includes(other));
  if (isHeld(last)) return isDrug(first, last) ? undefined : last;
  if (last !== undefined && names.some((name) => name.includes(last))) return undefined;
  return isHeld(next) && !isDrug(next, second) ? next : undefined;
}

/** By name; an ion that a drug declares is its dose or its strength, which is laid against the order. */
function heldBesideDrugs(runs: readonly Run[]): ReadonlySet<string> {
  const held = new Set<string>();
  for (const { setup, finals: vessels } of runs) {
    const ofDrugs = [...setup.drugs.values()].flatMap(({ substance }) => substance.ions.map((ion) => ion.name));
    for (const { liquid } of vessels) {
      for (const key of liquid.amounts.keys()) {
        const name = nameOfKey(key);
        if (!setup.drugs.has(key) && !ofDrugs.includes(name)) held.add(name);
      }
    }
  }
  return held;
}

/** The chloride of a potassium chloride that declares none: what the fluid brings is not all of it. */
function isPerhapsOfDrug(name: string, recipe: Recipe, lookup: Lookup): boolean {
  return orderedDrugs(recipe).some(
    (drug) =>
      namesOf("drug", drug, lookup).some((each) => wordsOf(each).includes(name)) &&
      !recipe.materials.some(({ item }) => {
        const facts = lookup.find("stock", item.name)?.facts;
        return (
          facts?.one("drug")?.slots.drug.name === drug &&
          facts.all("contains").some(({ slots }) => slots.what.name === name)
        );
      }),
  );
}

/** Finished containers whose content is known, each with its run. */
export function finals(runs: readonly Run[]): { run: Run; vessel: Vessel }[] {
  return runs
    .filter((run) => !run.unknown)
    .flatMap((run) => run.finals.map((vessel) => ({ run, vessel })))
    .filter(({ vessel }) => vessel.liquid.volume.isPositive());
}

export function solutions(runs: readonly Run[]): Solution[] {
  return finals(runs).flatMap(({ run, vessel }) => solutionOf(run, vessel) ?? []);
}
