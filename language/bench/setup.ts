/** Lays out the bench: every material of a recipe as the vessels and parts it stands for, filled as their labels say. */

import type { Device, Drug, Fluid, Material, Stock } from "../model/declaration.ts";
import type { DeviceKind } from "../model/declarations/stock.ts";
import type { Lookup } from "../model/lookup.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import { amountOf, isRefusal, keptAs, kindUnits, strengthOf } from "./amounts.ts";
import { labelledForm } from "./labelled-form.ts";
import { type AmountKind, type Liquid, noLiquid, unfiltered } from "./liquid.ts";
import { beyondLabel, type OverfillKnown } from "./overfill.ts";
import { newPart, newVessel, type Part, type Thing, type Vessel } from "./things.ts";

/** The things behind one name of `materials`. */
export interface Group {
  name: string;
  material: Material;
  things: Thing[];
  /** How many the author stated; undefined when it is derived. */
  stated: number | undefined;
  item: Stock | Device | undefined;
}

export interface Setup {
  groups: Map<string, Group>;
  /** Solute name → what it is counted in. */
  kinds: Map<string, AmountKind>;
  drugs: Map<string, Drug>;
  fluids: Map<string, Fluid>;
}

export function layOut(
  materials: readonly Material[],
  lookup: Lookup,
  counts: ReadonlyMap<string, number>,
  overfill: OverfillKnown,
): Setup {
  const setup: Setup = { groups: new Map(), kinds: new Map(), drugs: new Map(), fluids: new Map() };
  for (const material of materials) {
    const name = material.name.name;
    if (setup.groups.has(name)) continue;
    const stated = statedCount(material);
    const count = stated ?? counts.get(name) ?? 1;
    const stock = lookup.find("stock", material.item.name);
    const device = stock ? undefined : lookup.find("device", material.item.name);
    const things: Thing[] = [];
    for (let index = 1; index <= count; index++) {
      if (isConditionUnread(material)) continue;
      if (stock) things.push(stockVessel(material, stock, index, count, lookup, setup, overfill));
      else if (device && isKindRead(device)) things.push(deviceThing(material, device, index, count));
    }
    setup.groups.set(name, { name, material, things, stated, item: stock ?? device });
  }
  return setup;
}

/** More of one material than this stands on no bench; keeps a slip in a figure from filling the memory. */
export const mostOfOne = 500;

function statedCount(material: Material): number | undefined {
  const value = material.count?.value;
  if (!value?.isWhole() || !value.isPositive()) return undefined;
  return Math.min(Number(value.toText()), mostOfOne);
}

function base(slot: MeasureSlot | undefined): Exact | undefined {
  return slot?.quantity ? inBase(slot.quantity) : undefined;
}

/** `when dose up to 1.25`, its unit missing: whether it stands there is not known, so that it is laid out as if it were not declared. */
function isConditionUnread({ when }: Material): boolean {
  return when !== undefined && [when.bound.low, when.bound.high].some((end) => end && !end.measure.quantity);
}

/** Of a device whose kind cannot be read nobody knows what it does; it is laid out as little as one that is not declared. */
function isKindRead({ facts }: Device): boolean {
  return facts.one("kind") !== undefined || !facts.isUnread("kind");
}

function deviceThing(material: Material, device: Device, index: number, of: number): Thing {
  const kind = device.facts.one("kind")?.slots.kind.choice ?? "connector";
  if (kind !== "syringe") return newPart(material, device, kind as DeviceKind, index, of);
  const vessel = newVessel(material, index, of);
  vessel.device = device;
  vessel.capacity = base(device.facts.one("capacity")?.slots.capacity);
  vessel.graduation = base(device.facts.one("graduation")?.slots.interval);
  return vessel;
}

