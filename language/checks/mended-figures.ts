/**
 * What one figure of a recipe would have to be for another figure, stated beside it, to be right: the dose that is ordered, the volume
 * beside the step, the label's volume of a powder, the number that the order makes. Whether it is so is for the judging to say.
 */
import { happened, type Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Stock } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { MeasureSlot, NameSlot, Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, sameDimension, volumeOf } from "../quantities/quantity.ts";
import { powderLabel } from "./stock/powder-label.ts";
import { orderedVolume } from "./volumes/ordered.ts";

/** Another figure, or another name, in the place of one that is written. */
export interface Mend {
  at: Spot;
  text: string;
  /** Further places of the same name in the recipe. */
  also?: readonly Spot[];
  /** The check that tells both figures, the written one and the one that asks for this. */
  told: string;
  /** Set where the figure stands in this stock; else it stands in the recipe. */
  stock?: Stock;
}

/** In order of place; where two figures beside it ask for the same one, before all others. */
export function mendsOf(run: Run, lookup: Lookup): readonly Mend[] {
  const all = [
    ...ofCount(run),
    ...ofFilledBags(run),
    ...run.steps.flatMap((step) => (step.skipped ? [] : [...ofStep(step, run)])),
    ...ofPowders(run, lookup),
  ];
  const key = ({ at, text, stock }: Mend) => `${stock?.name.name ?? ""} ${at.start} ${text}`;
  const votes = new Map<string, number>();
  for (const mend of all) votes.set(key(mend), (votes.get(key(mend)) ?? 0) + 1);
  const first = all.filter((mend, i) => all.findIndex((other) => key(other) === key(mend)) === i);
  return first.sort((a, b) => votes.get(key(b))! - votes.get(key(a))!);
}

interface Moving {
  amount?: MeasureSlot;
  volume?: MeasureSlot;
  each?: Spot;
  target?: NameSlot;
  vials?: NameSlot;
  bag?: NameSlot;
}

function* ofStep(step: StepRun, run: Run): Generator<Mend> {
  const slots = step.slots as Moving;
  const slot = slots.amount ?? slots.volume;
  if (!slot?.quantity?.value.isPositive()) return;
  const isVolume = slot.quantity.unit.dimension.key === "volume";
  // More than the syringe holds moves what it holds, which may be the very volume beside the step.
  const isBeyond = happened(run, "push-beyond-content").some((h) => h.step === step);
  const told = isBeyond ? "push-beyond-content" : "claim-differs";
  for (const claim of step.claims) {
    const claimed = claim.kind === "moves" && !claim.isRange ? volumeOf(claim.from.quantity) : undefined;
    if (!claimed?.isPositive()) continue;
    if (isVolume) yield* inPlaceOf(slot, claimed.over(Exact.of(servedBy(slots, run))), told);
    else yield* scaled(slot, claimed, askedBy(step, run), told);
  }
  if (step.verb === "reconstitute") {
    for (const { step: here, data } of happened(run, "reconstituted-otherwise"))
      if (here === step) yield* inPlaceOf(slot, data.label, "reconstituted-otherwise");
  }
  if (step.verb === "draw" && isVolume) yield* ofDiluent(step, slot, run);
  else if (step.verb === "draw") yield* ofDose(step, slot, run);
  if (step.verb === "withdraw" && slots.bag) yield* ofWithdrawal(slots.bag.name, slot, run);
}

/** How many containers the step asks to serve alike. */
function servedBy({ each, target, vials, bag }: Moving, run: Run): number {
  const set = (target ?? vials ?? bag)?.name;
  return (each && set !== undefined && run.groups.get(set)?.things.length) || 1;
}

/** What it asks for in all, before what stands on the bench sets it a bound. */
function askedBy(step: StepRun, run: Run): Exact {
  const beyond = [...happened(run, "draw-beyond-content"), ...happened(run, "draw-beyond-syringe")];
  const asked = beyond.find((h) => h.step === step)?.data.asked;
  return asked ?? step.movements.reduce((sum, m) => sum.plus(m.asked), Exact.zero);
}

/** A diluent drawn by volume: what the ordered volume lacks or has too much of. */
function* ofDiluent(step: StepRun, slot: MeasureSlot, run: Run): Generator<Mend> {
  const [vessel, second] = run.finals;
  const ordered = vessel && !second && orderedVolume(run, vessel);
  if (!ordered) return;
  const moved = step.movements.reduce((sum, m) => sum.plus(m.moved), Exact.zero);
  yield* inPlaceOf(slot, ordered.minus(vessel.liquid.volume).plus(moved), "final-volume-differs");
}

