/** Every quantity that the declarations and steps of a chunk state, with the place that says what it should measure. */
import { planOf } from "../../bench/plan.ts";
import type { ChunkReading, Declaration, Recipe } from "../../model/declaration.ts";
import type { Facts } from "../../model/facts.ts";
import type { BoundSlot, ConditionSlot, MeasureSlot, RangeSlot } from "../../model/slots.ts";

export interface StatedMeasure {
  measure: MeasureSlot;
  /** The other end of a range, whose unit this one may borrow. */
  other: MeasureSlot | undefined;
  /** `order`, `stock`, `stable` …; `step` for steps, `condition` behind `when`. */
  block: string;
  /** Fact word, verb, or input of a condition. */
  word: string;
  slot: string;
}

let last: { reading: ChunkReading; measures: StatedMeasure[] } | undefined;

/** In no particular order. Several checks of one chunk ask in turn, so the last answer is kept. */
export function statedMeasures(reading: ChunkReading): readonly StatedMeasure[] {
  if (last?.reading !== reading) last = { reading, measures: reading.declarations.flatMap(ofDeclaration) };
  return last.measures;
}

function ofDeclaration(declaration: Declaration): StatedMeasure[] {
  const own = ofFacts(declaration.facts, declaration.kind);
  switch (declaration.kind) {
    case "drug":
      return [...own, ...declaration.stable.flatMap((row) => ofFacts(row, "stable"))];
    case "stock":
      return [...own, ...(declaration.reconstitute ? ofFacts(declaration.reconstitute, "reconstitute") : [])];
    case "recipe":
      return [...own, ...ofRecipe(declaration)];
    default:
      return own;
  }
}

function ofRecipe(recipe: Recipe): StatedMeasure[] {
  const steps = planOf(recipe).steps.flatMap(({ verb, slots }) => ofSlots(slots as object, "step", verb.word));
  return [
    ...(recipe.order ? ofFacts(recipe.order, "order") : []),
    ...recipe.materials.flatMap(({ when }) => (when ? ofCondition(when) : [])),
    ...recipe.preparations.flatMap(({ facts }) => ofFacts(facts, "preparation")),
    ...recipe.intermediates.flatMap(({ facts }) => ofFacts(facts, "intermediate")),
    ...recipe.examples.flatMap(({ facts }) => ofFacts(facts, "example")),
    ...recipe.steps.flatMap(({ only }) => only.flatMap(ofCondition)),
    ...steps,
  ];
}

// biome-ignore lint/suspicious/noExplicitAny: facts of every block
function ofFacts(facts: Facts<any>, block: string): StatedMeasure[] {
  return facts
    .every()
    .flatMap((fact) => [
      ...ofSlots(fact.slots as object, block, fact.word),
      ...(fact.when ? ofCondition(fact.when) : []),
    ]);
}

function ofSlots(slots: object, block: string, word: string): StatedMeasure[] {
  return Object.entries(slots).flatMap(([slot, value]) => ofValue(value, { block, word, slot }));
}

function ofValue(value: unknown, place: Pick<StatedMeasure, "block" | "word" | "slot">): StatedMeasure[] {
  if (typeof value !== "object" || value === null) return [];
  if ("number" in value && "written" in value) return [{ ...place, measure: value as MeasureSlot, other: undefined }];
  if ("isRange" in value) {
    const { from, to, isRange } = value as RangeSlot;
    if (!isRange) return [{ ...place, measure: from, other: undefined }];
    return [
      { ...place, measure: from, other: to },
      { ...place, measure: to, other: from },
    ];
  }
  if ("low" in value && "high" in value && !("number" in value)) return ofBound(value as BoundSlot, place);
  return [];
}

function ofBound({ low, high }: BoundSlot, place: Pick<StatedMeasure, "block" | "word" | "slot">): StatedMeasure[] {
  return [low, high].flatMap((end, i) => {
    const other = [high, low][i]?.measure;
    return end ? [{ ...place, measure: end.measure, other }] : [];
  });
}

function ofCondition({ input, bound }: ConditionSlot): StatedMeasure[] {
  return ofBound(bound, { block: "condition", word: input.name, slot: "bound" });
}