function stockVessel(
  material: Material,
  stock: Stock,
  index: number,
  of: number,
  lookup: Lookup,
  setup: Setup,
  overfill: OverfillKnown,
): Vessel {
  const { facts } = stock;
  const vessel = newVessel(material, index, of);
  vessel.stock = stock;
  vessel.kind = facts.one("container")?.slots.kind.choice ?? "vial";
  vessel.capacity = base(facts.one("capacity")?.slots.capacity);
  const label = base(facts.one("fill")?.slots.fill) ?? Exact.zero;
  const beyond = beyondLabel(stock, material.name.name, label, overfill);
  const volume = beyond ? label.plus(beyond) : label;
  vessel.yields = label.isZero() ? undefined : label;
  vessel.contentUnread = isContentUnread(stock);
  const drug = stockDrug(stock, lookup, setup);
  const fluidName = facts.one("fluid")?.slots.fluid.name;
  const fluid = fluidName === undefined ? undefined : lookup.find("fluid", fluidName);
  if (fluid && fluidName !== undefined) setup.fluids.set(fluidName, fluid);
  const content = facts.one("content");
  if (vessel.kind === "powder-vial" && content && drug) {
    const amount =
      content.slots.content.quantity && !isAmountUnread(stock)
        ? amountOf(
            content.slots.content.quantity,
            setup.kinds.get(drug.name.name)!,
            drug.substance,
            labelledForm(stock, "content"),
          )
        : undefined;
    if (amount && !isRefusal(amount)) {
      vessel.powder = { drug: drug.name.name, amount, displacement: displacementOf(stock, amount) };
    }
    return vessel;
  }
  vessel.liquid = liquidOf(stock, volume, drug, fluid, setup);
  return vessel;
}

function stockDrug(stock: Stock, lookup: Lookup, setup: Setup): Drug | undefined {
  const name = stock.facts.one("drug")?.slots.drug.name;
  const drug = name === undefined ? undefined : lookup.find("drug", name);
  if (!drug || name === undefined) return undefined;
  setup.drugs.set(name, drug);
  const first = stock.facts.one("strength")?.slots.strength ?? stock.facts.one("content")?.slots.content;
  // By a figure that cannot be read nobody knows in what the drug is counted.
  if (!setup.kinds.has(name) && !isAmountUnread(stock))
    setup.kinds.set(name, first?.quantity ? keptAs(drug, first.quantity) : "mass");
  return drug;
}

/** The line that would say what a filled container holds, or how much of it, where none does. */
export function heldNotStated(stock: Stock): "drug" | "fill" | undefined {
  return lacksOf(stock).find((word) => word === "drug" || word === "fill");
}

/** A strength, a content or a fill is stated and has no value, or what is in it or how much is not stated at all; each is told at the stock. */
export function isContentUnread(stock: Stock): boolean {
  const { facts } = stock;
  const fill = facts.one("fill")?.slots.fill;
  return (
    isAmountUnread(stock) ||
    whatIsHeld.some((word) => facts.isMisspelt(word) && !facts.one(word)) ||
    lacksOf(stock).some((word) => facts.isUnread(word)) ||
    heldNotStated(stock) !== undefined ||
    (fill !== undefined && !hasDimension(fill, isVolume))
  );
}

/** A container of which one of these lines cannot be read may hold anything. */
const whatIsHeld = ["drug", "fluid", "container", "fill"] as const;

/** What a line whose word is like none may have said of the content: what is missing, and what this container must state. */
function lacksOf({ facts }: Stock): readonly ("drug" | "container" | "fill")[] {
  const kind = facts.one("container")?.slots.kind.choice;
  if (!kind) return ["container"];
  const isFilled = !kind.startsWith("empty") && !mayBeBare.has(kind);
  const isNamed = facts.one("drug") ?? facts.one("fluid") ?? facts.one("contains");
  if (isFilled && !isNamed) return ["drug"];
  return isFilled && kind !== "powder-vial" && !facts.one("fill") ? ["fill"] : [];
}

const mayBeBare: ReadonlySet<string> = new Set(["evacuated-bottle", "infusor", "cassette"]);

function isAmountUnread({ facts }: Stock): boolean {
  const strength = facts.one("strength")?.slots.strength;
  const content = facts.one("content")?.slots.content;
  if (strength && !hasDimension(strength, isStrength)) return true;
  if (content && !hasDimension(content, isAmount)) return true;
  if (strength !== undefined || content !== undefined) return false;
  const mayBe = facts.one("drug") ? "isUnread" : "isMisspelt";
  return facts[mayBe]("strength") || facts[mayBe]("content");
}

