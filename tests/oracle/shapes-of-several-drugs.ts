/** Preparations in which drugs or fluids come together before the end. */
import type { Draft } from "./draft.ts";
import { type DrugKind, drugKinds, saltDrug } from "./drugs.ts";
import { ionBroughtBy, ionsOf, named } from "./facts.ts";
import { fits } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { DoseFact } from "./program.ts";
import { bagOf, glucose, mL, saline, solutionOf, syringeFor, syringes } from "./shelf.ts";

const kinds: readonly DrugKind[] = [...drugKinds, saltDrug];

const shuffled = <T>({ random }: Draft, list: readonly T[]): T[] => [...list].sort(() => random.next() - 0.5);

/** Ions counted over all that brings them, fluid and additives. */
export function targeted(draft: Draft): void {
  const { random } = draft;
  const ionic = drugKinds.filter(({ fact }) => fact.ion);
  const chosen = shuffled(draft, [...ionic, drugKinds[0]!]).slice(0, random.between(2, 3));
  const fluid = random.pick([saline, glucose]);
  const bag = bagOf(random, fluid, "diluent-bag");
  draft.fluidOf("bag", fluid, bag);
  draft.order = { ...draft.order, diluent: fluid.name, diluentVolumes: [{ figure: bag.fill! }] };
  const doses: DoseFact[] = [];
  const goesIn: [stock: string, volume: Fraction][] = [["diluent-bag", bag.fill!.value]];
  for (const [i, kind] of chosen.entries()) {
    draft.drug(kind);
    const product = `product-${i + 1}`;
    draft.material(`med-${i + 1}`, { ...solutionOf(random, kind, product, [20]), container: "vial" as const });
    const { volume, syringe } = draft.onMark(2, 20);
    draft.syringe(`measure-${i + 1}`, syringe);
    goesIn.push([product, volume]);
    const dose = draft.amountIn(kind, volume, draft.strength(product));
    doses.push({ drug: kind.fact.name, figure: dose });
    const asked = draft.asked(kind, volume, draft.strength(product), dose);
    const much = asked === "dose" ? { doseOf: kind.fact.name } : asked;
    draft.actions.push({ do: "draw", much, from: `med-${i + 1}`, into: `measure-${i + 1}` });
    draft.actions.push({ do: "inject", from: `measure-${i + 1}`, into: "bag" });
  }
  draft.doses(...doses);
  const targets = ionsOf(draft).flatMap((ion) => {
    const parts = goesIn.map(([stock, volume]) => ionBroughtBy(draft, named(draft.stocks, stock), ion).times(volume));
    const moles = parts.reduce((all, each) => all.plus(each), Fraction.zero);
    const charge = draft.drugs.find((each) => each.ion?.name === ion)?.ion?.charge ?? 0;
    if (!moles.isPositive || random.chance(0.3)) return [];
    const inCharges = charge > 0 && random.chance(0.4);
    const value = (inCharges ? moles.times(Fraction.of(charge)) : moles).toFigures(4);
    return [{ ion, figure: { value, unit: inCharges ? "mEq" : "mmol" } }];
  });
  draft.order = { ...draft.order, targets };
}

/** Two drugs in one syringe, the second on top of the first, some of it as the rest of what is ordered. */
export function onTop(draft: Draft): void {
  const { random } = draft;
  const chosen = shuffled(draft, kinds).slice(0, 2);
  const holds = random.pick(syringes.slice(4));
  draft.syringe("measure", holds);
  const step = holds.graduation.value;
  const doses: DoseFact[] = [];
  const most = Math.floor(Number(holds.capacity.value.n) / 2) - 1;
  for (const [i, kind] of chosen.entries()) {
    draft.drug(kind);
    const product = `product-${i + 1}`;
    const med = `med-${i + 1}`;
    draft.material(med, { ...solutionOf(random, kind, product, [10, 20, 50]), container: "vial" as const });
    const volume = Fraction.of(random.between(2, most)).nearest(step);
    const dose = draft.amountIn(kind, volume, draft.strength(product));
    doses.push({ drug: kind.fact.name, figure: dose });
    const onTop = i > 0 ? { onTop: true } : {};
    if (random.chance(0.4)) {
      const first = volume.over(Fraction.of(2)).nearest(step);
      const part = random.chance(0.5) ? mL(first) : draft.amountIn(kind, first, draft.strength(product));
      draft.actions.push({ do: "draw", much: part, from: med, into: "measure", ...onTop });
      draft.actions.push({ do: "draw", much: { restOf: kind.fact.name }, from: med, into: "measure", onTop: true });
      continue;
    }
    const asked = draft.asked(kind, volume, draft.strength(product), dose);
    const much = asked === "dose" ? { doseOf: kind.fact.name } : asked;
    draft.actions.push({ do: "draw", much, from: med, into: "measure", ...onTop });
  }
  draft.doses(...doses);
  if (random.chance(0.3)) {
    draft.final = "measure";
    draft.order = { ...draft.order, method: "undiluted" };
    return;
  }
  const bag = bagOf(random, saline, "diluent-bag");
  draft.fluidOf("bag", saline, bag);
  draft.order = { ...draft.order, diluent: saline.name, diluentVolumes: [{ figure: bag.fill! }] };
  draft.actions.push({ do: "inject", from: "measure", into: "bag" });
}

