/** Turns what a step asks for (`8 mL`, `4 g`, `dose`, `all`) into a volume of the liquid at hand. */

import type { MeasureSlot, NameSlot, Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, volumeOf } from "../quantities/quantity.ts";
import { refuse } from "../quantities/refusal.ts";
import { amountOf, isRefusal, kindOf, kindUnits } from "./amounts.ts";
import type { Ask, Bench } from "./bench.ts";
import { dosesMeant, isRest } from "./dose-asked.ts";
import { availableIn, isCountDerived } from "./drawing.ts";
import { watchContent } from "./entering.ts";
import { labelledForm } from "./labelled-form.ts";
import type { OrderedDose } from "./order-rows.ts";
import { drawnOfDose } from "./rest-of-dose.ts";
import type { Vessel } from "./things.ts";
import { isStockContainer } from "./vessels.ts";

export interface AskSlots {
  amount?: MeasureSlot;
  figure?: { choice: string } & Spot;
  /** The drug whose dose is asked for, where the step names it. */
  drug?: NameSlot;
  ion?: NameSlot;
  as?: NameSlot;
}

/** @returns the volume in mL, or undefined when it cannot be known (noted, and the bench is set to unknown). */
export function askedVolume(bench: Bench, slots: AskSlots, from: readonly Vessel[]): Ask | undefined {
  const isStray = from.some((vessel) => drugsIn(vessel).some((drug) => bench.options.leftAside.has(drug)));
  // A volume moves all the same; an amount or a dose is of the drug that was ordered, and none of that is here.
  if (isStray) bench.unknown = true;
  const byVolume = slots.amount?.quantity?.unit.dimension.key === "volume";
  const ask = from.length === 0 || (isStray && !byVolume) ? undefined : askFrom(bench, slots, from);
  if (!ask) bench.unknown = true;
  const printed = asPrinted(bench, slots);
  bench.current.asked.push(ask?.volume);
  return ask && printed && !byVolume && !ask.all ? { ...ask, volume: printed } : ask;
}

/**
 * What the sheet says is measured here, worked out by the labels: a bag that holds more than its label, or a stock that is stronger,
 * is drawn by the same figure.
 */
function asPrinted({ options, steps, current }: Bench, { figure }: AskSlots): Exact | undefined {
  if (figure?.choice === "all") return undefined;
  return options.printed?.steps[steps.length]?.asked[current.asked.length];
}

/** What each of a set is given from the same containers. Of those that the set has emptied nothing is reckoned: as much again is lacking. */
export function askedForEach(bench: Bench, slots: AskSlots, from: readonly Vessel[]): () => Ask | undefined {
  let ask: Ask | undefined;
  return () => {
    if (!ask || from.some((vessel) => availableIn(vessel).isPositive())) ask = askedVolume(bench, slots, from);
    return ask;
  };
}

function drugsIn({ liquid, powder }: Vessel): readonly string[] {
  return powder ? [...liquid.drugs, powder.drug] : liquid.drugs;
}

function askFrom(bench: Bench, slots: AskSlots, from: readonly Vessel[]): Ask | undefined {
  if (slots.figure?.choice === "all") return askAll(bench, from, slots.figure);
  if (slots.figure?.choice === "diluent-volume") return askDiluent(bench, slots.figure);
  const { figure, amount: stated } = slots;
  const byVolume = stated?.quantity?.unit.dimension.key === "volume";
  const spot = figure ?? stated;
  if (spot && !byVolume && !from.map((vessel) => watchContent(bench, vessel, spot)).every(Boolean)) return undefined;
  if (figure) return askDose(bench, from, { ...slots, figure });
  if (!stated?.quantity) return undefined;
  if (byVolume) {
    const volume = inBase(stated.quantity);
    watchNamed(bench, from, slots, stated);
    if (volume.isPositive()) return { volume, stated };
    bench.note("figure-not-known", stated, {
      figure: stated.written,
      why: "it is not above zero",
      remedy: "Correct it",
    });
    return undefined;
  }
  watchForm(bench, from, slots, stated);
  const volume = volumeOfAmount(bench, from, stated.quantity, slots.as?.name, slots.ion?.name, stated);
  return volume ? { volume, stated: undefined } : undefined;
}