function hasDimension({ quantity }: MeasureSlot, fits: (key: string) => boolean): boolean {
  return quantity !== undefined && fits(quantity.unit.dimension.key);
}

const isVolume = (key: string) => key === "volume";
const isAmount = (key: string) => key in kindUnits || key === "1";
/** What is no strength at all is told as a wrong dimension, a bare percent as not saying of what. */
const isStrength = (key: string) => key.endsWith("/volume") || key === "mass/mass" || key === "1";

/** `displacement 0.4 mL` is for the container; `displacement 0.8 mL/g` for a mass. */
export function displacementOf(stock: Stock, amount: Exact): Exact | undefined {
  const stated = stock.facts.one("displacement")?.slots.volume.quantity;
  if (!stated) return undefined;
  return stated.unit.dimension.key === "volume" ? inBase(stated) : inBase(stated).times(amount);
}

/** g/mL of the liquid as it is supplied. */
export function densityOf({ facts }: Stock): Exact | undefined {
  const stated = facts.one("density")?.slots.density.quantity;
  return stated?.unit.dimension.key === "mass/volume" ? inBase(stated) : undefined;
}

function liquidOf(stock: Stock, volume: Exact, drug: Drug | undefined, fluid: Fluid | undefined, setup: Setup): Liquid {
  if (volume.isZero()) return noLiquid;
  const amounts = new Map<string, Exact>();
  const strength = stock.facts.one("strength");
  if (drug && strength?.slots.strength.quantity && !isAmountUnread(stock)) {
    const name = drug.name.name;
    const perMl = strengthOf(
      strength.slots.strength.quantity,
      setup.kinds.get(name)!,
      drug.substance,
      labelledForm(stock, "strength"),
      densityOf(stock),
    );
    if (!isRefusal(perMl)) amounts.set(name, perMl.times(volume));
  }
  const rows = [...stock.facts.all("contains"), ...(fluid ? fluid.facts.all("contains") : [])];
  for (const { slots } of rows) {
    if (slots.amount.quantity) addContained(amounts, slots.what.name, slots.amount.quantity, volume, setup);
  }
  const vehicle = fluid?.name.name ?? drug?.name.name;
  return {
    volume,
    amounts,
    fluids: vehicle === undefined ? new Map() : new Map([[vehicle, volume]]),
    drugs: drug ? [drug.name.name] : [],
    stocks: [stock.name.name],
    glass: stock.facts.one("container")?.slots.kind.choice === "ampoule" && mayBeGlass(stock),
    pores: unfiltered,
  };
}

function addContained(
  amounts: Map<string, Exact>,
  name: string,
  perVolume: NonNullable<MeasureSlot["quantity"]>,
  volume: Exact,
  setup: Setup,
): void {
  const numerator = perVolume.unit.dimension.key.split("/")[0];
  const kinds: Readonly<Record<string, AmountKind>> = {
    mass: "mass",
    moles: "moles",
    equivalents: "equivalents",
    activity: "activity",
    volume: "volume",
  };
  const kind = kinds[numerator ?? ""];
  if (!kind) return;
  // An ion met in mmol here and in mEq there is kept under both names: they are never added to each other unasked.
  const known = setup.kinds.get(name);
  const key = known && known !== kind ? `${name} (${kind})` : name;
  setup.kinds.set(key, kind);
  const amount = inBase(perVolume).times(volume);
  amounts.set(key, amounts.get(key)?.plus(amount) ?? amount);
}

export function vesselsOf(group: Group | undefined): Vessel[] {
  return (group?.things ?? []).filter((thing): thing is Vessel => thing.is === "vessel");
}

export function partsOf(group: Group | undefined): Part[] {
  return (group?.things ?? []).filter((thing): thing is Part => thing.is === "part");
}

/** An ampoule is of glass unless its label says what else it is made of. */
function mayBeGlass(stock: Stock): boolean {
  const material = stock.facts.one("made-of")?.slots.material.name;
  return material === undefined || material.includes("glass");
}

/** The name behind a key of a liquid's amounts: `sodium` of `sodium (equivalents)`. */
export function nameOfKey(key: string): string {
  return key.replace(/ \(\w+\)$/, "");
}
