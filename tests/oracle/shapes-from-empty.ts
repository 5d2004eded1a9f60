/** Preparations built up in an empty container or in a syringe. */
import type { Draft } from "./draft.ts";
import { type DrugKind, drugKinds, saltDrug } from "./drugs.ts";
import { fits } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import { bagOf, mL, powderOf, saline, solutionOf, syringeFor, syringes, vialOfFluid } from "./shelf.ts";

const kinds: readonly DrugKind[] = [...drugKinds, saltDrug];
const half = Fraction.ratio(1n, 2n);

/** Drug and diluent into an empty bag, the diluent by its volume or up to the mark. */
export function emptyBag(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", solutionOf(random, kind, "product", [10, 20]));
  const { volume, syringe } = draft.onMark(1.2, 24);
  draft.syringe("measure", syringe);
  const all = Fraction.of(random.pick([50, 60, 100]));
  draft.final = "sack";
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  draft.material("sack", { name: "empty-sack", container: "empty-bag", capacity: mL(150) });
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  draft.order = { ...draft.order, diluent: saline.name, finalVolume: { figure: mL(all) }, method: "build-from-empty" };
  draft.actions.push({ do: "draw", much: draft.asked(kind, volume, strength, dose), from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "sack" });
  const rest = all.minus(volume);
  const way = random.between(0, 2);
  if (way === 0) draft.actions.push({ do: "transfer", much: mL(rest), from: "saline", into: "sack" });
  else if (way === 1 || rest.against(Fraction.of(60)) > 0) {
    // The scale of the big syringe has whole marks only.
    if (!rest.nearest(Fraction.one).is(rest))
      draft.actions.push({ do: "transfer", much: mL(rest), from: "saline", into: "sack" });
    else {
      draft.syringe("fill-up", syringeFor(rest));
      draft.actions.push({ do: "make-up", into: "sack", much: mL(all), from: "saline", using: "fill-up" });
    }
  } else {
    draft.syringe("fill-up", syringeFor(rest));
    const step = syringeFor(rest).graduation.value;
    if (rest.nearest(step).is(rest)) {
      draft.actions.push({ do: "draw", much: mL(rest), from: "saline", into: "fill-up" });
      draft.actions.push({ do: "inject", from: "fill-up", into: "sack" });
    } else draft.actions.push({ do: "transfer", much: mL(rest), from: "saline", into: "sack" });
  }
}

/** Drawn and made up in the syringe that is finished, or undiluted in it. */
export function finalSyringe(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", solutionOf(random, kind, "product", [5, 10]));
  const syringe = random.pick(syringes.slice(2));
  const scale = syringe.graduation.value;
  const capacity = Number(syringe.capacity.value.n);
  const volume = Fraction.of(random.between(2, Math.max(3, Math.floor(capacity / 3)))).nearest(scale);
  draft.final = "syringe";
  draft.syringe("syringe", syringe);
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  const much = draft.asked(kind, volume, strength, dose);
  if (random.chance(0.25)) {
    draft.order = { ...draft.order, method: "undiluted" };
    draft.actions.push({ do: "draw", much, from: "med", into: "syringe" });
    return;
  }
  const all = Fraction.of(random.between(Math.floor(capacity / 2) + 1, capacity)).nearest(scale);
  if (all.against(volume) <= 0) throw new RangeError("no room for the diluent");
  draft.fluidOf("saline", saline, vialOfFluid(saline, random.pick([10, 20, 50]), "saline-vial"));
  draft.order = { ...draft.order, diluent: saline.name, finalVolume: { figure: mL(all) }, method: "build-from-empty" };
  if (random.chance(0.5)) {
    draft.actions.push({ do: "draw", much, from: "med", into: "syringe" });
    draft.actions.push({ do: "make-up", into: "syringe", much: mL(all), from: "saline" });
  } else {
    draft.actions.push({ do: "draw", much: mL(all.minus(volume)), from: "saline", into: "syringe" });
    draft.actions.push({ do: "draw", much, from: "med", into: "syringe", onTop: true });
  }
}

