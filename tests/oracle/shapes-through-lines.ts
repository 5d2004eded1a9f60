/** What passes lines, filters and nozzles, seals that are opened, and labels that round. */
import type { Draft } from "./draft.ts";
import { type DrugKind, drugKinds, saltDrug } from "./drugs.ts";
import { displacementOf } from "./facts.ts";
import { figure, fits } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import { bagOf, mL, saline, solutionOf, syringeFor, syringes, vialOfFluid } from "./shelf.ts";

const kinds: readonly DrugKind[] = [...drugKinds, saltDrug];

/** A pump with a filled line: a set of its own, or one that is fixed to it; the order counts what stands in it, or leaves it out. */
export function primedPump(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [50]), container: "vial" as const });
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  const isOwn = random.chance(0.4);
  const line = random.pick(["included", "excluded"] as const);
  const holds = mL(random.pick([2, 3, "1.5"]));
  draft.material("pump", {
    name: "home-pump",
    container: "infusor",
    capacity: mL(200),
    ...(isOwn ? { ownLine: holds } : {}),
  });
  draft.final = "pump";
  const volume = Fraction.of(random.between(5, 30));
  const filled = Fraction.of(random.pick([60, 80, 100]));
  const strength = draft.strength("product");
  draft.syringe("measure", syringeFor(volume));
  draft.syringe("filler", syringes.at(-1)!);
  // What runs into its own line is mixed, and leaves the reservoir where it is not counted.
  const inPump = isOwn && line === "excluded" ? filled.minus(holds.value) : filled;
  const dose = draft.amountIn(kind, volume.times(inPump).over(filled), strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  const isBefore = !isOwn && random.chance(0.5);
  const setOn = () => {
    draft.materials.push({ name: "set", set: holds });
    draft.actions.push({ do: "prime", set: "set", much: mL(random.pick([10, 20])), from: "saline" });
    draft.actions.push({ do: "connect", set: "set", to: "pump" });
  };
  if (isBefore) setOn();
  draft.actions.push({ do: "fill", into: "pump", much: mL(volume), from: "med", using: "measure" });
  const rest = { do: "fill", into: "pump", much: mL(filled.minus(volume)), from: "saline", using: "filler" } as const;
  draft.actions.push(rest);
  if (!isBefore && !isOwn) setOn();
  if (isOwn) draft.actions.push({ do: "own-line", of: "pump" });
  const counted = !isOwn && line === "included" ? filled.plus(holds.value) : inPump;
  draft.order = {
    ...draft.order,
    diluent: saline.name,
    line,
    finalVolume: { figure: mL(counted) },
    method: "build-from-empty",
  };
}

/** Through a sterilising filter into an empty vial. */
export function filtered(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [10]), container: "vial" as const });
  draft.fluidOf("saline", saline, vialOfFluid(saline, random.pick([10, 20, 50]), "saline-vial"));
  draft.material("flask", { name: "empty-flask", container: "empty-vial", capacity: mL(22) });
  draft.syringe("measure", syringes[random.between(4, 5)]!);
  draft.materials.push({ name: "sieve", device: "syringe-filter-0.2um" });
  draft.final = "flask";
  const volume = Fraction.of(random.between(2, 5));
  const all = Fraction.of(random.between(7, 12));
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  draft.actions.push({ do: "draw", much: draft.asked(kind, volume, strength, dose), from: "med", into: "measure" });
  draft.actions.push({ do: "make-up", into: "measure", much: mL(all), from: "saline" });
  draft.actions.push({ do: "pass", from: "measure", through: "sieve", into: "flask" });
  draft.order = { ...draft.order, diluent: saline.name, finalVolume: { figure: mL(all) }, method: "build-from-empty" };
}