/** `draw 4 mg from amp`, whose label counts the salt: the figure is counted as the drug is, and whoever reads the label takes it otherwise. */
function watchForm(bench: Bench, from: readonly Vessel[], { ion, as, amount }: AskSlots, spot: Spot): void {
  if (ion || as || !amount?.quantity || kindOf(amount.quantity) !== "mass") return;
  for (const vessel of from) {
    const { stock } = vessel;
    const figure = stock?.facts.one("strength") ? "strength" : "content";
    const form = stock && isStockContainer(vessel) ? labelledForm(stock, figure) : undefined;
    const drug = stock?.facts.one("drug")?.slots.drug.name;
    const substance = drug === undefined ? undefined : bench.setup.drugs.get(drug)?.substance;
    // A form that the drug does not declare is told where it is named.
    if (!form || !substance || form === substance.base || !substance.salts.some(({ name }) => name === form)) continue;
    bench.note("drawn-form-not-said", spot, { vessel, amount: amount.written, form, base: substance.base });
    return;
  }
}

/** `8 mL of potassium-chloride from mag`: a volume measures all the liquid, so that what is named must be what is in it. */
function watchNamed(bench: Bench, from: readonly Vessel[], { ion, as }: AskSlots, spot: Spot): void {
  for (const named of [ion, as]) {
    const stranger = named && from.find((vessel) => !isNamedIn(bench, vessel, named.name));
    if (!named || !stranger) continue;
    const holds = [...new Set([...drugsIn(stranger), ...stranger.liquid.fluids.keys()])].join(" and ");
    // What cannot be read says nothing against the name.
    if (holds === "") continue;
    const reason = `a volume is of all that ${stranger.name} holds, ${holds}, and not of ${named.name}. Name another container, or leave ${named.name} out.`;
    const why = refuse("form-not-declared", reason);
    bench.note("amount-not-computable", spot, { why, vessel: stranger, drug: named.name });
  }
}

function isNamedIn(bench: Bench, vessel: Vessel, name: string): boolean {
  const { liquid } = vessel;
  if (liquid.amounts.has(name) || liquid.fluids.has(name)) return true;
  return drugsIn(vessel).some((drug) => {
    const substance = bench.setup.drugs.get(drug)?.substance;
    // Of what is not read nothing can be said against the name.
    if (drug === name || substance === undefined) return true;
    return substance.base === name || [...substance.ions, ...substance.salts].some((form) => form.name === name);
  });
}

function askAll(bench: Bench, from: readonly Vessel[], spot: Spot): Ask | undefined {
  let total = Exact.zero;
  for (const vessel of from) {
    if (
      vessel.stock &&
      vessel.liquid.stocks.length <= 1 &&
      bench.setup.drugs.size > 0 &&
      vessel.liquid.drugs.length > 0
    ) {
      bench.note("whole-content-drawn", spot, { vessel });
    }
    total = total.plus(availableIn(vessel));
  }
  return { volume: total, stated: undefined, all: true };
}

function askDiluent(bench: Bench, spot: Spot): Ask | undefined {
  const volume = volumeOf(bench.options.diluentVolume);
  if (volume?.isPositive()) return { volume, stated: undefined };
  if (!bench.options.diluentVolumeStated || volume)
    bench.note("figure-not-known", spot, {
      figure: "diluent-volume",
      why: volume ? "is not above zero" : "the order has none",
    });
  return undefined;
}