/** A labelled dilution on the way, in a syringe or a bag, and the dose drawn from it; powder or solution at its start. */
export function dilutedTwice(draft: Draft): void {
  const { random } = draft;
  const kind = drugKinds[random.between(0, 2)]!;
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [5, 10]), container: "vial" as const });
  draft.fluidOf("saline", saline, vialOfFluid(saline, random.pick([5, 10, 100]), "saline-vial"));
  const strong = draft.strength("product");
  const fold = random.pick([2, 4, 5, 10]);
  const working = syringes[4]!;
  const all = Fraction.of(10);
  const first = all.over(Fraction.of(fold));
  draft.syringe("working", working);
  const weak = strong.over(Fraction.of(fold));
  const volume = Fraction.of(random.between(3, 8)).times(half);
  const syringe = syringes[2 + random.between(0, 2)]!;
  const taken = volume.nearest(syringe.graduation.value);
  draft.final = "syringe";
  draft.syringe("syringe", syringe);
  const dose = draft.amountIn(kind, taken, weak);
  draft.doses({ drug: kind.fact.name, figure: dose });
  const start = random.chance(0.5) ? mL(first) : draft.amountIn(kind, first, strong);
  draft.actions.push({ do: "draw", much: start, from: "med", into: "working" });
  draft.actions.push({ do: "make-up", into: "working", much: mL(all), from: "saline" });
  draft.actions.push({ do: "draw", much: draft.asked(kind, taken, weak, dose), from: "working", into: "syringe" });
  draft.actions.push({ do: "discard", from: "working" });
  draft.intermediates = [
    { name: "weaker", in: "working", at: [{ drug: kind.fact.name, figure: { value: weak, unit: "mcg/mL" } }] },
  ];
  draft.order = {
    ...draft.order,
    diluent: saline.name,
    finalVolume: { figure: mL(taken) },
    method: "build-from-empty",
  };
}

/** Many syringes alike: from one bag in which the drug was mixed, or one by one. */
export function syringesAlike(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds.filter(({ ionUnits }) => ionUnits.length === 0));
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [50]), container: "vial" as const });
  const strength = draft.strength("product");
  const makes = random.between(2, 8);
  draft.final = "syringes";
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  draft.syringe("syringes", syringes[4]!, makes);
  const all = Fraction.of(random.pick([5, 10]));
  const own = Fraction.of(random.between(1, 2));
  const dose = draft.amountIn(kind, own, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  draft.order = { ...draft.order, diluent: saline.name, finalVolume: { figure: mL(all) }, method: "build-from-empty" };
  if (random.chance(0.5)) {
    draft.actions.push({ do: "draw", much: mL(all.minus(own)), from: "saline", into: "syringes", each: true });
    const much = draft.asked(kind, own, strength, dose);
    draft.actions.push({ do: "draw", much, from: "med", into: "syringes", each: true, onTop: true });
    return;
  }
  const over = random.between(0, 1);
  const bulk = Fraction.of(makes + over);
  if (over > 0) draft.order = { ...draft.order, overage: mL(all) };
  draft.material("sack", { name: "empty-sack", container: "empty-bag", capacity: mL(250) });
  const taken = own.times(bulk);
  draft.syringe("measure", syringeFor(taken));
  draft.actions.push({ do: "draw", much: mL(taken), from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "sack" });
  draft.actions.push({ do: "transfer", much: mL(all.minus(own).times(bulk)), from: "saline", into: "sack" });
  const much = random.pick([mL(all), "dose" as const, dose]);
  draft.actions.push({ do: "transfer", much, from: "sack", into: "syringes", each: true });
  draft.actions.push({ do: "discard", from: "sack" });
  const unit = kind.units[0] === "mmol" || kind.units[0] === "units" ? `${kind.units[0]}/mL` : "mcg/mL";
  const is = own.times(strength).over(all);
  draft.intermediates = [
    {
      name: "mixture",
      in: "sack",
      at: [{ drug: kind.fact.name, figure: { value: fits(is, unit) ? is : is.toFigures(4), unit } }],
    },
  ];
}

