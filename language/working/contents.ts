/** What is in a container: volume, amount and concentration of each drug, with the sums and quotients that lead there. */

import { amountOf, isRefusal } from "../bench/amounts.ts";
import { doseFor } from "../bench/order.ts";
import { rowsAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import { vesselsOf } from "../bench/setup.ts";
import type { StepRun } from "../bench/step-run.ts";
import { thingName, type Vessel } from "../bench/things.ts";
import { Exact } from "../quantities/exact.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit, type Unit } from "../quantities/unit.ts";
import { amountIn, concentrationIn, substanceIn } from "./amount-words.ts";
import { volumeBefore } from "./moving.ts";
import { line, millilitres, shown, shownVolume, spokenVerb, type Working, type WorkingLine } from "./working.ts";

/** Finished containers that came out alike are told once. */
export function alike(run: Run): { name: string; vessel: Vessel; count: number }[] {
  return [...run.finalNames].flatMap((name) => {
    const groups = new Map<string, { name: string; vessel: Vessel; count: number }>();
    for (const vessel of vesselsOf(run.groups.get(name))) {
      const amounts = [...vessel.liquid.amounts].map(([drug, held]) => `${drug} ${held.key()}`);
      const key = [vessel.liquid.volume.key(), ...amounts].join(", ");
      const known = groups.get(key);
      if (known) known.count++;
      else groups.set(key, { name, vessel, count: 1 });
    }
    return [...groups.values()];
  });
}

/** The unit in which the author states a drug's concentration, so that sheet, recipe and label speak alike. */
function statedUnit(run: Run, vessel: Vessel, drug: string): Unit | undefined {
  const preparation = run.recipe.preparations.find((p) => p.name.name === vessel.name);
  const rows = rowsAt(preparation?.facts.all("concentration") ?? [], run).filter(({ slots }) => !slots.ion);
  const own = rows.find(({ slots }) => (slots.drug ? slots.drug.name === drug : rows.length === 1));
  return own?.slots.concentration.quantity?.unit;
}

export interface Content {
  drug: string;
  amount: Quantity;
  concentration: Quantity;
  /** Ion in which the order counts it. */
  ion: string | undefined;
}

/** Amount and concentration of each drug in a finished container, in the units of the order and of the recipe's own claim. */
export function contentsOf(run: Run, vessel: Vessel): Content[] {
  const { liquid } = vessel;
  return liquid.drugs.flatMap((drug) => {
    const held = liquid.amounts.get(drug);
    const kind = run.setup.kinds.get(drug);
    if (!held?.isPositive() || !kind || !liquid.volume.isPositive()) return [];
    const of = substanceIn(run, drug);
    const dose = doseFor(run.doses, drug, vessel.name) ?? run.doses.find((d) => d.drug === drug);
    const ion = dose?.ion;
    const amount = amountIn(held, kind, orderedUnit(dose?.given), of, ion);
    const unit = statedUnit(run, vessel, drug) ?? unitBeside(amount, liquid.volume);
    const concentration = concentrationIn(held, liquid.volume, kind, unit, of, ion);
    return [{ drug, amount, concentration, ion }];
  });
}

/**
 * A strength stands beside its amount: both are said in one unit, so that nobody has to compare mg with mcg, as long as no more than
 * one nought follows the point. Grams are the exception: `4 g (37.04 mg/mL)` is how packs say it (common practice).
 */
function unitBeside({ value, unit }: Quantity, volume: Exact): Unit | undefined {
  if (unit.dimension.key !== "mass" || unit.spelling === "g" || unit.spelling === "kg") return undefined;
  return value.plain().over(volume.plain()).isAtLeast(leastReadable) ? findUnit(`${unit.spelling}/mL`).unit : undefined;
}

const leastReadable = Exact.ratio(1, 100);

function orderedUnit(given: Quantity | undefined): Unit | undefined {
  return given && given.unit.parts.length === 1 ? given.unit : undefined;
}

/** What tells one of several finished containers from the others, for the name of a figure. */
export function whichContainer(run: Run, vessel: Vessel): string[] {
  const kinds = alike(run);
  if (kinds.length < 2) return [];
  const named = kinds.filter((k) => k.name === vessel.name);
  return named.length > 1 ? [vessel.name, String(vessel.index)] : [vessel.name];
}

/** Volume, amounts and concentrations of every kind of finished container; none where some figure is not known. */
export function contentWorkings(run: Run): Working[] {
  if (run.unknown) return [];
  return alike(run).flatMap(({ name, vessel, count }) => {
    if (!vessel.liquid.volume.isPositive()) return [];
    const each = count > 1 ? `each of ${name}` : name;
    return [volumeWorking(run, vessel, each), ...drugWorkings(run, vessel, each)];
  });
}

function volumeWorking(run: Run, vessel: Vessel, each: string): Working {
  const volume = millilitres(vessel.liquid.volume);
  const lines: WorkingLine[] = [];
  const start = volumeBefore(run, vessel, run.steps[0]);
  const flows = run.steps.flatMap((s) => s.movements).filter((m) => m.to === vessel || m.from === vessel);
  if (start && flows.length > 0) {
    const terms = flows.map((m) => `${m.to === vessel ? "+" : "−"} ${shownVolume(m.moved)}`);
    lines.push(line("computed", `${shownVolume(start)} ${terms.join(" ")} = ${shown(volume)}`, volume));
    if (start.isPositive()) lines.push(line("remark", "the label's fill of the container; its overfill is left aside"));
  }
  return {
    kind: "final-volume",
    of: whichContainer(run, vessel),
    key: `volume ${vessel.name} ${vessel.index}`,
    label: `Volume in ${each}`,
    step: undefined,
    value: volume,
    text: showQuantity(volume),
    lines,
  };
}

function drugWorkings(run: Run, vessel: Vessel, each: string): Working[] {
  return contentsOf(run, vessel).flatMap((content): Working[] => {
    const { drug, amount, concentration } = content;
    const same = { of: [drug, ...whichContainer(run, vessel)], step: undefined };
    return [
      {
        ...same,
        kind: "amount",
        key: `amount ${drug} ${vessel.name} ${vessel.index}`,
        label: `${drug} in ${each}`,
        value: amount,
        text: showQuantity(amount),
        lines: againstOrder(run, vessel, content),
      },
      {
        ...same,
        kind: "concentration",
        key: `concentration ${drug} ${vessel.name} ${vessel.index}`,
        label: `Concentration of ${drug} in ${each}`,
        value: concentration,
        text: showQuantity(concentration),
        lines: [strengthLine(run, vessel, content)],
      },
    ];
  });
}

/** Against the order: the share by which the content misses it. */
function againstOrder(run: Run, vessel: Vessel, { drug, ion }: Content): WorkingLine[] {
  const dose = doseFor(run.doses, drug, vessel.name);
  const kind = run.setup.kinds.get(drug);
  const held = vessel.liquid.amounts.get(drug);
  if (!dose?.given || !kind || !held) return [];
  const wanted = amountOf(dose.given, kind, substanceIn(run, drug), dose.as, ion);
  if (isRefusal(wanted) || !wanted.isPositive()) return [];
  if (wanted.equals(held)) return [line("compared", `as ordered: ${showQuantity(dose.given)}`, dose.given)];
  const off = held.minus(wanted).over(wanted).times(Exact.of(100));
  const size = off.abs().roundedToDigits(3).toText();
  const side = off.isNegative() ? "below" : "above";
  return [
    line("compared", `ordered ${showQuantity(dose.given)}; the content is ${size} % ${side} it (to three figures)`),
  ];
}

/** Divided in the unit that stands above the line of the result: `2,000 mg ÷ 104 mL = 19.23 mg/mL`. */
export function strengthLine(run: Run, vessel: Vessel, { drug, amount, concentration, ion }: Content): WorkingLine {
  const held = vessel.liquid.amounts.get(drug)!;
  const kind = run.setup.kinds.get(drug)!;
  const unit = findUnit(concentration.unit.spelling.split("/")[0] ?? "").unit;
  const divided = amountIn(held, kind, unit, substanceIn(run, drug), ion);
  const convert = showQuantity(divided) === showQuantity(amount) ? "" : `${shown(amount)} = ${shown(divided)}; `;
  const quotient = `${shown(divided)} ÷ ${shownVolume(vessel.liquid.volume)} = ${shown(concentration)}`;
  return line("computed", `${convert}${quotient}`, concentration);
}

/** What each container that a step touched holds once the step is done. */
export function afterStepWorkings(run: Run): Working[] {
  if (run.unknown) return [];
  return run.steps.flatMap((step): Working[] => {
    if (step.skipped || step.movements.length === 0) return [];
    const told = [...step.after].filter(([vessel]) => step.movements.some((m) => m.to === vessel || m.from === vessel));
    if (told.length === 0) return [];
    const lines = told.flatMap(([vessel, liquid]) => {
      const flows = step.movements.filter((m) => m.to === vessel || m.from === vessel);
      const terms = flows.map((m) => `${m.to === vessel ? "+" : "−"} ${shownVolume(m.moved)}`).join(" ");
      const isPowder = vessel.kind === "powder-vial" && isFirstInto(run, vessel, step);
      const before = isPowder ? Exact.zero : volumeBefore(run, vessel, step);
      const sum = flows.reduce((total, m) => (m.to === vessel ? total?.plus(m.moved) : total?.minus(m.moved)), before);
      const powder = isPowder && sum?.isBelow(liquid.volume) ? liquid.volume.minus(sum) : undefined;
      const room = powder ? ` + ${shownVolume(powder)} taken up by the powder` : "";
      // Where yet another thing than these flows changed the volume, the sum is not claimed.
      const isSum = powder !== undefined || (sum?.equals(liquid.volume) ?? false);
      const sums = isSum ? `${shownVolume(before!)} ${terms}${room} = ` : "holds ";
      const volume = millilitres(liquid.volume);
      const first = line("computed", `${thingName(vessel)}: ${sums}${shown(volume)}`, volume);
      const own = { ...vessel, liquid };
      const drugs = contentsOf(run, own).map((c) => {
        const { text, value } = strengthLine(run, own, c);
        return line("computed", `${thingName(vessel)}, ${c.drug}: ${text}`, value);
      });
      return [first, ...drugs];
    });
    return [
      {
        kind: "after-step",
        of: [String(step.number)],
        key: `after step ${step.number}`,
        label: `After step ${step.number}, ${spokenVerb(step.verb)}`,
        step: step.number,
        value: undefined,
        text: told.map(([v, l]) => `${thingName(v)} ${showQuantity(millilitres(l.volume))}`).join("; "),
        lines,
      },
    ];
  });
}

/** No step before it brought anything into the container. */
function isFirstInto(run: Run, vessel: Vessel, { number }: StepRun): boolean {
  return !run.steps.some((step) => step.number < number && step.movements.some((m) => m.to === vessel));
}
