/** Preparations of an order with a range: for every body weight, or every body surface. */
import type { Draft } from "./draft.ts";
import { type DrugKind, drugKinds, saltDrug } from "./drugs.ts";
import { amountOf } from "./facts.ts";
import { type Figure, figure, fits } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Condition, DoseFact, RangeFact } from "./program.ts";
import { bagOf, glucose, mL, saline, solutionOf, syringeFor, syringes } from "./shelf.ts";

const kinds: readonly DrugKind[] = [...drugKinds, saltDrug];

function rangeOf(draft: Draft): RangeFact {
  const { random } = draft;
  const [of, unit, first, step] = random.chance(0.5)
    ? (["weight", "kg", random.between(2, 5) * 10, random.pick([5, 10])] as const)
    : (["body-surface", "m2", random.pick(["1.2", "1.4"]), random.pick(["0.1", "0.2"])] as const);
  const from = figure(first, unit);
  const wide = figure(step, unit);
  const to = { unit, value: from.value.plus(wide.value.times(Fraction.of(random.between(2, 6)))) };
  draft.order = { ...draft.order, range: { of, from, to, step: wide } };
  return { of, from, to, step: wide };
}

/** A dose for each kg or m2, of which the smallest patient gets so many mL. */
function doseForEach(draft: Draft, kind: DrugKind, range: RangeFact, least: Fraction): DoseFact {
  const perEach = range.of === "weight" ? "kg" : "m2";
  const counted = draft.amountIn(kind, least.over(range.from.value), draft.strength("product"));
  return { drug: kind.fact.name, figure: { ...counted, unit: `${counted.unit}/${perEach}` }, perEach };
}

/** What so many mL bring, in the unit and form of the dose; in another form where the line says so itself. */
function beside(draft: Draft, kind: DrugKind, dose: DoseFact, volume: Fraction, mayNameForm = false): Figure {
  const { fact } = kind;
  const { value: _, unit, ...counted } = dose.figure;
  const plain = unit.split("/")[0]!;
  const isNamed = fact.salt !== undefined && mayNameForm && draft.random.chance(0.5);
  const form = isNamed ? { as: draft.random.pick([fact.salt!.base, fact.salt!.name]) } : {};
  const one = amountOf(draft, fact.name, { value: Fraction.one, unit: plain, ...counted, ...form })!;
  const exactly = volume.times(draft.strength("product")).over(one);
  const value = fits(exactly, plain) ? exactly : exactly.toFigures(4);
  return { ...form, unit: plain, value };
}

function laidOut(draft: Draft): { kind: DrugKind; range: RangeFact; dose: DoseFact; least: Fraction; most: Fraction } {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [50, 100]), container: "vial" as const });
  const range = rangeOf(draft);
  const least = Fraction.of(random.between(3, 9));
  const dose = doseForEach(draft, kind, range, least);
  const most = least.times(range.to.value).over(range.from.value);
  return { kind, range, dose, least, most };
}

/** The two sides of a dose that lies between the smallest and the biggest. */
function sides(
  draft: Draft,
  kind: DrugKind,
  dose: DoseFact,
  least: Fraction,
  most: Fraction,
): [Condition, Condition, Fraction] {
  const between = least.plus(most).over(Fraction.of(2)).nearest(Fraction.one);
  const { as: _, ...at } = beside(draft, kind, dose, between);
  const isAbove = draft.random.chance(0.5);
  return [{ of: "dose", [isAbove ? "upTo" : "below"]: at }, { of: "dose", [isAbove ? "above" : "from"]: at }, between];
}