/** Powder vials pooled in an empty bag, made thinner, and an infusor filled from it in loads. */
export function pooledInfusor(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick([drugKinds[0]!, drugKinds[1]!]);
  draft.drug(kind);
  const count = random.between(2, 4);
  const stock = powderOf(random, kind, "product");
  draft.material("vials", stock, count);
  draft.dissolved("vials", stock, count);
  draft.syringe("measure", syringeFor(Fraction.of(24)));
  draft.syringe("filler", syringes.at(-1)!);
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  draft.material("sack", { name: "empty-sack", container: "empty-bag", capacity: mL(250) });
  draft.material("pump", { name: "home-pump", container: "infusor", capacity: mL(200) });
  draft.final = "pump";
  draft.actions.push({ do: "pool", from: "vials", into: "sack", using: "measure" });
  draft.actions.push({ do: "transfer", much: mL(random.pick([60, 80, 120])), from: "saline", into: "sack" });
  if (random.chance(0.4)) {
    draft.syringe("probe", syringes[2]!);
    draft.actions.push({ do: "sample", much: mL(2), from: "sack", using: "probe" });
  }
  const filled = Fraction.of(random.pick([50, 60, 70]));
  draft.actions.push({ do: "fill", into: "pump", much: mL(filled), from: "sack", using: "filler" });
  draft.actions.push({ do: "discard", from: "sack" });
  draft.order = {
    ...draft.order,
    diluent: saline.name,
    finalVolume: { figure: mL(filled) },
    method: "build-from-empty",
  };
}

/** Filled straight from the vials and made up. */
export function infusor(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [20, 50]), container: "vial" as const });
  const strength = draft.strength("product");
  const volume = Fraction.of(random.between(10, 40));
  const all = Fraction.of(random.pick([90, 120]));
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  draft.material("pump", { name: "home-pump", container: "infusor", capacity: mL(200) });
  draft.syringe("measure", syringes[random.between(5, 6)]!);
  draft.syringe("filler", syringes.at(-1)!);
  draft.final = "pump";
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  draft.order = { ...draft.order, diluent: saline.name, finalVolume: { figure: mL(all) }, method: "build-from-empty" };
  draft.actions.push({
    do: "fill",
    into: "pump",
    much: draft.asked(kind, volume, strength, dose),
    from: "med",
    using: "measure",
  });
  draft.actions.push({ do: "make-up", into: "pump", much: mL(all), from: "saline", using: "filler" });
}

/** A drug mixed into a bag of fluid, and the dose drawn from that: what the bag holds beyond its label makes it weaker. */
export function fromMixedBag(draft: Draft): void {
  const { random } = draft;
  const kind = drugKinds[random.between(0, 1)]!;
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [5, 10, 20]), container: "vial" as const });
  const { volume, syringe } = draft.onMark(2, 20);
  draft.syringe("measure", syringe);
  const bag = bagOf(random, saline, "diluent-bag");
  const least = random.between(1, 3);
  const overfill = random.chance(0.7) ? { least: mL(least), most: mL(least + 2 * random.between(1, 4)) } : undefined;
  const held = bag.fill!.value.plus(
    overfill ? overfill.least.value.plus(overfill.most.value).times(half) : Fraction.zero,
  );
  draft.fluidOf("mixture", saline, overfill ? { ...bag, overfill } : bag, 1);
  const strong = draft.strength("product");
  const weak = volume.times(strong).over(held.plus(volume));
  const last = syringes[random.between(3, 4)]!;
  const taken = Fraction.of(random.between(4, 9));
  draft.final = "syringe";
  draft.syringe("syringe", last);
  const exactly = weak.times(taken);
  draft.doses({ drug: kind.fact.name, figure: { value: exactly.toFigures(4), unit: random.pick(["mg", "mcg"]) } });
  draft.actions.push({ do: "draw", much: mL(volume), from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "mixture" });
  draft.actions.push({ do: "draw", much: random.chance(0.5) ? "dose" : mL(taken), from: "mixture", into: "syringe" });
  draft.intermediates = [
    {
      name: "weaker",
      in: "mixture",
      at: [{ drug: kind.fact.name, figure: { value: weak.toFigures(4), unit: "mcg/mL" } }],
    },
  ];
  draft.order = {
    ...draft.order,
    diluent: saline.name,
    finalVolume: { figure: mL(taken) },
    method: "build-from-empty",
  };
}
