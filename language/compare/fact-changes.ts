/** What two states of one declaration state differently, fact by fact and step by step, with both figures. */
import type { FactChange, FigureChange } from "../../shared/comparison.ts";
import { planOf } from "../bench/plan.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import type { Fact, Facts } from "../model/facts.ts";
import type { MeasureSlot, NameSlot, NumberSlot } from "../model/slots.ts";
import type { Quantity } from "../quantities/quantity.ts";
import { unitOf } from "../quantities/unit.ts";
import { figureChange } from "./difference.ts";
import { type DeclarationMeaning, type FactMeaning, meaningOf, type StepMeaning } from "./meaning.ts";
import { pairFacts, pairSteps, type StepPairs } from "./pair-statements.ts";
import { inNewBlocks, renamedBlocks } from "./renamed-blocks.ts";
import { type DeclaredAs, type InUnitOf, inUnitOf } from "./same-amount.ts";

export interface StatedChanges {
  facts: FactChange[];
  steps: StepPairs;
}

/** @param declaredAs so that a material that became another item is told with what the two items state differently */
export function statedChanges(
  before: DeclarationMeaning,
  after: DeclarationMeaning,
  declarations: { before: Declaration; after: Declaration },
  declaredAs: DeclaredAs = () => undefined,
): StatedChanges {
  const renamed = renamedBlocks(before.facts, after.facts);
  const pairs = pairFacts(before.kind, inNewBlocks(before.facts, renamed), after.facts, "paired");
  const steps = pairSteps(before.steps, after.steps);
  const slotsBefore = slotsByStart(declarations.before);
  const slotsAfter = slotsByStart(declarations.after);
  const changed = (block: string, how: FactChange["how"], was?: Shown, is?: Shown): FactChange => ({
    block,
    how,
    before: was?.shown ?? "",
    after: is?.shown ?? "",
    figures:
      how === "changed"
        ? changedFigures(
            { declaration: declarations.before, slots: slotsBefore.get(was!.start) },
            { declaration: declarations.after, slots: slotsAfter.get(is!.start) },
            declaredAs,
          )
        : [],
  });
  // A source that stands once for all facts is told once, and not again for each line that it covers.
  const isSourced = [...pairs.changed.map(([, is]) => is), ...pairs.removed, ...pairs.added].some(isSource);
  const told = pairs.changed.filter(([was, is]) => !isSourced || isSource(is) || was.shown !== is.shown);
  const facts = [
    ...[...renamed].map(
      ([was, is]): FactChange => ({ block: "", how: "changed", before: was, after: is, figures: [] }),
    ),
    ...told.map(([was, is]) => changed(is.block, "changed", was, is)),
    ...pairs.removed.map((was) => changed(was.block, "removed", was)),
    ...pairs.added.map((is) => changed(is.block, "added", undefined, is)),
  ].sort((a, b) => blockRank(a.block) - blockRank(b.block));
  const numbered = (s: StepMeaning): Shown => ({ shown: `${s.number}. ${s.shown}`, start: s.start });
  return {
    facts: [
      ...facts,
      ...steps.changed.map(([was, is]) => changed("steps", "changed", numbered(was), numbered(is))),
      // Of steps that say the same any may be called the one that moved; one that kept its number tells nothing.
      ...steps.moved
        .filter(([was, is]) => was.number !== is.number)
        .map(([was, is]) => changed("steps", "moved", numbered(was), numbered(is))),
      ...steps.removed.map((was) => changed("steps", "removed", numbered(was))),
      ...steps.added.map((is) => changed("steps", "added", undefined, numbered(is))),
    ],
    steps,
  };
}

function isSource({ word }: FactMeaning): boolean {
  return word === "source";
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
  for (const { start, count, item, when } of recipe.materials) slots.set(start, { count, item, "when ": when });
  for (const { step, slots: own, claims } of planOf(recipe).steps) {
    const claimed = claims.map((claim) => [`${claim.kind} `, { from: claim.from, to: claim.to }]);
    slots.set(step.start, { ...(own as object), ...Object.fromEntries(claimed) });
  }
}