/** Rounded each way, capped, with a floor; bag and syringe by the dose. */
export function byPatient(draft: Draft): void {
  const { random } = draft;
  const { kind, dose, least, most } = laidOut(draft);
  draft.doses(dose);
  const tenth = least.over(Fraction.of(10)).nearest(Fraction.ratio(1n, 5n));
  if (random.chance(0.7)) {
    const way = random.pick(["to nearest", "upward to", "downward to"] as const);
    const to = beside(draft, kind, dose, tenth.isPositive ? tenth : Fraction.ratio(1n, 5n), true);
    draft.order = { ...draft.order, round: { to, way } };
  }
  const third = most.minus(least).over(Fraction.of(3));
  if (random.chance(0.5)) draft.order = { ...draft.order, maximum: beside(draft, kind, dose, most.minus(third), true) };
  if (random.chance(0.5)) draft.order = { ...draft.order, minimum: beside(draft, kind, dose, least.plus(third), true) };
  const [small, large, between] = sides(draft, kind, dose, least, most);
  const fluid = random.pick([saline, glucose]);
  draft.order = { ...draft.order, diluent: fluid.name };
  if (random.chance(0.6)) {
    const [first, second] = [bagOf(random, fluid, "bag-one"), bagOf(random, fluid, "bag-two")];
    draft.fluidOf("bag", fluid, first);
    draft.fluidOf("bag", fluid, second);
    draft.materials = draft.materials.map((each) =>
      each.name === "bag" ? { ...each, when: each.stock === "bag-one" ? small : large } : each,
    );
    draft.order = {
      ...draft.order,
      diluentVolumes: [
        { figure: first.fill!, when: small },
        { figure: second.fill!, when: large },
      ],
    };
  } else {
    const bag = bagOf(random, fluid, "diluent-bag");
    draft.fluidOf("bag", fluid, bag);
    draft.order = { ...draft.order, diluentVolumes: [{ figure: bag.fill! }] };
  }
  const big = syringeFor(most.plus(Fraction.one));
  if (random.chance(0.4)) {
    draft.materials.push({ name: "measure", syringe: syringeFor(between.plus(Fraction.one)), when: small });
    draft.materials.push({ name: "measure", syringe: big, when: large });
  } else draft.syringe("measure", big);
  if (random.chance(0.3)) {
    draft.order = { ...draft.order, method: "withdraw-first" };
    draft.syringe("waste", big);
    draft.actions.push({ do: "withdraw", much: "added-volume", from: "bag", using: "waste" });
  }
  draft.actions.push({ do: "draw", much: "dose", from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

/** What one syringe does not hold goes into a second, for those alone who need it. */
export function splitAbove(draft: Draft): void {
  const { random } = draft;
  const { kind, dose, least, most } = laidOut(draft);
  draft.doses(dose);
  const [small, large, between] = sides(draft, kind, dose, least, most);
  const bag = bagOf(random, saline, "diluent-bag");
  draft.fluidOf("bag", saline, bag);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  draft.syringe("measure", syringeFor(between.plus(Fraction.one)));
  draft.syringe("second", syringeFor(most.minus(least)));
  const first = least.nearest(Fraction.one);
  const rest = random.pick(["rest of dose" as const, { restOf: kind.fact.name }]);
  draft.actions.push({ do: "draw", much: "dose", from: "med", into: "measure", when: small });
  draft.actions.push({ do: "draw", much: mL(first), from: "med", into: "measure", when: large });
  draft.actions.push({ do: "draw", much: rest, from: "med", into: "second", when: large });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
  draft.actions.push({ do: "inject", from: "second", into: "bag", when: large });
}

/** Given as the nearest ready dose. */
export function banded(draft: Draft): void {
  const { random } = draft;
  const { kind, dose, least, most } = laidOut(draft);
  const syringe = syringeFor(most.plus(Fraction.of(2)));
  const third = most.minus(least).over(Fraction.of(3));
  const ends = [least.minus(Fraction.one), least.plus(third), most.minus(third), most.plus(Fraction.one)].map(
    (volume) => beside(draft, kind, dose, volume),
  );
  const rows = [0, 1, 2].map((i) => {
    const middle = least.plus(third.times(Fraction.ratio(BigInt(2 * i + 1), 2n))).nearest(syringe.graduation.value);
    return { from: ends[i]!, below: ends[i + 1]!, gives: beside(draft, kind, dose, middle) };
  });
  if (
    rows.some(({ from, below, gives }) => gives.value.against(from.value) < 0 || gives.value.against(below.value) >= 0)
  )
    throw new RangeError("a band gives a dose beside itself");
  draft.bands = [{ name: "ready-doses", rows }];
  draft.doses({ ...dose, bands: "ready-doses" });
  const bag = bagOf(random, saline, "diluent-bag");
  draft.fluidOf("bag", saline, bag);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  draft.syringe("measure", syringe);
  if (random.chance(0.4)) {
    draft.actions.push({ do: "add", much: "dose", from: "med", into: "bag", using: "measure" });
    return;
  }
  draft.actions.push({
    do: "draw",
    much: random.pick(["dose", { doseOf: kind.fact.name }]),
    from: "med",
    into: "measure",
  });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

/** A second drug for those alone who are heavy enough. */
export function forSome(draft: Draft): void {
  const { random } = draft;
  const [one, other] = [...drugKinds].sort(() => random.next() - 0.5) as [DrugKind, DrugKind];
  const range = rangeOf(draft);
  const at = range.from.value.plus(range.step.value);
  const heavy: Condition = { of: range.of, from: { value: at, unit: range.from.unit } };
  const light: Condition = { of: range.of, below: { value: at, unit: range.from.unit } };
  const doses: DoseFact[] = [];
  for (const [i, kind] of [one, other].entries()) {
    draft.drug(kind);
    draft.material(`med-${i + 1}`, {
      ...solutionOf(random, kind, `product-${i + 1}`, [20]),
      container: "vial" as const,
    });
    const { volume, syringe } = draft.onMark(1.2, 12);
    draft.syringe(`measure-${i + 1}`, syringe);
    const dose = draft.amountIn(kind, volume, draft.strength(`product-${i + 1}`));
    const some = i === 0 ? {} : { when: heavy };
    doses.push({ drug: kind.fact.name, figure: dose, ...some });
    const much = random.pick([dose, mL(volume), { doseOf: kind.fact.name }]);
    draft.actions.push({ do: "draw", much, from: `med-${i + 1}`, into: `measure-${i + 1}`, ...some });
    draft.actions.push({ do: "inject", from: `measure-${i + 1}`, into: "bag", ...some });
  }
  const bag = bagOf(random, saline, "diluent-bag");
  draft.fluidOf("bag", saline, bag);
  draft.doses(...doses);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  draft.rows = [light, heavy];
}

/** Diluent or final volume go by the weight. */
export function volumesPerKilogram(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [20, 50]), container: "vial" as const });
  const from = random.between(1, 2) * 10;
  const to = from + random.between(1, 3) * 10;
  const range: RangeFact = { of: "weight", from: figure(from, "kg"), to: figure(to, "kg"), step: figure(10, "kg") };
  const least = Fraction.of(random.between(1, 2) * (from / 10));
  const dose = doseForEach(draft, kind, range, least);
  draft.doses(dose);
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  draft.material("sack", { name: "empty-sack", container: "empty-bag", capacity: mL(350) });
  draft.final = "sack";
  draft.syringe("measure", syringeFor(least.times(range.to.value).over(range.from.value)));
  const each = mL(random.pick(["2", "4", "5"]));
  draft.order = { ...draft.order, range, diluent: saline.name, method: "build-from-empty" };
  draft.actions.push({ do: "draw", much: "dose", from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "sack" });
  if (random.chance(0.4)) {
    draft.syringe("big", syringes.at(-1)!);
    draft.order = { ...draft.order, finalVolume: { figure: each, perKilogram: true } };
    draft.actions.push({ do: "make-up", into: "sack", much: "final-volume", from: "saline", using: "big" });
    return;
  }
  draft.order = { ...draft.order, diluentVolumes: [{ figure: each, perKilogram: true }] };
  const much = "diluent-volume" as const;
  const way = random.between(0, 2);
  if (way === 0) draft.actions.push({ do: "transfer", much, from: "saline", into: "sack" });
  else {
    draft.syringe("big", syringes.at(-1)!);
    if (way === 1) draft.actions.push({ do: "fill", into: "sack", much, from: "saline", using: "big" });
    else if (each.value.times(range.to.value).against(Fraction.of(60)) > 0)
      draft.actions.push({ do: "transfer", much, from: "saline", into: "sack" });
    else draft.actions.push({ do: "add", much, from: "saline", into: "sack", using: "big" });
  }
}
