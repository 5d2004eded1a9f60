/** Preparations in a bag of fluid. */
import type { Draft } from "./draft.ts";
import { type DrugKind, drugKinds, saltDrug } from "./drugs.ts";
import { figure } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { StockFact } from "./program.ts";
import { bagOf, glucose, mL, powderOf, saline, solutionOf, syringeFor } from "./shelf.ts";

const kinds: readonly DrugKind[] = [...drugKinds, saltDrug];

/** A bag of a fluid as the container that is finished; returns its labelled volume. */
function bagStands(draft: Draft, overfill = false): Fraction {
  const { random } = draft;
  const fluid = random.pick([saline, glucose]);
  const plain = bagOf(random, fluid, "diluent-bag");
  const least = random.between(1, 6);
  const bag: StockFact = overfill
    ? { ...plain, overfill: { least: mL(least), most: mL(least + 2 * random.between(1, 4)) } }
    : plain;
  draft.fluidOf("bag", fluid, bag);
  draft.order = {
    ...draft.order,
    diluent: fluid.name,
    diluentVolumes: [{ figure: { ...bag.fill!, unit: random.pick([bag.fill!.unit, "mL"]) } }],
  };
  return bag.fill!.value;
}

/** One product or several, whose number may stand there or be found. */
export function oneDrug(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  const stock = solutionOf(random, kind, "product", [1, 2, 5, 10, 20]);
  const fill = Number(stock.fill!.value.decimal());
  const { volume, syringe } = draft.onMark(Math.min(0.5, fill / 2), random.chance(0.5) ? fill : Math.min(fill * 4, 40));
  const count = Math.ceil(Number(volume.over(stock.fill!.value).n) / Number(volume.over(stock.fill!.value).d));
  draft.material("med", stock, random.chance(0.5) ? count : undefined);
  draft.syringe("measure", syringe);
  const all = bagStands(draft);
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  const isWithdrawn = random.chance(0.3) && volume.against(all.over(Fraction.of(2))) < 0;
  if (isWithdrawn) {
    draft.order = { ...draft.order, method: "withdraw-first" };
    draft.syringe("waste", syringeFor(volume));
    draft.actions.push({ do: "withdraw", much: "added-volume", from: "bag", using: "waste" });
  }
  const much = draft.asked(kind, volume, strength, dose);
  if (stock.container === "vial" && random.chance(0.25)) {
    draft.actions.push({ do: "add", much, from: "med", into: "bag", using: "measure" });
    return;
  }
  draft.actions.push({ do: "draw", much, from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

/** The dose goes through two syringes, the second with what the first has left of it. */
export function inTwoSyringes(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  const stock = { ...solutionOf(random, kind, "product", [5, 10, 20]), container: "vial" as const };
  const first = draft.onMark(2, 8);
  const second = draft.onMark(2, 8);
  draft.material("med", stock);
  draft.syringe("measure", first.syringe);
  draft.syringe("second", second.syringe);
  bagStands(draft);
  const all = first.volume.plus(second.volume);
  const dose = draft.amountIn(kind, all, draft.strength("product"));
  draft.doses({ drug: kind.fact.name, figure: dose });
  draft.actions.push({ do: "draw", much: { value: first.volume, unit: "mL" }, from: "med", into: "measure" });
  draft.actions.push({ do: "draw", much: "rest of dose", from: "med", into: "second" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
  draft.actions.push({ do: "inject", from: "second", into: "bag" });
}

export function powder(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick([drugKinds[0]!, drugKinds[1]!, drugKinds[5]!, saltDrug]);
  draft.drug(kind);
  const stock = powderOf(random, kind, "product");
  const needed = random.between(1, 4);
  const count = needed === 1 || random.chance(0.5) ? needed : undefined;
  draft.material("vials", stock, count);
  const into = draft.dissolved("vials", stock, count);
  const each = stock.powder!.label?.withdrawable.value ?? into;
  const most = Number(each.times(Fraction.of(needed)).n) / Number(each.times(Fraction.of(needed)).d);
  const { volume, syringe } = draft.onMark(Math.max(1, (most * (needed - 0.5)) / needed), most);
  draft.syringe("measure", syringe);
  const overfill = random.chance(0.5);
  const all = bagStands(draft, overfill);
  const strength = draft.strength("product", into);
  const dose = draft.amountIn(kind, volume.least(each.times(Fraction.of(needed))), strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  if (volume.against(all.over(Fraction.of(2))) < 0 && random.chance(0.6)) {
    const more = overfill && random.chance(0.6);
    draft.order = { ...draft.order, method: more ? "withdraw-first-with-overfill" : "withdraw-first" };
    draft.syringe("waste", syringeFor(volume.plus(Fraction.of(more ? 14 : 0))));
    const much = more ? ("added-volume and overfill" as const) : ("added-volume" as const);
    draft.actions.push({ do: "withdraw", much, from: "bag", using: "waste" });
  }
  draft.actions.push({ do: "draw", much: draft.asked(kind, volume, strength, dose), from: "vials", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

export function severalAdditives(draft: Draft): void {
  const { random } = draft;
  const chosen = [...drugKinds].sort(() => random.next() - 0.5).slice(0, random.between(2, 3));
  const doses = [];
  for (const [i, kind] of chosen.entries()) {
    draft.drug(kind);
    draft.material(`med-${i + 1}`, solutionOf(random, kind, `product-${i + 1}`, [5, 10, 20]));
    const { volume, syringe } = draft.onMark(1.2, 12);
    draft.syringe(`measure-${i + 1}`, syringe);
    const dose = draft.amountIn(kind, volume, draft.strength(`product-${i + 1}`));
    doses.push({ drug: kind.fact.name, figure: dose });
    const much = draft.asked(kind, volume, draft.strength(`product-${i + 1}`), dose);
    draft.actions.push({ do: "draw", much, from: `med-${i + 1}`, into: `measure-${i + 1}` });
    draft.actions.push({ do: "inject", from: `measure-${i + 1}`, into: "bag" });
  }
  bagStands(draft);
  draft.doses(...doses);
}

/** Two bags or more alike, each with the dose. */
export function bagsAlike(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  const stock = { ...solutionOf(random, kind, "product", [5, 10, 50]), container: "vial" as const };
  draft.material("med", stock);
  const { volume, syringe } = draft.onMark(1.2, 9);
  const makes = random.between(2, 4);
  const bag = bagOf(random, saline, "diluent-bag");
  draft.final = "bags";
  draft.fluidOf("bags", saline, bag, makes);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  draft.syringe("measure", syringe);
  if (random.chance(0.4)) {
    draft.order = { ...draft.order, method: "withdraw-first" };
    draft.syringe("waste", syringeFor(volume));
    draft.actions.push({ do: "withdraw", much: "added-volume", from: "bags", using: "waste", each: true });
  }
  const much = draft.asked(kind, volume, strength, dose);
  draft.actions.push({ do: "add", much, from: "med", into: "bags", using: "measure", each: true });
}

/** For a range of body weights. */
export function byWeight(draft: Draft): void {
  const { random } = draft;
  const kind = drugKinds[random.between(0, 1)]!;
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [50, 100]), container: "vial" as const });
  const strength = draft.strength("product");
  const step = random.pick([5, 10]);
  const from = random.between(2, 5) * 10;
  const range = {
    of: "weight" as const,
    from: figure(from, "kg"),
    to: figure(from + step * random.between(2, 6), "kg"),
    step: figure(step, "kg"),
  };
  // A tenth of a mL for each kg; rounded to whole mL, and capped at some of it.
  const perKilogram = strength.over(Fraction.of(10));
  const dose = { value: perKilogram, unit: "mg/kg" };
  draft.doses({ drug: kind.fact.name, figure: dose, perEach: "kg" });
  draft.order = { ...draft.order, range, round: { to: { value: strength, unit: "mg" }, way: "to nearest" } };
  if (random.chance(0.5)) {
    const most = range.to.value.over(Fraction.of(10)).times(Fraction.ratio(3n, 4n)).nearest(Fraction.one);
    draft.order = { ...draft.order, maximum: { value: most.times(strength), unit: "mg" } };
  }
  draft.syringe("measure", syringeFor(Fraction.of(20)));
  bagStands(draft);
  draft.actions.push({ do: "draw", much: "dose", from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

/** A part of the syringe, by amount or volume, and the rest of it. */
export function partOfSyringe(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [20, 50]), container: "vial" as const });
  const { volume, syringe } = draft.onMark(4, 11);
  draft.syringe("measure", syringe);
  bagStands(draft);
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  const more = random.chance(0.4) ? syringe.graduation.value : Fraction.zero;
  if (more.isZero || volume.plus(more).against(syringe.capacity.value) > 0) {
    draft.actions.push({ do: "draw", much: draft.asked(kind, volume, strength, dose), from: "med", into: "measure" });
  } else {
    draft.actions.push({ do: "draw", much: { value: volume.plus(more), unit: "mL" }, from: "med", into: "measure" });
    draft.actions.push({ do: "expel", from: "measure", much: { value: volume, unit: "mL" } });
  }
  const first = volume.over(Fraction.of(3)).nearest(syringe.graduation.value);
  const much = random.chance(0.5) ? mL(first) : draft.amountIn(kind, first, strength);
  draft.actions.push({ do: "inject", much, from: "measure", into: "bag" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}