/** Two drugs mixed in a bag, and several syringes or pumps filled from it; the mixture is told with both strengths. */
export function mixture(draft: Draft): void {
  const { random } = draft;
  const chosen = shuffled(draft, kinds).slice(0, 2);
  const makes = random.between(1, 4);
  const all = Fraction.of(random.pick([10, 20]));
  const bulk = Fraction.of(makes + random.between(0, 1));
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "diluent-bag"), fill: mL(500), capacity: mL(600) }, 1);
  draft.material("sack", { name: "empty-sack", container: "empty-bag", capacity: mL(250) });
  const isPump = random.chance(0.4);
  draft.final = isPump ? "pump" : "syringes";
  if (isPump) draft.material("pump", { name: "home-pump", container: "infusor", capacity: mL(60) }, makes);
  else draft.syringe("syringes", syringes[5]!, makes);
  const doses: DoseFact[] = [];
  const at: { drug: string; figure: { value: Fraction; unit: string } }[] = [];
  let own = Fraction.zero;
  for (const [i, kind] of chosen.entries()) {
    draft.drug(kind);
    const product = `product-${i + 1}`;
    draft.material(`med-${i + 1}`, { ...solutionOf(random, kind, product, [50]), container: "vial" as const });
    const each = Fraction.of(random.between(1, 4));
    own = own.plus(each);
    draft.syringe(`measure-${i + 1}`, syringeFor(each.times(bulk)));
    const strength = draft.strength(product);
    doses.push({ drug: kind.fact.name, figure: draft.amountIn(kind, each, strength) });
    draft.actions.push({ do: "draw", much: mL(each.times(bulk)), from: `med-${i + 1}`, into: `measure-${i + 1}` });
    draft.actions.push({ do: "inject", from: `measure-${i + 1}`, into: "sack" });
    const unit = kind.units[0] === "mmol" || kind.units[0] === "units" ? `${kind.units[0]}/mL` : "mcg/mL";
    const is = each.times(strength).over(all);
    at.push({ drug: kind.fact.name, figure: { value: fits(is, unit) ? is : is.toFigures(4), unit } });
  }
  draft.doses(...doses);
  draft.actions.push({ do: "transfer", much: mL(all.minus(own).times(bulk)), from: "saline", into: "sack" });
  const much = random.pick([mL(all), { doseOf: chosen[0]!.fact.name }, { doseOf: chosen[1]!.fact.name }]);
  const isEach = makes > 1;
  if (isPump) {
    draft.syringe("filler", syringes.at(-1)!);
    draft.actions.push({ do: "fill", into: "pump", much, from: "sack", using: "filler", each: isEach });
  } else if (random.chance(0.5)) draft.actions.push({ do: "draw", much, from: "sack", into: "syringes", each: isEach });
  else draft.actions.push({ do: "transfer", much, from: "sack", into: "syringes", each: isEach });
  draft.actions.push({ do: "discard", from: "sack" });
  draft.intermediates = [{ name: "mixture", in: "sack", at }];
  draft.order = { ...draft.order, diluent: saline.name, finalVolume: { figure: mL(all) }, method: "build-from-empty" };
}

/** Two fluids in an empty bag, each by its volume or one up to the mark. */
export function twoFluids(draft: Draft): void {
  const { random } = draft;
  const kind = random.pick(kinds);
  draft.drug(kind);
  draft.material("med", { ...solutionOf(random, kind, "product", [10, 20]), container: "vial" as const });
  const { volume, syringe } = draft.onMark(2, 20);
  draft.syringe("measure", syringe);
  const bag = { fill: mL(250), capacity: mL(330) };
  draft.fluidOf("saline", saline, { ...bagOf(random, saline, "saline-bag"), ...bag }, 1);
  draft.fluidOf("glucose", glucose, { ...bagOf(random, glucose, "glucose-bag"), ...bag }, 1);
  draft.material("sack", { name: "empty-sack", container: "empty-bag", capacity: mL(350) });
  draft.final = "sack";
  const dose = draft.amountIn(kind, volume, draft.strength("product"));
  draft.doses({ drug: kind.fact.name, figure: dose });
  const first = Fraction.of(random.pick([50, 75, 100]));
  const second = Fraction.of(random.pick([40, 60, 125]));
  const isOpen = random.chance(0.5);
  const all = first.plus(second).plus(volume);
  draft.order = {
    ...draft.order,
    diluents: [
      { fluid: saline.name, figure: mL(first) },
      { fluid: glucose.name, ...(isOpen ? {} : { figure: mL(second) }) },
    ],
    finalVolume: { figure: mL(all) },
    method: "build-from-empty",
  };
  draft.actions.push({ do: "transfer", much: mL(first), from: "saline", into: "sack" });
  draft.actions.push({ do: "transfer", much: mL(second), from: "glucose", into: "sack" });
  const much = draft.asked(kind, volume, draft.strength("product"), dose);
  draft.actions.push({ do: "draw", much, from: "med", into: "measure" });
  draft.actions.push({ do: "inject", from: "measure", into: "sack" });
}
