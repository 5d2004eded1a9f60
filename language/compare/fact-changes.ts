/** What two states of one declaration state differently, fact by fact and step by step, with both figures. */
import type { FactChange, FigureChange } from "../../shared/comparison.ts";
import { planOf } from "../bench/plan.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import type { Fact, Facts } from "../model/facts.ts";
import type { MeasureSlot } from "../model/slots.ts";
import type { Quantity } from "../quantities/quantity.ts";
import { figureChange } from "./difference.ts";
import type { DeclarationMeaning, FactMeaning, StepMeaning } from "./meaning.ts";
import { pairFacts, pairSteps, type StepPairs } from "./pair-statements.ts";

export interface StatedChanges {
  facts: FactChange[];
  steps: StepPairs;
}

export function statedChanges(
  before: DeclarationMeaning,
  after: DeclarationMeaning,
  declarations: { before: Declaration; after: Declaration },
): StatedChanges {
  const pairs = pairFacts(before.kind, before.facts, after.facts);
  const steps = pairSteps(before.steps, after.steps);
  const slotsBefore = slotsByStart(declarations.before);
  const slotsAfter = slotsByStart(declarations.after);
  const changed = (block: string, how: FactChange["how"], was?: Shown, is?: Shown): FactChange => ({
    block,
    how,
    before: was?.shown ?? "",
    after: is?.shown ?? "",
    figures: how === "changed" ? figures(slotsBefore.get(was!.start), slotsAfter.get(is!.start)) : [],
  });
  const facts = [
    ...pairs.changed.map(([was, is]) => changed(is.block, "changed", was, is)),
    ...pairs.removed.map((was) => changed(was.block, "removed", was)),
    ...pairs.added.map((is) => changed(is.block, "added", undefined, is)),
  ].sort((a, b) => blockRank(a.block) - blockRank(b.block));
  const numbered = (s: StepMeaning): Shown => ({ shown: `${s.number}. ${s.shown}`, start: s.start });
  return {
    facts: [
      ...facts,
      ...steps.changed.map(([was, is]) => changed("steps", "changed", numbered(was), numbered(is))),
      ...steps.moved.map(([was, is]) => changed("steps", "moved", numbered(was), numbered(is))),
      ...steps.removed.map((was) => changed("steps", "removed", numbered(was))),
      ...steps.added.map((is) => changed("steps", "added", undefined, numbered(is))),
    ],
    steps,
  };
}

interface Shown {
  shown: string;
  start: number;
}

const blocks = ["", "order", "materials", "intermediate", "preparation", "label-text", "example"];

function blockRank(block: string): number {
  const at = blocks.indexOf(block.split(" ")[0]!);
  return at < 0 ? blocks.length : at;
}

/** All that a declaration states, for the record of an added or removed one. */
export function allStated({ facts, steps }: DeclarationMeaning, how: "added" | "removed"): FactChange[] {
  const told = (block: string, shown: string): FactChange => ({
    block,
    how,
    before: how === "removed" ? shown : "",
    after: how === "added" ? shown : "",
    figures: [],
  });
  const stated = facts.filter((f: FactMeaning) => f.word !== "" || !f.isRead);
  return [...stated.map((f) => told(f.block, f.shown)), ...steps.map((s) => told("steps", `${s.number}. ${s.shown}`))];
}

/** Slots of every statement by the offset at which it begins. */
function slotsByStart(declaration: Declaration): Map<number, object> {
  const slots = new Map<number, object>();
  const take = (facts: Facts | undefined) => {
    for (const fact of facts?.every() ?? [])
      slots.set(fact.start, { ...((fact as Fact).slots as object), "when ": fact.when });
  };
  take(declaration.facts as Facts);
  if (declaration.kind === "drug") for (const block of declaration.stable) take(block as Facts);
  if (declaration.kind === "stock") take(declaration.reconstitute as Facts | undefined);
  if (declaration.kind === "recipe") takeRecipe(declaration, slots, take);
  return slots;
}

function takeRecipe(recipe: Recipe, slots: Map<number, object>, take: (facts: Facts | undefined) => void): void {
  take(recipe.order as Facts | undefined);
  for (const block of [...recipe.preparations, ...recipe.intermediates, ...recipe.examples]) take(block.facts as Facts);
  for (const material of recipe.materials) slots.set(material.start, { count: material.count, "when ": material.when });
  for (const { step, slots: own, claims } of planOf(recipe).steps) {
    const claimed = claims.map((claim) => [`${claim.kind} `, { from: claim.from, to: claim.to }]);
    slots.set(step.start, { ...(own as object), ...Object.fromEntries(claimed) });
  }
}

/** Every quantity that stands in the same slot of both with another value. */
function figures(before: object | undefined, after: object | undefined): FigureChange[] {
  const [was, is] = [quantities(before), quantities(after)];
  const changes: FigureChange[] = [];
  for (const [slot, quantity] of was) {
    const change = is.has(slot) ? figureChange(wordsOfSlot(slot), quantity, is.get(slot)) : undefined;
    if (change) changes.push(change);
  }
  return changes;
}

function quantities(slots: object | undefined, path = ""): Map<string, Quantity> {
  const found = new Map<string, Quantity>();
  for (const [key, slot] of Object.entries(slots ?? {})) {
    if (typeof slot !== "object" || slot === null) continue;
    const own = (slot as Partial<MeasureSlot>).quantity;
    const name = path === "" ? key : `${path}.${key}`;
    if (own) found.set(name, own);
    else if (!("kind" in slot)) for (const [inner, quantity] of quantities(slot, name)) found.set(inner, quantity);
  }
  return found;
}

/** `value.from` of a claim is its lower end; a plain slot is told by its own name. */
function wordsOfSlot(slot: string): string {
  return slot.replaceAll(" ", "").replaceAll(".measure", "").replaceAll(".bound", "").replaceAll(".", " ");
}