interface Line {
  declaration: Declaration;
  slots: object | undefined;
}

function changedFigures(before: Line, after: Line, declaredAs: DeclaredAs): FigureChange[] {
  const [was, is] = [before, after].map(({ slots }) => (slots as { item?: NameSlot } | undefined)?.item?.name);
  const item = (side: "before" | "after", name: string) =>
    declaredAs(side, "stock", name) ?? declaredAs(side, "device", name);
  const items = was !== is && was && is ? itemFigures(item("before", was), item("after", is), declaredAs) : [];
  return [...figures(before.slots, after.slots, inUnitOf(before, after, declaredAs)), ...items];
}

/** What two items state differently: strength, fill, capacity, graduation. */
function itemFigures(
  before: Declaration | undefined,
  after: Declaration | undefined,
  declaredAs: DeclaredAs,
): FigureChange[] {
  if (!before || !after || before.kind !== after.kind) return [];
  const { changed } = pairFacts(before.kind, meaningOf(before).facts, meaningOf(after).facts);
  const [was, is] = [slotsByStart(before), slotsByStart(after)];
  return changed.flatMap(([one, other]) => {
    const [left, right] = [was.get(one.start), is.get(other.start)];
    const inUnit = inUnitOf({ declaration: before, slots: left }, { declaration: after, slots: right }, declaredAs);
    return figures(left, right, inUnit).map((f) => ({ ...f, what: one.word }));
  });
}

/** Every quantity that stands in the same slot of both with another value. */
function figures(before: object | undefined, after: object | undefined, inUnit: InUnitOf): FigureChange[] {
  const [was, is] = [quantities(before), quantities(after)];
  const changes: FigureChange[] = [];
  for (const [slot, quantity] of was) {
    const change = is.has(slot) ? slotChange(slot, quantity, is.get(slot)!, inUnit) : undefined;
    // A single figure is a range with both ends alike: told once.
    const isTwin = change && changes.some((c) => c.before === change.before && c.after === change.after);
    if (change && !isTwin) changes.push(change);
  }
  return changes;
}

/** Numbers that name a size or a class: their difference and their quotient mean nothing, and a higher gauge is a finer needle. */
const ordinal = new Set(["gauge", "category", "number"]);

function slotChange(slot: string, was: Quantity, is: Quantity, inUnit: InUnitOf): FigureChange | undefined {
  const change = figureChange(wordsOfSlot(slot), was, is, inUnit);
  return change && ordinal.has(slot) ? { ...change, difference: "", percent: "", factor: "", alarm: "" } : change;
}

const plainCount = unitOf([]);

function quantities(slots: object | undefined, path = ""): Map<string, Quantity> {
  const found = new Map<string, Quantity>();
  for (const [key, slot] of Object.entries(slots ?? {})) {
    if (typeof slot !== "object" || slot === null) continue;
    const own = (slot as Partial<MeasureSlot>).quantity ?? countOf(slot);
    const name = path === "" ? key : `${path}.${key}`;
    if (own) found.set(name, own);
    else if (!("kind" in slot)) for (const [inner, quantity] of quantities(slot, name)) found.set(inner, quantity);
  }
  return found;
}

/** `4 x`, `inverting 10 times`: a number without a unit. */
function countOf(slot: Partial<NumberSlot>): Quantity | undefined {
  return slot.written !== undefined && slot.value ? { value: slot.value, unit: plainCount } : undefined;
}

/** `value.from` of a claim is its lower end; a plain slot is told by its own name. */
function wordsOfSlot(slot: string): string {
  return slot.replaceAll(" ", "").replaceAll(".measure", "").replaceAll(".bound", "").replaceAll(".", " ");
}