function askDose(
  bench: Bench,
  from: readonly Vessel[],
  slots: AskSlots & Required<Pick<AskSlots, "figure">>,
): Ask | undefined {
  const { figure: spot, drug: named } = slots;
  const figure = isRest(slots) ? "rest of dose" : "dose";
  const first = from.find((vessel) => vessel.powder || vessel.liquid.volume.isPositive()) ?? from[0]!;
  const drugs = first.liquid.drugs.length > 0 ? first.liquid.drugs : [first.powder?.drug ?? ""];
  const meant = dosesMeant(slots, drugs, bench.options.doses);
  const [dose] = meant;
  const several = [...new Set(meant.map(({ drug }) => drug))];
  if (several.length > 1) {
    const ways = several.map((drug) => `\`${isRest(slots) ? "rest" : "dose"} of ${drug}\``).join(" or ");
    const why = `${first.name} holds ${several.join(" and ")}, and the order states a dose of each`;
    bench.note("figure-not-known", spot, { figure, why, remedy: `Write ${ways}` });
    return undefined;
  }
  if (meant.some((d) => d.byConcentration && d.measure !== dose?.measure)) {
    const why = "the order states one for each container of a series";
    bench.note("figure-not-known", spot, { figure, why });
    return undefined;
  }
  if (!dose?.given) {
    // A missing weight or surface, or a line that cannot be read, is told where the order is judged.
    const told = dose ? dose.toldInOrder === true : bench.options.doseUnread;
    const why = dose?.missing ?? `the order gives no dose of ${named?.name ?? "this drug"}`;
    if (!told) bench.note("figure-not-known", spot, { figure, why });
    return undefined;
  }
  const volume = isRest(slots)
    ? restOf(bench, from, dose, dose.given, slots)
    : volumeOfAmount(bench, from, dose.given, dose.as, dose.ion, spot, named?.name);
  return volume ? { volume, stated: undefined } : undefined;
}

/** Volume of what steps before have left to draw of a dose. */
function restOf(
  bench: Bench,
  from: readonly Vessel[],
  { drug, as, ion }: OrderedDose,
  given: Quantity,
  { figure: spot, drug: named }: AskSlots & Required<Pick<AskSlots, "figure">>,
): Exact | undefined {
  const kind = bench.setup.kinds.get(drug) ?? "mass";
  const substance = bench.setup.drugs.get(drug)?.substance ?? { name: drug, ions: [], salts: [] };
  const wanted = amountOf(given, kind, substance, as, ion);
  // Why it cannot be counted is told as of the whole dose.
  if (isRefusal(wanted)) return volumeOfAmount(bench, from, given, as, ion, spot, named?.name);
  const rest = wanted.minus(drawnOfDose(from, drug, wanted, bench.steps));
  if (rest.isPositive()) {
    const left = { value: rest, unit: kindUnits[kind] };
    return volumeOfAmount(bench, from, left, undefined, undefined, spot, named?.name);
  }
  const remedy = "Take the step out, or put it under `only when` for doses that leave a rest";
  bench.note("figure-not-known", spot, { figure: "rest of dose", why: "steps before draw all of it", remedy });
  return undefined;
}

/**
 * Volume of the vessels' liquid that holds an amount, the vessels being emptied one after another.
 * @param named the drug that is meant, where the step names it
 */
export function volumeOfAmount(
  bench: Bench,
  from: readonly Vessel[],
  amount: Quantity,
  as: string | undefined,
  ion: string | undefined,
  spot: Spot,
  named?: string,
): Exact | undefined {
  // Those emptied by a step before give nothing more, and their strength is not asked for.
  const holding = from.filter((vessel) => vessel.powder || vessel.liquid.volume.isPositive());
  const first = holding[0] ?? from[0]!;
  const solute = drugAskedFor(bench, first, ion, named);
  if (solute === undefined) {
    // What a step before could not bring is not there, and why it could not is told.
    if (!bench.unknown)
      bench.note("amount-not-computable", spot, {
        why: "not-in-container",
        vessel: first,
        drug: named ?? ion ?? "",
      });
    return undefined;
  }
  const inSolute = countedAs(bench, solute, amount, as, ion);
  const salt = isRefusal(inSolute) && solute === ion ? drugAskedFor(bench, first, undefined) : undefined;
  // `4 mEq of calcium` where the label tells calcium in mmol beside the salt: charge and mass of the ion are known of the salt.
  const inSalt = salt === undefined || salt === solute ? inSolute : countedAs(bench, salt, amount, as, ion);
  const drug = isRefusal(inSalt) ? solute : (salt ?? solute);
  const wanted = isRefusal(inSalt) ? inSolute : inSalt;
  if (isRefusal(wanted)) {
    bench.note("amount-not-computable", spot, { why: wanted, vessel: first, drug });
    return undefined;
  }
  if (holding.length > 0) return volumeHolding(bench, holding, drug, wanted, spot);
  return volumeOfNext(bench, from, drug, wanted) ?? volumeHolding(bench, from, drug, wanted, spot);
}

