import { inForm, isRefusal } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import type { Example, Recipe } from "../../model/declaration.ts";
import type { MeasureSlot, NameSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity, toUnit } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip, isTold } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { isOrderedNotKnown } from "../unread-facts.ts";
import { exampleName, runOf } from "./example-runs.ts";
import { agreement, derivedLike, shownLike } from "./held-after.ts";

const before = "  preparation bag {";
const worked = (dose: string) =>
  example([
    before,
    `  example "the standard bag" {\n    expect  dose ${dose}\n    expect  draw from mag 8 mL\n    expect  1 x mag\n    expect  concentration 37.04 mg/mL\n  }\n\n${before}`,
  ]);

const ofDose = "a dose of";

interface Differing {
  at: Spot;
  of: Example;
  what: string;
  stated: string;
  /** What comes out, or undefined with the reason. */
  shown: string | undefined;
  why: string;
  /** Where the figure stands, when it can be put right. */
  figure: Spot | undefined;
  /** Doses of the other examples, which all differ as well. */
  others?: readonly Differing[];
}

export const exampleDiffers = recipeCheck<Differing>({
  name: "example-differs",
  family: "volumes",
  severity: "error",
  across: true,
  title: "A worked example comes out otherwise than it says",
  why: "A worked example is the second check of the recipe; one of the two is wrong.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: worked("5 g"),
  good: worked("4 g"),
  *find(context) {
    const differing = context.recipe.examples.flatMap((each) => {
      const run = runOf(each, context);
      if (!run) return [];
      const found = each.facts
        .all("expect")
        .flatMap((expect) => [...judged(expect, each, run)])
        .filter(({ what, shown }) => shown !== undefined || !isToldElsewhere(what, run, context));
      // Another dose is drawn otherwise: told once.
      const anotherDose = found.some(({ what, shown }) => what === ofDose && shown !== undefined);
      return found.filter(({ what, shown }) => !anotherDose || shown === undefined || what === ofDose);
    });
    yield* withoutRepeats(differing, context.recipe);
  },
  say: ({ of, what, stated, shown, why, others = [] }) => ({
    related: others.map((other) => ({
      at: other.at,
      text: `expects ${other.stated}; the recipe gives ${other.shown}`,
    })),
    text:
      shown === undefined
        ? `${capital(exampleName(of))} expects ${what === "" ? "" : `${what} `}${stated}, which cannot be compared: ${why}. Mend the example or the recipe.`
        : `${capital(exampleName(of))} expects ${what === "" ? "" : `${what} `}${stated}; the recipe gives ${shown}${others.length > 0 ? ", and every other example that states a dose differs too" : ""}. Find out which is wrong and mend it.`,
  }),
  fixes: ({ figure, shown, others = [] }) =>
    figure && shown !== undefined && others.length === 0
      ? [{ title: `Expect ${shown}`, edits: [replaceText(figure, shown)] }]
      : [],
});

/**
 * Of an order with a range a worked example is told for its dose: the order or the example is wrong, and what follows from the doses of
 * the range is not told beside it.
 */
export function isExampleDoseTold(context: RecipeContext): boolean {
  const { range, recipe } = context;
  if (!range || !isTold("example-differs", context)) return false;
  return recipe.examples.some((each) => {
    const run = runOf(each, context);
    const expected = run ? each.facts.all("expect") : [];
    return expected.some((fact) =>
      [...judged(fact, each, run!)].some((d) => d.what === ofDose && d.shown !== undefined),
    );
  });
}

/** Every example that expects a dose differs: it is the order that is wrong, and one of them says so. */
function withoutRepeats(differing: readonly Differing[], { examples }: Recipe): readonly Differing[] {
  const expecting = examples.filter(({ facts }) => facts.all("expect").some(({ slots }) => "amount" in slots));
  const doses = differing.filter(({ what, shown }) => what === ofDose && shown !== undefined);
  const [first] = doses;
  if (!first || expecting.length < 2 || new Set(doses.map(({ of }) => of)).size < expecting.length) return differing;
  const others = doses.filter(({ of }) => of !== first.of);
  return differing.flatMap((each) => (each === first ? [{ ...first, others }] : others.includes(each) ? [] : [each]));
}

/** Why there is nothing to compare with is an error at the step, the material or the line of the order that brings it about. */
function isToldElsewhere(what: string, run: Run, { recipe, runs }: RecipeContext): boolean {
  if (what === ofDose && (run.doses.some((dose) => dose.toldInOrder) || isOrderedNotKnown(recipe))) return true;
  return run.unknown && runs.some((each) => each.unknown);
}