function* ofDose(step: StepRun, slot: MeasureSlot, run: Run): Generator<Mend> {
  const { finals } = run;
  const drugs = new Set(step.movements.flatMap(({ liquid }) => liquid.drugs));
  const [dose, second] = run.doses.filter((d) => drugs.has(d.drug));
  if (!dose?.given || second || finals.length === 0) return;
  const all = dose.given.value.times(Exact.of(finals.length));
  const told = "dose-not-delivered";
  if (sameDimension(dose.given, slot.quantity!)) yield* inPlaceOf(slot, all.times(dose.given.unit.factor), told);
  else if (all.terminates() && dose.measure.unit)
    yield { at: slot, text: `${all.toText()} ${dose.measure.unit.text}`, told };
}

/** What is taken out before makes room for what is put in. */
function* ofWithdrawal(bag: string, slot: MeasureSlot, run: Run): Generator<Mend> {
  for (const { slots } of run.steps) {
    const { amount, target } = slots as Moving;
    const added = target?.name === bag ? volumeOf(amount?.quantity) : undefined;
    if (added?.isPositive()) yield* inPlaceOf(slot, added, "method-not-followed");
  }
}

/** As many containers as the order makes. */
function* ofCount({ recipe }: Run): Generator<Mend> {
  const makes = recipe.order?.one("makes")?.slots;
  const material = makes && recipe.materials.find((m) => m.name.name === makes.what.name);
  const [wanted, stated] = [makes?.count.value, material?.count?.value];
  if (wanted && stated && !wanted.equals(stated))
    yield { at: material!.count!, text: wanted.toText(), told: "batch-count-differs" };
}

/** A bag that holds the ordered diluent, whatever its stock says. */
function* ofFilledBags({ recipe, finals }: Run): Generator<Mend> {
  const [ordered, second] = recipe.order?.all("diluent-volume") ?? [];
  const stock = finals[0]?.stock;
  const fill = stock?.facts.one("fluid") && stock.facts.one("fill")?.slots.fill;
  if (!ordered?.slots.volume.quantity || second || !fill?.quantity) return;
  if (inBase(fill.quantity).equals(inBase(ordered.slots.volume.quantity))) return;
  yield { at: fill, text: ordered.slots.volume.written, told: "diluent-volume-differs", stock: stock! };
}

/** The label of a powder: with the volume that the step adds, or with the content that its strength and volume give, and back. */
function* ofPowders(run: Run, lookup: Lookup): Generator<Mend> {
  const seen = new Set<Stock>();
  for (const { things } of run.groups.values()) {
    const [first] = things;
    if (first?.is !== "vessel" || !first.stock?.reconstitute || seen.has(first.stock)) continue;
    const { stock } = first;
    seen.add(stock);
    const label = powderLabel(stock, lookup);
    if (!label) continue;
    const { content, added, gives, withdrawable } = label;
    for (const { data } of happened(run, "reconstituted-otherwise")) {
      if (data.vessel.stock !== stock || !added?.volume.isPositive()) continue;
      for (const mend of inPlaceOf(added.slot, data.volume, "reconstituted-otherwise")) yield { ...mend, stock };
    }
    if (!gives || !withdrawable?.volume.isPositive()) continue;
    const given = gives.perMl.times(withdrawable.volume);
    for (const mend of scaled(content.slot, given, content.held, "claim-differs")) yield { ...mend, stock };
    for (const mend of scaled(gives.slot, content.held, given, "claim-differs")) yield { ...mend, stock };
  }
}

/** The figure in the proportion in which one value stands to another. */
function* scaled(slot: MeasureSlot, wanted: Exact, found: Exact, told: string): Generator<Mend> {
  if (found.isPositive()) yield* inPlaceOf(slot, inBase(slot.quantity!).times(wanted).over(found), told);
}

/** A figure of this size in the unit of the written one; none where its decimals have no end or it is the same. */
function* inPlaceOf({ start, end, unit, quantity }: MeasureSlot, size: Exact, told: string): Generator<Mend> {
  if (!unit || !quantity || !size.isPositive() || size.equals(inBase(quantity))) return;
  const figure = size.over(quantity.unit.factor);
  if (figure.terminates()) yield { at: { start, end }, text: `${figure.toText()} ${unit.text}`, told };
}