/** An amount in the unit that a solute is counted in. */
function countedAs(bench: Bench, solute: string, amount: Quantity, as: string | undefined, ion: string | undefined) {
  const kind = bench.setup.kinds.get(solute) ?? "mass";
  const substance = bench.setup.drugs.get(solute)?.substance ?? { name: solute, ions: [], salts: [] };
  return amountOf(amount, kind, substance, as, ion !== solute ? ion : undefined);
}

/** All are emptied, and one more is taken where their number is derived: it is as strong as what was drawn before. */
function volumeOfNext(bench: Bench, from: readonly Vessel[], drug: string, wanted: Exact): Exact | undefined {
  for (const vessel of from) {
    if (!isCountDerived(bench, vessel)) continue;
    const drawn = bench.steps.flatMap((s) => s.movements).find((m) => m.from === vessel && m.how === "draw");
    const held = drawn?.liquid.amounts.get(drug);
    if (drawn && held?.isPositive()) return wanted.times(drawn.liquid.volume).over(held);
  }
  return undefined;
}

/** The solute that an amount speaks of: the one drug in the vessel, or a declared content such as potassium. */
function drugAskedFor(bench: Bench, vessel: Vessel, ion: string | undefined, named?: string): string | undefined {
  if (named !== undefined) return drugsIn(vessel).includes(named) ? named : undefined;
  if (ion !== undefined && vessel.liquid.amounts.has(ion)) return ion;
  const { drugs } = vessel.liquid;
  if (drugs.length === 1) return drugs[0];
  if (drugs.length === 0 && vessel.powder) return vessel.powder.drug;
  if (drugs.length > 1) {
    const ordered = drugs.filter((d) => bench.options.doses.some((dose) => dose.drug === d));
    if (ordered.length === 1) return ordered[0];
  }
  return undefined;
}

/** Steps before took all that was in it. */
function isEmptied({ steps }: Bench, vessel: Vessel): boolean {
  return !vessel.liquid.volume.isPositive() && steps.some((s) => s.movements.some(({ from }) => from === vessel));
}

function volumeHolding(
  bench: Bench,
  from: readonly Vessel[],
  drug: string,
  wanted: Exact,
  spot: Spot,
): Exact | undefined {
  let rest = wanted;
  let volume = Exact.zero;
  for (const vessel of from) {
    const held = vessel.liquid.amounts.get(drug);
    if (!held?.isPositive() || !vessel.liquid.volume.isPositive()) {
      const why = vessel.powder ? "no-powder-volume" : isEmptied(bench, vessel) ? "emptied" : "no-strength";
      bench.note("amount-not-computable", spot, { why, vessel, drug });
      return undefined;
    }
    const available = availableIn(vessel);
    const there = held.times(available).over(vessel.liquid.volume);
    if (there.isAtLeast(rest)) return volume.plus(rest.times(vessel.liquid.volume).over(held));
    rest = rest.minus(there);
    volume = volume.plus(available);
  }
  // More than all of them hold: at the strength of the last, so that the shortage shows as a volume.
  const last = from.at(-1)!;
  const held = last.liquid.amounts.get(drug)!;
  return volume.plus(rest.times(last.liquid.volume).over(held));
}