function* judged(fact: { slots: unknown; start: number; end: number }, of: Example, run: Run): Iterable<Differing> {
  const slots = fact.slots as {
    amount?: MeasureSlot;
    salt?: NameSlot;
    from?: { name: string };
    volume?: MeasureSlot;
    strength?: MeasureSlot;
    count?: { value: Exact | undefined; written: string } & Spot;
    things?: { name: string };
  };
  const at = { start: fact.start, end: fact.end };
  if (slots.amount)
    yield* compared(slots.amount, ofDose, { at, of, salt: slots.salt }, (q) => doseIn(q, slots.salt?.name, run));
  else if (slots.from && slots.volume) {
    const from = slots.from.name;
    const found = compared(slots.volume, `a draw from ${from} of`, { at, of, salt: undefined }, (q) =>
      drawnIn(q, from, run),
    );
    yield* unlessTold(found, () => isDrawTold(from, run));
  } else if (slots.strength) {
    const found = compared(slots.strength, "a concentration of", { at, of, salt: slots.salt }, (q) =>
      strengthIn(q, slots.salt?.name, run),
    );
    yield* unlessTold(found, () => run.finals.some((vessel) => slipsOf(run).reaches(vessel)));
  } else if (slots.count && slots.things) {
    const there = run.groups.get(slots.things.name)?.things.length;
    const stated = `${slots.count.written} x ${slots.things.name}`;
    const base = { at, of, what: "", stated, figure: undefined };
    if (there === undefined)
      yield { ...base, shown: undefined, why: `${slots.things.name} does not stand in materials here` };
    else if (run.unknown) yield { ...base, shown: undefined, why: "a figure of the steps is not known" };
    else if (!slots.count.value?.equals(Exact.of(there)) && !isDrawTold(slots.things.name, run))
      yield { ...base, shown: `${there} x ${slots.things.name}`, why: "" };
  }
}

/** A step that draws from it is told for its volume, or one before it. */
function isDrawTold(from: string, run: Run): boolean {
  return run.steps.some((s) => s.movements.some((m) => m.from?.name === from) && followsSlip(s, run));
}

function* unlessTold(found: Iterable<Differing>, isTold: () => boolean): Iterable<Differing> {
  for (const each of found) if (each.shown === undefined || !isTold()) yield each;
}

interface Derived {
  value: Exact | undefined;
  why: string;
}

function* compared(
  stated: MeasureSlot,
  what: string,
  { salt, ...base }: { at: Spot; of: Example; salt: NameSlot | undefined },
  derive: (stated: Quantity) => Derived,
): Iterable<Differing> {
  const { quantity } = stated;
  if (!quantity) return; // the notation is told at its place
  const { value, why } = derive(quantity);
  if (value && agreement(value, quantity, stated.decimals) === "agrees") return;
  const written = `${stated.written}${salt ? ` as ${salt.name}` : ""}`;
  yield { ...base, what, stated: written, shown: value && shownLike(value, quantity, salt), why, figure: stated };
}

function doseIn(stated: Quantity, as: string | undefined, run: Run): Derived {
  const dose = run.doses[0];
  if (!dose?.given)
    return { value: undefined, why: dose?.missing ? `${dose.missing} is not known` : "the order states no dose" };
  // Without a form of its own the figure is the dose as it is ordered.
  const substance = run.setup.drugs.get(dose.drug)?.substance;
  const given = as === undefined || !substance ? dose.given : inForm(dose.given, substance, dose.as, as);
  if (isRefusal(given)) return { value: undefined, why: given.reason.replace(/\.$/, "") };
  const turned = toUnit(given, stated.unit);
  return "refused" in turned
    ? { value: undefined, why: `the dose is ${showQuantity(dose.given)}` }
    : { value: turned.value, why: "" };
}

/** All that the steps draw from a material, waste of withdrawing left aside. */
function drawnIn(stated: Quantity, from: string, run: Run): Derived {
  if (stated.unit.dimension.key !== "volume") return { value: undefined, why: "a draw is stated in mL" };
  if (!run.groups.has(from)) return { value: undefined, why: `${from} does not stand in materials here` };
  if (run.unknown) return { value: undefined, why: "a figure of the steps is not known" };
  const moved = run.steps
    .flatMap((s) => s.movements)
    .filter((m) => m.from?.name === from && m.how !== "waste")
    .reduce((sum, m) => sum.plus(m.moved), Exact.zero);
  return { value: moved.over(inBase({ value: Exact.one, unit: stated.unit })), why: "" };
}

function strengthIn(stated: Quantity, as: string | undefined, run: Run): Derived {
  if (run.unknown) return { value: undefined, why: "a figure of the steps is not known" };
  const [first, ...others] = run.finals;
  if (!first) return { value: undefined, why: "no container is finished" };
  const figures = [first, ...others].map((v) => derivedLike(stated, v.liquid, run, undefined, as));
  const differing = figures.find((f) => f.value && figures[0]!.value && !f.value.equals(figures[0]!.value));
  return differing ? { value: undefined, why: "the finished containers differ" } : figures[0]!;
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
