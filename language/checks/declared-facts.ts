/** All facts of a declaration, those of its blocks included. */
import type { Declaration } from "../model/declaration.ts";
import type { Fact } from "../model/facts.ts";
import { keptWith } from "../model/kept-with.ts";
import type { BoundSlot, ConditionSlot, RangeSlot } from "../model/slots.ts";

export const everyFact = keptWith<Declaration, readonly Fact[]>(collectFacts);

function collectFacts(declaration: Declaration): Fact[] {
  const facts = [...declaration.facts.every()];
  if (declaration.kind === "drug") for (const row of declaration.stable) facts.push(...row.every());
  if (declaration.kind === "stock" && declaration.reconstitute) facts.push(...declaration.reconstitute.every());
  if (declaration.kind !== "recipe") return facts;
  const { order, preparations, intermediates, examples, labelText } = declaration;
  if (order) facts.push(...order.every());
  for (const part of [...preparations, ...intermediates, ...examples]) facts.push(...part.facts.every());
  if (labelText) facts.push(...labelText.every());
  return facts;
}

/** Conditions of facts, of materials and of steps, each once. */
export function everyCondition(declaration: Declaration): ConditionSlot[] {
  const found = everyFact(declaration).flatMap((f) => f.when ?? []);
  if (declaration.kind === "recipe") {
    found.push(...declaration.materials.flatMap((m) => m.when ?? []), ...declaration.steps.flatMap((s) => s.only));
  }
  return [...new Set(found)];
}

export function boundsIn(fact: Fact): readonly BoundSlot[] {
  return slotsThat(fact, (slot): slot is BoundSlot => "low" in slot && "high" in slot);
}

export function rangesIn(fact: Fact): readonly RangeSlot[] {
  return slotsThat(fact, (slot): slot is RangeSlot => "isRange" in slot && (slot as RangeSlot).isRange);
}

/** Most facts have none, and every fact is asked. */
const none: readonly never[] = [];

function slotsThat<S extends object>(fact: Fact, isMeant: (slot: object) => slot is S): readonly S[] {
  let found: S[] | undefined;
  const slots = fact.slots as Record<string, unknown>;
  for (const word in slots) {
    const slot = slots[word];
    if (typeof slot !== "object" || slot === null || !isMeant(slot)) continue;
    found ??= [];
    found.push(slot);
  }
  return found ?? none;
}
