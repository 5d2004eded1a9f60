/** Every quantity that the declarations and steps of a chunk state, with the place that says what it should measure. */
import { planOf } from "../../bench/plan.ts";
import type { ChunkReading, Declaration, Recipe } from "../../model/declaration.ts";
import type { Facts } from "../../model/facts.ts";
import type { BoundSlot, ConditionSlot, MeasureSlot, RangeSlot } from "../../model/slots.ts";

export interface StatedMeasure {
  measure: MeasureSlot;
  /** The other end of a range, whose unit this one may borrow. */
  other: MeasureSlot | undefined;
  /** `order`, `stock`, `stable` …; `step` for steps, `claim` for what stands beside them, `condition` behind `when`. */
  block: string;
  /** Fact word, verb, first word of a claim, or input of a condition. */
  word: string;
  slot: string;
}

let last: { reading: ChunkReading; measures: StatedMeasure[] } | undefined;

/** In no particular order. Several checks of one chunk ask in turn, so the last answer is kept. */
export function statedMeasures(reading: ChunkReading): readonly StatedMeasure[] {
  if (last?.reading !== reading) {
    const measures: StatedMeasure[] = [];
    for (const declaration of reading.declarations) ofDeclaration(declaration, measures);
    last = { reading, measures };
  }
  return last.measures;
}

function ofDeclaration(declaration: Declaration, into: StatedMeasure[]): void {
  ofFacts(declaration.facts, declaration.kind, into);
  if (declaration.kind === "drug") for (const row of declaration.stable) ofFacts(row, "stable", into);
  if (declaration.kind === "stock") ofFacts(declaration.reconstitute, "reconstitute", into);
  if (declaration.kind === "recipe") ofRecipe(declaration, into);
}

function ofRecipe(recipe: Recipe, into: StatedMeasure[]): void {
  ofFacts(recipe.order, "order", into);
  for (const { when } of recipe.materials) if (when) ofCondition(when, into);
  for (const { facts } of recipe.preparations) ofFacts(facts, "preparation", into);
  for (const { facts } of recipe.intermediates) ofFacts(facts, "intermediate", into);
  for (const { facts } of recipe.examples) ofFacts(facts, "example", into);
  for (const { only } of recipe.steps) for (const condition of only) ofCondition(condition, into);
  for (const { verb, slots, claims } of planOf(recipe).steps) {
    ofSlots(slots as object, "step", verb.word, into);
    for (const { kind, from, to, isRange } of claims)
      ofValue({ from, to, isRange }, "claim", kind === "moves" ? "=" : kind, "value", into);
  }
}

// biome-ignore lint/suspicious/noExplicitAny: facts of every block
function ofFacts(facts: Facts<any> | undefined, block: string, into: StatedMeasure[]): void {
  for (const fact of facts?.every() ?? []) {
    ofSlots(fact.slots as object, block, fact.word, into);
    if (fact.when) ofCondition(fact.when, into);
  }
}

function ofSlots(slots: object, block: string, word: string, into: StatedMeasure[]): void {
  for (const slot in slots) ofValue((slots as Record<string, unknown>)[slot], block, word, slot, into);
}

function ofValue(value: unknown, block: string, word: string, slot: string, into: StatedMeasure[]): void {
  if (typeof value !== "object" || value === null) return;
  if ("number" in value && "written" in value) {
    into.push({ block, word, slot, measure: value as MeasureSlot, other: undefined });
  } else if ("isRange" in value) {
    const { from, to, isRange } = value as RangeSlot;
    into.push({ block, word, slot, measure: from, other: isRange ? to : undefined });
    if (isRange) into.push({ block, word, slot, measure: to, other: from });
  } else if ("low" in value && "high" in value && !("number" in value)) {
    ofBound(value as BoundSlot, block, word, slot, into);
  }
}

function ofBound({ low, high }: BoundSlot, block: string, word: string, slot: string, into: StatedMeasure[]): void {
  if (low) into.push({ block, word, slot, measure: low.measure, other: high?.measure });
  if (high) into.push({ block, word, slot, measure: high.measure, other: low?.measure });
}

function ofCondition({ input, bound }: ConditionSlot, into: StatedMeasure[]): void {
  ofBound(bound, "condition", input.name, "bound", into);
}
