/** One step as the bench carried it out. */

import type { Step } from "../model/declaration.ts";
import type { MeasureSlot, NameSlot, Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import type { Liquid } from "./liquid.ts";
import type { Part, Thing, Vessel } from "./things.ts";

/** A movement of liquid. Volumes in mL. */
export interface Movement {
  how: "draw" | "push" | "waste" | "transfer" | "line";
  from: Vessel | undefined;
  to: Vessel | undefined;
  /** What the step asked for. */
  asked: Exact;
  /** What moved: the reading on the scale. */
  moved: Exact;
  liquid: Liquid;
  spot: Spot;
}

/** A figure that the author wrote down beside the step. */
export interface Claim {
  kind: "moves" | "giving" | "leaving";
  from: MeasureSlot;
  to: MeasureSlot;
  isRange: boolean;
  /** The form of the drug that the figure counts, where it says one. */
  as: NameSlot | undefined;
  /** The drug that it is of, where it names one of several. */
  drug: NameSlot | undefined;
  spot: Spot;
}

/** The stated figure in words: `20 mL to 40 mL`, `10 mg/mL as morphine-hydrochloride`. */
export function claimText({ from, to, isRange, as, drug }: Claim): string {
  return `${drug ? `${drug.name} ` : ""}${isRange ? `${from.written} to ${to.written}` : from.written}${as ? ` as ${as.name}` : ""}`;
}

export interface StepRun {
  step: Step;
  number: number;
  verb: string;
  slots: unknown;
  claims: readonly Claim[];
  movements: Movement[];
  touched: Thing[];
  /** Parts on a syringe with which it went into a container. */
  through: Part[];
  /** mL that it was told to measure, one entry each time it asks: by volume, amount or dose; undefined where that is not known. */
  asked: (Exact | undefined)[];
  /** Volume that the step moved in all, compared with `= Q`; undefined for steps that move nothing. */
  moved: Exact | undefined;
  /** Where `giving` looks. */
  result: Vessel | undefined;
  /** What each touched vessel held when the step was done. */
  after: ReadonlyMap<Vessel, Liquid>;
  /** The step was skipped because it did not hold for this order. */
  skipped: boolean;
  /** A figure before it was not known: by an amount or a dose it may measure another volume. */
  isBlind: boolean;
  /** It names a container that the bench does not have, which is told. */
  lacksContainer: boolean;
}

/** How much of a drug these steps drew from these containers, in base unit of the drug's kind. */
export function drawnFrom(from: ReadonlySet<Vessel | undefined>, drug: string, steps: readonly StepRun[]): Exact {
  return steps
    .flatMap(({ movements }) => movements)
    .filter((m) => m.how === "draw" && m.from !== undefined && from.has(m.from))
    .reduce((sum, { liquid }) => sum.plus(liquid.amounts.get(drug) ?? Exact.zero), Exact.zero);
}

/** What a step draws into each syringe in all; several containers may be emptied into one. */
export function takenUp(step: StepRun): ReadonlyMap<Vessel, Exact> {
  return totals(step, "draw");
}

/** What a step pushes into each container in all, in however many loads. */
export function pushedInto(step: StepRun): ReadonlyMap<Vessel, Exact> {
  return totals(step, "push");
}

function totals({ movements }: StepRun, by: Movement["how"]): ReadonlyMap<Vessel, Exact> {
  const all = new Map<Vessel, Exact>();
  for (const { how, to, moved } of movements)
    if (how === by && to) all.set(to, (all.get(to) ?? Exact.zero).plus(moved));
  return all;
}
