/** How the volume of a step comes about, line by line, as a person would work it out on paper for the second check. */
import { amountOf, inForm, isRefusal, kindOf } from "../bench/amounts.ts";
import { asksForDose, dosesMeant, isRest } from "../bench/dose-asked.ts";
import { labelledForm } from "../bench/labelled-form.ts";
import { orderedDiluentVolume, orderedFinalVolume } from "../bench/order.ts";
import { type OrderedDose, rowAt } from "../bench/order-rows.ts";
import { drawnOfDose } from "../bench/rest-of-dose.ts";
import type { Run } from "../bench/run.ts";
import { vesselsOf } from "../bench/setup.ts";
import { eachVolume } from "../bench/spoken.ts";
import type { Movement, StepRun } from "../bench/step-run.ts";
import { thingName, type Vessel } from "../bench/things.ts";
import type { MeasureSlot, NameSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";
import type { Substance } from "../quantities/substance.ts";
import { findUnit, type Unit } from "../quantities/unit.ts";
import { amountIn, concentrationIn, onlyDrug, packUnit, substanceIn } from "./amount-words.ts";
import { line, millilitres, shown, shownVolume, type WorkingLine } from "./working.ts";

interface MovingSlots {
  amount?: MeasureSlot;
  volume?: MeasureSlot;
  /** The volume that the order states. */
  ordered?: { choice: string };
  figure?: { choice: string };
  ion?: NameSlot;
  as?: NameSlot;
  drug?: NameSlot;
  target?: NameSlot;
}

/** Lines of working for a step that moves liquid; none where the step states its volume. */
export function movingWork(run: Run, step: StepRun): WorkingLine[] {
  const slots = step.slots as MovingSlots;
  if (step.verb === "make") return makeUpWork(run, step, slots);
  if (step.verb === "withdraw") return withdrawWork(run, step, slots);
  if (slots.figure?.choice === "diluent-volume") return [...diluentWork(run, step), ...shares(step)];
  const asked = askedAmount(run, step, slots);
  if (!asked) return shares(step);
  return [...asked.before, ...amountWork(run, step, asked), ...shares(step)];
}

/** `2 mL/kg × 12 kg = 24 mL`: what the order wants of diluent, and the mark that is nearest. */
function diluentWork({ recipe, point, doses }: Run, step: StepRun): WorkingLine[] {
  const stated = rowAt(recipe.order?.all("diluent-volume"), { point, doses })?.slots.volume;
  const wanted = orderedDiluentVolume(recipe, point, doses);
  if (!stated?.quantity || !wanted) return [];
  const [, per = ""] = stated.quantity.unit.spelling.split("/");
  const by = per === "" ? undefined : point.get(per === "kg" ? "weight" : "body-surface");
  const text = by ? `${stated.written} × ${showQuantity(by)} = ${shown(wanted)}` : `ordered: ${shown(wanted)}`;
  return [line("computed", text, wanted), ...readingWork(step, inBase(wanted))];
}

interface Asked {
  amount: Quantity;
  as: string | undefined;
  ion: string | undefined;
  /** The drug whose dose it is, where the step names it. */
  drug?: string | undefined;
  /** How the amount comes about, where it is none that is stated. */
  before: WorkingLine[];
}

function askedAmount(run: Run, step: StepRun, slots: MovingSlots): Asked | undefined {
  const stated = slots.amount;
  if (stated?.quantity && stated.quantity.unit.dimension.key !== "volume") {
    return { amount: stated.quantity, as: slots.as?.name, ion: slots.ion?.name, before: [] };
  }
  if (!asksForDose(slots)) return undefined;
  const [dose] = dosesMeant(slots, step.movements[0]?.liquid.drugs ?? [], run.doses);
  if (!dose?.given) return undefined;
  if (isRest(slots)) return restAsked(run, step, dose, dose.given, slots.drug?.name);
  return { amount: dose.given, as: dose.as, ion: dose.ion, drug: slots.drug?.name, before: [] };
}

/** The dose less what the steps before drew of it. */
function restAsked(
  run: Run,
  step: StepRun,
  dose: OrderedDose,
  given: Quantity,
  drug: string | undefined,
): Asked | undefined {
  const kind = run.setup.kinds.get(dose.drug);
  const of = substanceIn(run, dose.drug);
  const wanted = kind && amountOf(given, kind, of, dose.as, dose.ion);
  if (!kind || !wanted || isRefusal(wanted)) return undefined;
  const { from: names } = step.slots as { from: readonly NameSlot[] };
  const from = names.flatMap(({ name }) => vesselsOf(run.groups.get(name)));
  const earlier = run.steps.filter(({ number }) => number < step.number);
  const before = drawnOfDose(from, dose.drug, wanted, earlier);
  const [rest, drawn] = [wanted.minus(before), before].map((each) => amountIn(each, kind, given.unit, of));
  const text = `dose ${shown(given)} − ${shown(drawn!)} drawn before = ${shown(rest!)}`;
  return { amount: rest!, as: undefined, ion: undefined, drug, before: [line("computed", text, rest!)] };
}

function amountWork(run: Run, step: StepRun, asked: Asked): WorkingLine[] {
  const [first] = step.movements;
  const drug =
    asked.ion !== undefined && first?.liquid.amounts.has(asked.ion)
      ? asked.ion
      : (asked.drug ?? (first && onlyDrug(first.liquid)));
  const kind = drug === undefined ? undefined : run.setup.kinds.get(drug);
  const held = drug === undefined ? undefined : first?.liquid.amounts.get(drug);
  if (!first?.from || drug === undefined || !kind || !held?.isPositive()) return [];
  const of = substanceIn(run, drug);
  const ion = asked.ion === drug ? undefined : asked.ion;
  const wanted = amountOf(asked.amount, kind, of, asked.as, ion);
  if (isRefusal(wanted)) return [];
  const unit =
    kindOf(asked.amount) === kind ? (packUnit(first.from.stock) ?? asked.amount.unit) : packUnit(first.from.stock);
  const form = formOnLabel(first.from, of);
  const amount = inLabelForm(amountIn(wanted, kind, unit, of), of, form);
  const strength = inLabelForm(concentrationIn(held, first.liquid.volume, kind, perMillilitre(amount), of), of, form);
  const counted = form === undefined ? "" : ` as ${form}`;
  const exact = wanted.times(first.liquid.volume).over(held);
  const lines: WorkingLine[] = [];
  if (showQuantity(amount) !== showQuantity(asked.amount)) {
    const how = kindOf(asked.amount) === kindOf(amount) ? "" : ` (${conversionWords(run, drug, asked, amount)})`;
    const named = asked.as ?? (form === undefined ? undefined : of.base);
    const own = named === undefined ? "" : ` as ${named}`;
    lines.push(line("converted", `${showQuantity(asked.amount)}${own} = ${shown(amount)}${counted}${how}`, amount));
  }
  const volume = millilitres(exact);
  lines.push(line("computed", `${shown(amount)} ÷ ${shown(strength)}${counted} = ${shown(volume)}`, volume));
  if (run.overfilled.has(first.from.name))
    lines.push(line("remark", `the stated overfill of ${first.from.name} is counted in its strength, at its mean`));
  lines.push(...readingWork(step, exact));
  return lines;
}

/** In which the label of what is drawn from counts the drug; undefined where that is how the drug is counted anyway. */
function formOnLabel({ stock }: Vessel, of: Substance): string | undefined {
  if (!stock) return undefined;
  const form = labelledForm(stock, stock.facts.one("strength") ? "strength" : "content");
  return form === of.base ? undefined : form;
}

function inLabelForm(quantity: Quantity, of: Substance, form: string | undefined): Quantity {
  const turned = inForm(quantity, of, undefined, form);
  return isRefusal(turned) ? quantity : turned;
}

function perMillilitre(amount: Quantity): Unit | undefined {
  return findUnit(`${amount.unit.spelling}/mL`).unit;
}

/** By what a mass, mmol and mEq of this drug turn into each other. */
function conversionWords(run: Run, drug: string, asked: Asked, to: Quantity): string {
  const of = substanceIn(run, drug);
  const kinds = [kindOf(asked.amount), kindOf(to)];
  const ion = of.ions.find((i) => i.name === asked.ion) ?? (of.ions.length === 1 ? of.ions[0] : undefined);
  const molar = kinds.includes("mass") && of.molarMass ? `molar mass ${of.molarMass.toText()} g/mol` : "";
  const charge = kinds.includes("equivalents") && ion ? `${ion.name}, charge ${Math.abs(ion.charge)}` : "";
  return [molar, charge].filter(Boolean).join("; ") || "by the facts of the drug";
}

/** Only where the plunger stops elsewhere than asked: the rounding is named. */
export function readingWork(step: StepRun, exact: Exact, moved = eachVolume(step) ?? step.moved): WorkingLine[] {
  const syringe = step.movements.map((m) => m.to).find((v) => v?.kind === "syringe");
  if (!moved || moved.equals(exact) || !syringe?.graduation?.isPositive()) return [];
  const marks = showQuantity(millilitres(syringe.graduation));
  const read = millilitres(moved);
  return [line("rounded", `rounded half up to the nearest ${marks} mark of ${syringe.name}: ${shown(read)}`, read)];
}

/** Of more alike than these the row says how many, and none by its name. */
const mostNamed = 4;

/** `10 mL + 10 mL + 10 mL`, where one step takes from or gives to several containers. */
function shares(step: StepRun): WorkingLine[] {
  const loads = loadsOf(step);
  if (loads) return [line("counted", `${loads}; together ${shownVolume(step.moved!)}`, millilitres(step.moved!))];
  const parts = step.movements.filter((m) => m.how === "push" || m.how === "transfer");
  const list = parts.length > 1 ? parts : step.movements.filter((m) => m.how === "draw");
  if (list.length < 2) return [];
  // What a set of syringes draws is parted among them.
  const isInto = list === parts || new Set(list.map((m) => m.to)).size > 1;
  const side = isInto ? (m: Movement) => m.to : (m: Movement) => m.from;
  const [first] = list;
  const isLongRow = list.length > mostNamed && list.every((m) => m.moved.equals(first!.moved));
  const parted = isLongRow
    ? `${shownVolume(first!.moved)} ${isInto ? "into" : "from"} each of ${list.length}`
    : list.map((m) => `${nameOf(side(m))}: ${shownVolume(m.moved)}`).join("; ");
  const moved = step.moved ?? Exact.zero;
  const all = list.reduce((sum, m) => sum.plus(m.moved), Exact.zero);
  const isEach = list.every((m) => m.moved.equals(moved));
  // The step's own figure is the sum, or what each of a set gets; where it is neither, the parts stand alone.
  const word = all.equals(moved) ? "; together " : isEach ? "; each " : undefined;
  if (word === undefined) return [line("counted", `shared: ${parted}`)];
  return [line("counted", `shared: ${parted}${word}${shownVolume(moved)}`, millilitres(moved))];
}

/** `in 3 loads: 60 mL + 60 mL + 28 mL`, where a step fills from one container in several loads of a syringe; of a set what goes into each. */
export function loadsOf({ movements, moved }: StepRun): string | undefined {
  const all = movements.filter((m) => m.how === "push");
  const drawn = movements.filter((m) => m.how === "draw");
  const into = [...new Set(all.map((m) => m.to))].map((to) => all.filter((m) => m.to === to));
  const [loads = []] = into;
  const isAlike = into.every(
    (each) => each.length === loads.length && each.every((m, i) => m.moved.equals(loads[i]!.moved)),
  );
  if (loads.length < 2 || !isAlike || new Set(drawn.map((m) => m.from)).size !== 1 || !moved) return undefined;
  if (!all.reduce((sum, m) => sum.plus(m.moved), Exact.zero).equals(moved)) return undefined;
  const each = into.length > 1 ? " each" : "";
  return `in ${loads.length} loads${each}: ${loads.map((m) => shownVolume(m.moved)).join(" + ")}`;
}

function nameOf(vessel: Vessel | undefined): string {
  return vessel ? thingName(vessel) : "";
}

function makeUpWork(run: Run, step: StepRun, slots: MovingSlots): WorkingLine[] {
  const wanted =
    slots.volume?.quantity ??
    (slots.ordered && step.result && orderedFinalVolume(run.recipe, run.point, run.doses, step.result.name));
  const vessel = step.result;
  if (!wanted || !vessel || !step.moved) return [];
  const before = volumeBefore(run, vessel, step);
  if (!before) return [];
  const rest = inBase(wanted).minus(before);
  const text = `${showQuantity(wanted)} − ${shownVolume(before)} already in ${vessel.name} = ${shownVolume(rest)}`;
  return [line("computed", text, millilitres(rest)), ...readingWork(step, rest)];
}

function withdrawWork(run: Run, step: StepRun, slots: MovingSlots): WorkingLine[] {
  const each = eachVolume(step);
  if (each) {
    const all = step.moved && !step.moved.equals(each) ? `; together ${shownVolume(step.moved)}` : "";
    const stated = slots.volume?.quantity ? readingWork(step, inBase(slots.volume.quantity), each) : [];
    return [
      line(
        "counted",
        `${shownVolume(each)} from each of ${step.movements.length}${all}`,
        step.moved && millilitres(step.moved),
      ),
      ...stated,
    ];
  }
  if (!slots.figure || !step.result) return [];
  const added = run.steps
    .flatMap((s) => s.movements)
    .filter((m) => m.to === step.result && (m.how === "push" || m.how === "transfer"));
  const sum = added.reduce((total, m) => total.plus(m.moved), Exact.zero);
  if (added.length === 0) return [];
  const list = added.map((m) => shownVolume(m.moved)).join(" + ");
  const text = added.length > 1 ? `${list} = ${shownVolume(sum)}` : list;
  const lines = [line("computed", `added later: ${text}`, millilitres(sum))];
  if (step.moved && !step.moved.equals(sum)) {
    lines.push(line("stated", `withdrawn: ${shownVolume(step.moved)}, see the step`, millilitres(step.moved)));
  }
  return lines;
}

/** What stood in a container before a step, from its movements alone; undefined where some of them are not known. */
export function volumeBefore(run: Run, vessel: Vessel, until: StepRun | undefined): Exact | undefined {
  const all = run.steps.flatMap((s) => s.movements.map((m) => ({ m, step: s })));
  const flow = (list: typeof all) =>
    list.reduce((sum, { m }) => {
      if (m.to === vessel && m.how !== "waste") return sum.plus(m.moved);
      return m.from === vessel ? sum.minus(m.moved) : sum;
    }, Exact.zero);
  const start = vessel.liquid.volume.minus(flow(all));
  const fill = vessel.stock?.facts.one("fill")?.slots.fill.quantity;
  // A start that is neither empty nor the label's fill means that some change left no movement behind: then nothing is claimed.
  if (!start.isZero() && !(fill && inBase(fill).equals(start))) return undefined;
  const cut = until ? all.findIndex(({ step }) => step.number >= until.number) : -1;
  return start.plus(flow(cut < 0 ? all : all.slice(0, cut)));
}
