/**
 * What stands on the bench: vessels that hold liquid (stock containers, bags, syringes), and parts that liquid passes through
 * (needles, filters, spikes, connectors). Their state is what a careful colleague would keep in mind.
 */
import type { Device, Material, Stock } from "../model/declaration.ts";
import type { ContainerKind, DeviceKind } from "../model/declarations/stock.ts";
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { type Liquid, noLiquid } from "./liquid.ts";
import type { StepRun } from "./step-run.ts";

/** Powder not yet dissolved. */
export interface Powder {
  drug: string;
  amount: Exact;
  /** Volume (mL) that it takes up once dissolved; undefined when no fact says. */
  displacement: Exact | undefined;
}

export interface Vessel {
  is: "vessel";
  /** Name in `materials`. */
  name: string;
  /** From 1 within its set; `of` is the size of the set. */
  index: number;
  of: number;
  material: Material;
  kind: ContainerKind | "syringe";
  stock: Stock | undefined;
  device: Device | undefined;
  liquid: Liquid;
  powder: Powder | undefined;
  /** mL it can hold; undefined when not declared. */
  capacity: Exact | undefined;
  /** mL that may be drawn from it before it counts as empty: the label's figure, overfill left aside. */
  yields: Exact | undefined;
  /** Stocks in what `yields` speaks of: a powder and the liquid that dissolved it are two. */
  yieldsOf: number;
  graduation: Exact | undefined;
  attached: Part[];
  /**
   * Names put on it that stand for no known part. The name is told where it is written, and what hangs there is not known: whether it
   * filters, lets air in or closes the tip is not judged.
   */
  unknownParts: string[];
  /** How much it holds, or how strong, stands in its stock and cannot be read, which is told there. */
  contentUnread: boolean;
  /** Liquid brought down out of the head (ampoule). */
  tapped: StepRun | undefined;
  /** Opened (ampoule) or first entered (vial, bag). */
  opened: StepRun | undefined;
  /** Neck, stopper or port wiped and not touched since. */
  disinfected: StepRun | undefined;
  /** Its label was read. */
  checked: StepRun | undefined;
  /** Its expiry date was read. */
  expiryChecked: StepRun | undefined;
  labelled: StepRun | undefined;
  sealed: StepRun | undefined;
  /** Sterilised as a whole, with what it holds. */
  sterilised: StepRun | undefined;
  covered: StepRun | undefined;
  inspected: StepRun | undefined;
  mixed: StepRun | undefined;
  /** The last addition that no mixing has followed. */
  unmixed: StepRun | undefined;
  /** Reconstitution that no dissolving has followed. */
  undissolved: StepRun | undefined;
  discarded: StepRun | undefined;
  kept: StepRun | undefined;
  /** Connected to a patient's set or started. */
  running: StepRun | undefined;
  punctures: number;
  /** mL of air pushed in beyond what left, at the last exchange; above zero means pressure. */
  pressure: Exact;
  /** First drawing from it, to tell what the syringe was loaded from. */
  drawnBy: StepRun | undefined;
  /** Stocks whose liquid wetted it (syringes). */
  wettedBy: string[];
  airExpelled: boolean;
  /** Lines fixed or connected to it through which it will be given, as far as they were filled. */
  lines: Line[];
}

/** A line on a finished container. */
export interface Line {
  name: string;
  /** mL that it holds once it is filled; undefined where nobody declared it. */
  holds: Exact | undefined;
  /** mL that it was filled with; undefined where it never was. */
  filled: Exact | undefined;
  /** What is in it counts among what the container holds. */
  counted: boolean;
  spot: Spot;
}

export interface Part {
  is: "part";
  name: string;
  index: number;
  of: number;
  material: Material;
  device: Device;
  kind: DeviceKind;
  /** Which way liquid passed last; a filter serves one way only. */
  passed: { way: "drawn" | "pushed"; step: StepRun } | undefined;
  punctures: number;
  /** Containers whose liquid it filtered. */
  filtered: string[];
  on: Vessel | undefined;
  /** The other end of a connector. */
  joins: Vessel | undefined;
  /** What a line was filled with; its volume is what was let through, the rest of which is lost. */
  primed: Liquid | undefined;
  discarded: StepRun | undefined;
  kept: StepRun | undefined;
}

export type Thing = Vessel | Part;

export function newVessel(material: Material, index: number, of: number): Vessel {
  return {
    is: "vessel",
    name: material.name.name,
    index,
    of,
    material,
    kind: "syringe",
    stock: undefined,
    device: undefined,
    liquid: noLiquid,
    powder: undefined,
    capacity: undefined,
    yields: undefined,
    yieldsOf: 1,
    graduation: undefined,
    attached: [],
    unknownParts: [],
    contentUnread: false,
    tapped: undefined,
    opened: undefined,
    disinfected: undefined,
    checked: undefined,
    expiryChecked: undefined,
    labelled: undefined,
    sealed: undefined,
    sterilised: undefined,
    covered: undefined,
    inspected: undefined,
    mixed: undefined,
    unmixed: undefined,
    undissolved: undefined,
    discarded: undefined,
    kept: undefined,
    running: undefined,
    punctures: 0,
    pressure: Exact.zero,
    drawnBy: undefined,
    wettedBy: [],
    airExpelled: true,
    lines: [],
  };
}

export function newPart(material: Material, device: Device, kind: DeviceKind, index: number, of: number): Part {
  return {
    is: "part",
    name: material.name.name,
    index,
    of,
    material,
    device,
    kind,
    passed: undefined,
    punctures: 0,
    filtered: [],
    on: undefined,
    joins: undefined,
    primed: undefined,
    discarded: undefined,
    kept: undefined,
  };
}

/** `vials`, or `vials 2 of 3` where there are several. */
export function thingName(thing: Thing): string {
  return thing.of > 1 ? `${thing.name} ${thing.index} of ${thing.of}` : thing.name;
}

/** `each of syringes` where all members of its set are in the same case, so that one fault of a batch is told once. */
export function thingOrEach(thing: Vessel, all: readonly Vessel[], isAlike: (other: Vessel) => boolean): string {
  const set = all.filter((other) => other.name === thing.name);
  return set.length > 1 && set.every(isAlike) ? `each of ${thing.name}` : thingName(thing);
}

export const filterKinds: readonly DeviceKind[] = ["filter-needle", "filter-straw", "syringe-filter"];
const sharpKinds: readonly DeviceKind[] = ["needle", "filter-needle"];

export function isFilter(part: Part): boolean {
  return filterKinds.includes(part.kind);
}

export function isNeedle(part: Part): boolean {
  return sharpKinds.includes(part.kind);
}

/** Pierces a stopper or port, and a hand. */
export function isSharp(part: Part): boolean {
  return isNeedle(part) || part.kind === "spike" || part.kind === "vented-spike";
}

/** Rigid, stoppered, so that drawing without air makes a vacuum. */
export function isSealedVial(vessel: Vessel): boolean {
  return vessel.kind === "vial" || vessel.kind === "powder-vial" || vessel.kind === "empty-vial";
}

/** Has a port or stopper that is entered and must be wiped before. */
export function hasEntry(vessel: Vessel): boolean {
  return vessel.kind !== "ampoule" && vessel.kind !== "syringe" && vessel.kind !== "prefilled-syringe";
}