/** A bag whose seals are opened first; with its overfill, some of which is taken out, and a sample of what was mixed. */
export function chambers(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [10, 20]), container: "vial" as const });
  const bag = bagOf(random, saline, "chamber-bag");
  const least = random.between(1, 4);
  const overfill = { least: mL(least), most: mL(least + 2 * random.between(1, 3)) };
  const hasMore = random.chance(0.6);
  draft.fluidOf("bag", saline, hasMore ? { ...bag, overfill } : bag);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  const { volume, syringe } = draft.onMark(2, 12);
  draft.syringe("measure", syringe);
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  if (random.chance(0.5)) draft.actions.push({ do: "activate", bag: "bag" });
  if (random.chance(0.6)) {
    const way = random.between(0, hasMore ? 2 : 1);
    const out = way === 0 ? mL(volume) : way === 1 ? ("added-volume" as const) : ("added-volume and overfill" as const);
    draft.syringe("waste", syringeFor(volume.plus(Fraction.of(10))));
    draft.order = { ...draft.order, method: way === 2 ? "withdraw-first-with-overfill" : "withdraw-first" };
    draft.actions.push({ do: "withdraw", much: out, from: "bag", using: "waste" });
  }
  draft.actions.push({ do: "draw", much: draft.asked(kind, volume, strength, dose), from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
  if (random.chance(0.4)) {
    draft.syringe("probe", syringes[1]!);
    draft.actions.push({ do: "sample", much: mL(random.pick([1, 2])), from: "bag", using: "probe" });
  }
}

/** A label that rounds what its powder gives; the displacement says what it is. */
export function roundedLabel(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick([drugKinds[0]!, drugKinds[1]!, drugKinds[5]!]);
  draft.drug(kind);
  const unit = kind.units[0]!;
  const into = random.pick([5, 10, 20]);
  const taken = Fraction.ratio(BigInt(random.between(1, 7)), 10n);
  const content = figure(random.pick([500, 1000, 2000]), unit);
  const gives = content.value.over(Fraction.of(into).plus(taken));
  const stock = {
    name: "product",
    container: "powder-vial" as const,
    drug: kind.fact.name,
    powder: {
      content,
      displacement: mL(taken),
      label: { with: mL(into), gives: figure(1, `${unit}/mL`), withdrawable: mL(into), fluid: "water-for-injection" },
      givesAbout: { value: gives.toFigures(2), unit: `${unit}/mL` },
    },
  };
  draft.material("vials", stock, random.chance(0.5) ? 2 : undefined);
  draft.dissolved("vials", stock, undefined);
  const { volume, syringe } = draft.onMark(into + 1, into * 2 - 1);
  draft.syringe("measure", syringe);
  const strength = content.value.over(Fraction.of(into).plus(displacementOf(stock)));
  const exactly = strength.times(volume);
  const dose = { value: fits(exactly, unit) ? exactly : exactly.toFigures(4), unit };
  draft.doses({ drug: kind.fact.name, figure: dose });
  const bag = bagOf(random, saline, "diluent-bag");
  draft.fluidOf("bag", saline, bag);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  draft.actions.push({ do: "draw", much: draft.asked(kind, volume, strength, dose), from: "vials", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

/** The strength is ordered, the dose follows from it. */
export function byStrength(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [10, 20]), container: "vial" as const });
  draft.fluidOf("saline", saline, vialOfFluid(saline, random.pick([20, 50]), "saline-vial"));
  const all = Fraction.of(random.pick([10, 20, 25]));
  const volume = Fraction.of(random.between(1, 8));
  const strength = draft.strength("product");
  const weak = draft.amountIn(kind, volume.over(all), strength);
  draft.doses({ drug: kind.fact.name, figure: { ...weak, unit: `${weak.unit}/mL` } });
  draft.syringe("syringe", syringes[5]!);
  draft.final = "syringe";
  const much = random.pick([mL(volume), "dose" as const, { doseOf: kind.fact.name }]);
  draft.actions.push({ do: "draw", much, from: "med", into: "syringe" });
  draft.actions.push({
    do: "make-up",
    into: "syringe",
    much: random.pick([mL(all), "final-volume" as const]),
    from: "saline",
  });
  draft.order = {
    ...draft.order,
    byConcentration: true,
    diluent: saline.name,
    finalVolume: { figure: mL(all) },
    method: "build-from-empty",
  };
}

/** So little that what stays in the nozzle is told. */
export function smallDose(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", solutionOf(random, kind, "product", [1, 2, 5]));
  const holds = syringes[0]!;
  draft.syringe("measure", random.chance(0.7) ? { ...holds, deadSpace: mL("0.02") } : holds);
  const volume = Fraction.ratio(BigInt(random.between(50, 99)), 100n);
  const strength = draft.strength("product");
  const dose = draft.amountIn(kind, volume, strength);
  draft.doses({ drug: kind.fact.name, figure: dose });
  const bag = bagOf(random, saline, "diluent-bag");
  draft.fluidOf("bag", saline, bag);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  const much = draft.asked(kind, volume, strength, dose);
  const deadSpace = random.pick(["included", "excluded"] as const);
  draft.actions.push({ do: "draw", much, from: "med", into: "measure", deadSpace });
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}
