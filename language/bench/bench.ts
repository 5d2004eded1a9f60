/**
 * The simulated bench: what stands on it, and the few actions that every verb is made of: find, enter, draw, push, waste. Each
 * action changes the state and notes what a careful colleague would have said. It never stops at a fault: it notes it, does the
 * nearest possible thing, and goes on, so that one slip does not hide the next. Where a figure cannot be known, `unknown` is
 * set, and nothing that rests on it is judged.
 */

import type { Policy } from "../model/policy.ts";
import type { MeasureSlot, NameSlot, Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { Happening, HappeningData, HappeningKind } from "./happenings.ts";
import { inLines } from "./lines.ts";
import { type Liquid, noLiquid, pour, scaled, takePart } from "./liquid.ts";
import type { OrderedDose, OrderPoint } from "./order.ts";
import { type Group, mostOfOne, type Overfill, type Setup } from "./setup.ts";
import type { StepRun } from "./step-run.ts";
import { hasEntry, isFilter, isNeedle, isSealedVial, isSharp, type Part, type Thing, type Vessel } from "./things.ts";

export type Pressure = "equal pressure" | "negative pressure" | undefined;

/** What a first run found out and the next run needs: counts of derived sets, volumes that `added-volume` stands for. */
export interface Foresight {
  counts: Map<string, number>;
  addedVolume: Map<string, Exact>;
  /** What `withdraw` took out of each container, for the check of the method. */
  withdrawnFrom: Map<string, Exact>;
}

export interface BenchOptions {
  setup: Setup;
  policy: Policy;
  doses: readonly OrderedDose[];
  point: OrderPoint;
  /** Drugs that stand on the tray although the order names none of them: nothing is computed from them (stray-drugs.ts). */
  leftAside: ReadonlySet<string>;
  /** A line of the order that states a dose cannot be read, which is told there. */
  doseUnread: boolean;
  foresight: Foresight;
  /** Names of the finished containers. */
  finals: ReadonlySet<string>;
  /** Names of the containers of declared intermediates. */
  intermediates: ReadonlySet<string>;
  makes: number;
  /** Whether the ordered volume counts what a filled line holds; undefined where the order does not say. */
  line: "included" | "excluded" | undefined;
  /** What the containers of this run hold beyond their label. */
  overfill: Overfill;
  /** What a draw really takes when it is read so; absent, just that. For the question how far a dose can miss. */
  errors?: Errors | undefined;
}

/** Errors that a run is made with: of what a syringe delivers, and of what a label says. */
export interface Errors {
  /** mL that really move for a reading on a syringe. */
  volume(step: StepRun, syringe: Vessel, reading: Exact): Exact;
  /** Stock → what it really holds for each part that its label says. */
  strength: ReadonlyMap<string, Exact>;
}

/** How a volume was asked for. */
export interface Ask {
  volume: Exact;
  /** The measure written in the step, when a volume was stated. */
  stated: MeasureSlot | undefined;
  /** All that is there: the plunger is drawn until no more comes, and no mark of the scale is looked for. */
  all?: boolean;
  /** The last load of a volume larger than the syringe: what it is read wrong by is a small part of the whole. */
  lastLoad?: boolean;
  /** The volume is the label's own for a powder: it goes in as near as the eye gets it, and the label's strength is what comes of it. */
  byLabel?: boolean;
}

/** Micrometre; what is coarser lets splinters of a glass ampoule through (filter needles and straws for ampoules have this pore). */
const coarsestForGlass = Exact.of(5);
const micrometre = findUnit("micrometre").unit!;

/** Micrometre; undefined where the device does not say. */
function poreOf(part: Part): Exact | undefined {
  const pore = part.device.facts.one("pore")?.slots.pore.quantity;
  return pore && inBase(pore).over(inBase({ value: Exact.one, unit: micrometre }));
}

export class Bench {
  readonly happenings: Happening[] = [];
  readonly steps: StepRun[] = [];
  readonly demands: Foresight = { counts: new Map(), addedVolume: new Map(), withdrawnFrom: new Map() };
  /** Set when a figure could not be computed: what rests on it is not judged. */
  unknown = false;
  /** The last step in which a person checked the work. */
  lastCheck: StepRun | undefined;
  /** Drug → coarsest pore (micrometre) of the filters that all of it passed. */
  readonly filteredThrough = new Map<string, Exact>();
  /** Drugs that passed a part of which nothing is known. */
  readonly passedUnknown = new Set<string>();
  current!: StepRun;

  constructor(readonly options: BenchOptions) {}

  get setup(): Setup {
    return this.options.setup;
  }

  get policy(): Policy {
    return this.options.policy;
  }

  note<K extends HappeningKind>(kind: K, spot: Spot, data: HappeningData[K]): void {
    this.happenings.push({ kind, step: this.current, spot: { start: spot.start, end: spot.end }, data } as Happening);
  }

  // ---- finding ----

  group(name: NameSlot): Group | undefined {
    const group = this.setup.groups.get(name.name);
    if (!group) this.note("unknown-thing", name, { name: name.name });
    return group;
  }

  /** The things behind names; unknown names are noted once, things of unknown stock are left out. */
  things(names: readonly NameSlot[]): Thing[] {
    const all = names.flatMap((name) => this.group(name)?.things ?? []);
    for (const thing of all) this.touch(thing, names[0]!);
    return all;
  }

  vessels(names: readonly NameSlot[], needed = "a container"): Vessel[] {
    const found: Vessel[] = [];
    for (const name of names) {
      const things = this.group(name)?.things ?? [];
      if (things.length === 0) this.current.lacksContainer = true;
      for (const thing of things) {
        this.touch(thing, name);
        if (thing.is === "vessel") found.push(thing);
        else {
          this.note("wrong-kind-of-thing", name, { thing, needed });
          this.current.lacksContainer = true;
        }
      }
    }
    return found;
  }

  /** One vessel; a set of several needs `each of`, and taking the first silently would be a guess. */
  vessel(name: NameSlot, needed = "a container"): Vessel | undefined {
    const found = this.vessels([name], needed);
    if (found.length > 1) {
      this.note("not-each-of", name, { name: name.name, count: found.length });
      this.unknown = true;
    }
    return found[0];
  }

  syringe(name: NameSlot): Vessel | undefined {
    const found = this.vessel(name, "a syringe");
    if (!found) return undefined;
    if (found.kind === "syringe" || found.kind === "prefilled-syringe") return found;
    this.note("wrong-kind-of-thing", name, { thing: found, needed: "a syringe" });
    this.current.lacksContainer = true;
    return undefined;
  }

  part(name: NameSlot): Part | undefined {
    for (const thing of this.group(name)?.things ?? []) {
      if (thing.is === "part") {
        if (thing.on || thing.discarded) continue;
        this.touch(thing, name);
        return thing;
      }
      this.note("wrong-kind-of-thing", name, { thing, needed: "a needle, filter or other part" });
      return undefined;
    }
    const first = this.setup.groups.get(name.name)?.things[0];
    return first?.is === "part" ? first : undefined;
  }

  private touch(thing: Thing, spot: Spot): void {
    if (!this.current.touched.includes(thing)) this.current.touched.push(thing);
    const gone = thing.discarded;
    if (gone && gone !== this.current) this.note("used-after-discard", spot, { thing, since: gone });
  }

  isFinal(vessel: Vessel): boolean {
    return this.options.finals.has(vessel.name);
  }

  // ---- entering a container with what is on the syringe ----

  /** A needle, a spike or tubing goes through the stopper or port of `vessel`, where it has one. */
  pierce(vessel: Vessel, spot: Spot): void {
    this.watchContent(vessel, spot);
    if (!hasEntry(vessel)) return;
    if (!vessel.disinfected) this.note("entry-not-disinfected", spot, { vessel });
    vessel.opened ??= this.current;
    vessel.punctures++;
    // A bag's port is touched and exposed between entries; a vial's stopper stays under the hand during one session.
    if (!isSealedVial(vessel)) vessel.disinfected = undefined;
  }

  /** Whether what the label says of the content has a value. Where it has none, nobody knows how much there is or what of it moves. */
  watchContent(vessel: Vessel, spot: Spot): boolean {
    if (!vessel.contentUnread) return true;
    this.note("amount-not-computable", spot, { why: "content-unread", vessel, drug: "" });
    this.unknown = true;
    return false;
  }

  /** The syringe goes into `vessel`, to draw or to push. */
  enter(vessel: Vessel, syringe: Vessel, spot: Spot): void {
    if (vessel.kind === "ampoule" && !vessel.opened) this.note("ampoule-not-opened", spot, { vessel });
    this.pierce(vessel, spot);
    const tip = syringe.attached.at(-1);
    if (!tip) {
      const bySyringe = vessel.kind === "syringe" || vessel.kind === "prefilled-syringe";
      const joined = syringe.unknownParts.length > 0 || (bySyringe && carriesAnything(vessel));
      if (!joined) this.note("no-needle-attached", spot, { syringe, other: vessel });
      return;
    }
    if (!this.current.through.includes(tip)) this.current.through.push(tip);
    if (hasEntry(vessel) && isNeedle(tip)) {
      tip.punctures++;
      if (tip.punctures === this.policy.needlePunctures + 1) {
        this.note("needle-too-many-punctures", spot, {
          needle: tip,
          punctures: tip.punctures,
          most: this.policy.needlePunctures,
        });
      }
    }
    if (tip.kind === "spike" || tip.kind === "vented-spike") {
      if (vessel.stock?.facts.one("spike")?.slots.answer.choice === "forbidden") {
        this.note("spike-forbidden", spot, { vessel, part: tip });
      }
    }
    if (tip.kind === "vented-spike" && (vessel.kind === "bag" || vessel.kind === "empty-bag")) {
      this.note("vented-spike-in-bag", spot, { vessel, part: tip });
    }
    if (tip.kind === "transfer-device" && vessel.kind === "ampoule") {
      this.note("transfer-device-on-ampoule", spot, { vessel, part: tip });
    }
    if (hasEntry(vessel) && isSharp(tip) && !mayBeClosed(syringe)) this.watchClosed(vessel, syringe, tip, spot);
  }

  /** A hazardous drug goes through a stopper or port with no closed transfer device. What came from an ampoule had none that fits. */
  private watchClosed(vessel: Vessel, syringe: Vessel, part: Part, spot: Spot): void {
    const drugs = new Set([vessel, syringe].flatMap(({ liquid, powder }) => [...liquid.drugs, powder?.drug ?? ""]));
    const held = new Set([vessel, syringe].flatMap(({ liquid, stock }) => [...liquid.stocks, stock?.name.name ?? ""]));
    for (const { item } of this.setup.groups.values()) {
      if (item?.kind !== "stock" || !held.has(item.name.name)) continue;
      const drug = item.facts.one("drug")?.slots.drug.name;
      if (drug === undefined || !drugs.has(drug) || item.facts.one("container")?.slots.kind.choice === "ampoule")
        continue;
      if (this.isHazardousDrug(drug)) {
        this.note("hazardous-not-closed", spot, { vessel, part, drug });
        return;
      }
    }
  }

  /** Liquid passes what is on the syringe, one way or the other. */
  private passParts(
    syringe: Vessel,
    liquid: Liquid,
    way: "drawn" | "pushed",
    from: Vessel | undefined,
    spot: Spot,
  ): Liquid {
    let passed = liquid;
    for (const part of syringe.attached) {
      if (!isFilter(part)) continue;
      if (part.passed && part.passed.way !== way) {
        this.note("filter-used-both-ways", spot, { filter: part, first: part.passed, way });
      }
      part.passed ??= { way, step: this.current };
      this.countFiltered(part, from, spot);
      const pore = poreOf(part);
      for (const drug of liquid.drugs) {
        this.note("passed-filter", spot, { filter: part, drug });
        if (!pore) continue;
        const before = this.filteredThrough.get(drug);
        if (!before || pore.isBelow(before)) this.filteredThrough.set(drug, pore);
      }
      if (!pore || pore.isAtMost(coarsestForGlass)) passed = { ...passed, glass: false };
    }
    if (syringe.unknownParts.length > 0) {
      for (const drug of liquid.drugs) this.passedUnknown.add(drug);
      passed = { ...passed, glass: false };
    }
    return passed;
  }

  private countFiltered(part: Part, from: Vessel | undefined, spot: Spot): void {
    if (!from?.stock) return;
    const key = `${from.name} ${from.index}`;
    if (part.filtered.includes(key)) return;
    part.filtered.push(key);
    const stated = from.stock.facts.one("one-filter-for")?.slots.count.value;
    const allowed = stated?.isWhole() ? Number(stated.toText()) : 1;
    if (part.filtered.length === allowed + 1) {
      this.note("filter-shared", spot, { filter: part, allowed });
    }
  }

  // ---- drawing ----

  /**
   * Draws from the vessels, emptying one after another. The volume that moves is the reading on the syringe's scale.
   * @returns mL that moved
   */
  draw(from: readonly Vessel[], syringe: Vessel, ask: Ask, spot: Spot, pressure: Pressure, onTop = false): Exact {
    const before = syringe.liquid.volume;
    const reading = this.reading(syringe, before, ask, spot);
    if (syringe.capacity && before.plus(reading).isAbove(syringe.capacity)) {
      // Once for the whole draw, however many containers it empties.
      this.note("draw-beyond-syringe", spot, { syringe, asked: reading, already: before, capacity: syringe.capacity });
    }
    let rest = reading;
    for (const vessel of from) {
      if (!rest.isPositive()) break;
      const available = this.available(vessel);
      if (!available.isPositive()) continue;
      const part = Exact.least(available, rest);
      this.drawFrom(vessel, syringe, part, spot, pressure, onTop);
      rest = rest.minus(part);
    }
    const isKnown = from.map((vessel) => this.watchContent(vessel, spot)).every(Boolean);
    if (isKnown && rest.isPositive()) this.short(from, reading, rest, spot);
    const moved = reading.minus(Exact.greatest(rest, Exact.zero));
    this.current.moved = (this.current.moved ?? Exact.zero).plus(moved);
    return moved;
  }

  /** What the label lets one draw: never the overfill, never more than is there. */
  available(vessel: Vessel): Exact {
    return vessel.yields && isStockContainer(vessel)
      ? Exact.least(vessel.yields, vessel.liquid.volume)
      : vessel.liquid.volume;
  }

  private drawFrom(
    vessel: Vessel,
    syringe: Vessel,
    volume: Exact,
    spot: Spot,
    pressure: Pressure,
    onTop: boolean,
  ): void {
    this.enter(vessel, syringe, spot);
    this.watchSource(vessel, syringe, spot, onTop);
    this.watchLoaded(vessel, syringe, spot);
    const loaded = syringe.drawnBy;
    // More drawn on top up to a mark: air from the draw before would stand in for liquid.
    if (!syringe.airExpelled && loaded && loaded !== this.current && syringe.liquid.volume.isPositive()) {
      this.note("air-not-expelled", spot, { syringe, drawn: loaded, target: syringe });
    }
    const { taken, left } = this.taken(vessel, syringe, volume);
    vessel.liquid = left;
    if (vessel.yields) vessel.yields = vessel.yields.minus(volume);
    vessel.drawnBy ??= this.current;
    vessel.inspected = undefined;
    // Once some has left a syringe, its scale no longer speaks of a dose.
    if (vessel.kind === "syringe") vessel.airExpelled = true;
    this.balanceAfterDraw(vessel, syringe, volume, spot, pressure);
    const passed = this.passParts(syringe, taken, "drawn", vessel, spot);
    // Emptied into a container it is mixed there; labelled or drawn from, it has to be mixed itself.
    if (!syringe.liquid.volume.isPositive()) syringe.unmixed = undefined;
    else if (!isSameStock(syringe.liquid, passed)) syringe.unmixed = this.current;
    if (passed.glass && this.isFinal(syringe)) {
      this.note("glass-not-filtered", spot, { target: syringe, drugs: passed.drugs });
    }
    syringe.liquid = pour(syringe.liquid, passed);
    syringe.drawnBy = this.current;
    syringe.airExpelled = false;
    for (const stock of taken.stocks) if (!syringe.wettedBy.includes(stock)) syringe.wettedBy.push(stock);
    this.current.movements.push({
      how: "draw",
      from: vessel,
      to: syringe,
      asked: volume,
      moved: volume,
      liquid: passed,
      spot,
    });
  }

  /** What leaves a vessel for a reading. With errors, a container used up by its label gives in proportion, so that none runs dry. */
  private taken(vessel: Vessel, syringe: Vessel, reading: Exact): { taken: Liquid; left: Liquid } {
    const { errors } = this.options;
    if (!errors) return takePart(vessel.liquid, reading);
    const real = errors.volume(this.current, syringe, reading);
    if (isConsumable(vessel) || real.isAbove(vessel.liquid.volume)) {
      const { taken, left } = takePart(vessel.liquid, reading);
      return { taken: scaled(taken, real.over(reading)), left };
    }
    return takePart(vessel.liquid, real);
  }

  private watchSource(vessel: Vessel, syringe: Vessel, spot: Spot, onTop: boolean): void {
    if (vessel.undissolved) this.note("drawn-before-dissolved", spot, { vessel, since: vessel.undissolved });
    if (vessel.unmixed) this.note("drawn-before-mixed", spot, { vessel, since: vessel.unmixed });
    if (vessel.sealed) this.note("touched-after-seal", spot, { vessel, since: vessel.sealed });
    const had = syringe.wettedBy.filter((stock) => this.holdsDrug(stock) && !vessel.liquid.stocks.includes(stock));
    if (had.length > 0 && !onTop && vessel.stock) {
      this.note("second-drug-in-syringe", spot, { syringe, had, now: vessel.stock.name.name });
    }
  }

  /** Other liquid on top of a high-alert drug hides the volume that was drawn of it. */
  private watchLoaded(vessel: Vessel, syringe: Vessel, spot: Spot): void {
    const { drawnBy } = syringe;
    if (!drawnBy || drawnBy === this.current || !this.isFinal(syringe)) return;
    if (this.lastCheck && this.lastCheck.number > drawnBy.number) return;
    const onlyMore = syringe.liquid.stocks.every((stock) => vessel.liquid.stocks.includes(stock));
    if (onlyMore) return;
    for (const drug of syringe.liquid.drugs) {
      if (this.isHighAlert(drug)) this.note("high-alert-hidden-unchecked", spot, { drug, syringe, drawn: drawnBy });
    }
  }

  private isHighAlert(drug: string): boolean {
    return this.setup.drugs.get(drug)?.facts.one("high-alert")?.slots.answer.choice === "yes";
  }

  private holdsDrug(stockName: string): boolean {
    for (const group of this.setup.groups.values()) {
      if (group.item?.kind === "stock" && group.item.name.name === stockName)
        return group.item.facts.one("drug") !== undefined;
    }
    return false;
  }

  private balanceAfterDraw(vessel: Vessel, syringe: Vessel, volume: Exact, spot: Spot, pressure: Pressure): void {
    if (vessel.kind === "ampoule") {
      if (pressure) this.note("air-into-ampoule", spot, { vessel });
      return;
    }
    if (!isSealedVial(vessel) || mayVent(syringe)) return;
    const hazardous = this.isHazardous(vessel.liquid);
    if (pressure === "equal pressure") {
      if (hazardous) this.note("hazardous-equal-air", spot, { vessel, volume });
      return;
    }
    vessel.pressure = vessel.pressure.minus(volume);
    if (pressure === "negative pressure" || hazardous) return;
    if (vessel.pressure.negated().isAbove(this.policy.equalAirAbove)) {
      this.note("no-equal-air", spot, { vessel, volume });
      vessel.pressure = Exact.zero;
    }
  }

  isHazardous(liquid: Liquid): boolean {
    return liquid.drugs.some((drug) => this.isHazardousDrug(drug));
  }

  private isHazardousDrug(drug: string): boolean {
    return this.setup.drugs.get(drug)?.facts.one("hazard")?.slots.answer.choice === "hazardous";
  }

  /** The mark at which the plunger stops, half up, less what was in the syringe before. */
  private reading(syringe: Vessel, before: Exact, ask: Ask, spot: Spot): Exact {
    const { graduation, capacity } = syringe;
    const place = ask.stated ?? spot;
    if (capacity && ask.volume.isPositive()) {
      const smallest = capacity.times(this.policy.smallestShare);
      if (!ask.lastLoad && ask.volume.isBelow(smallest))
        this.note("too-small-to-measure", place, { syringe, asked: ask.volume, smallest });
      const most = capacity.times(this.policy.largestShare);
      const total = before.plus(ask.volume);
      if (total.isAbove(most) && total.isAtMost(capacity))
        this.note("syringe-too-full", place, { syringe, total, most });
    }
    if (!graduation?.isPositive() || ask.all) return ask.volume;
    const total = before.plus(ask.volume).toNearest(graduation);
    const reading = total.minus(before);
    if (!reading.equals(ask.volume)) {
      const stated = ask.stated !== undefined;
      const byLabel = ask.byLabel === true;
      const data = { syringe, asked: ask.volume, reading, interval: graduation, stated, byLabel };
      this.note("not-on-graduation", place, data);
    }
    return ask.byLabel ? ask.volume : reading;
  }

  private short(from: readonly Vessel[], asked: Exact, rest: Exact, spot: Spot): void {
    const first = from[0];
    if (!first) return;
    const group = this.setup.groups.get(first.name);
    const full = this.fullYield(first);
    if (group && from.length > 0 && full.isPositive() && isConsumable(first)) {
      const needed = group.things.length + Number(rest.over(full).ceil().toText());
      // A count that no bench can hold is a wrong figure, told as a shortage with its volumes.
      if (group.stated === undefined && needed <= mostOfOne) {
        const before = this.demands.counts.get(first.name) ?? 0;
        this.demands.counts.set(first.name, Math.max(before, needed));
        return;
      }
      if (group.stated !== undefined && group.things.length > 1) {
        this.note("too-few-containers", spot, { name: first.name, stated: group.stated, needed });
        return;
      }
    }
    this.note("draw-beyond-content", spot, { vessel: first, asked, held: asked.minus(rest) });
  }

  private fullYield(vessel: Vessel): Exact {
    const drawn = this.steps
      .concat(this.current)
      .flatMap((s) => s.movements)
      .filter((m) => m.from === vessel)
      .reduce((sum, m) => sum.plus(m.moved), Exact.zero);
    return this.available(vessel).plus(drawn);
  }

  // ---- pushing ----

  /** Pushes `volume` mL of the syringe's content into `target`. @returns mL that moved */
  push(syringe: Vessel, target: Vessel, volume: Exact, spot: Spot, pressure: Pressure): Exact {
    const held = syringe.liquid.volume;
    if (!held.isPositive()) {
      // Where a draw before could not be computed, an empty syringe is no news.
      if (!this.unknown) this.note("nothing-to-push", spot, { syringe });
      return Exact.zero;
    }
    if (volume.isAbove(held)) this.note("push-beyond-content", spot, { syringe, asked: volume, held });
    const moved = Exact.least(volume, held);
    this.enter(target, syringe, spot);
    this.watchTarget(syringe, target, spot);
    this.watchReceiving(syringe, target, spot);
    const { drawnBy } = syringe;
    // A verb that draws and pushes in one movement has its air seen to in its own caution.
    if (!syringe.airExpelled && drawnBy && drawnBy !== this.current && !this.returns(syringe, target)) {
      this.note("air-not-expelled", spot, { syringe, drawn: drawnBy, target });
      syringe.airExpelled = true;
    }
    const { errors } = this.options;
    // A part is pushed out by the scale; all of it is pushed to the stop.
    const real = errors && moved.isBelow(held) ? Exact.least(errors.volume(this.current, syringe, moved), held) : moved;
    const { taken, left } = takePart(syringe.liquid, real);
    syringe.liquid = left;
    const passed = this.passParts(syringe, taken, "pushed", undefined, spot);
    this.receive(target, passed, spot);
    if (isSealedVial(target) && !mayVent(syringe) && pressure !== "equal pressure") {
      target.pressure = target.pressure.plus(moved);
    }
    this.current.moved = (this.current.moved ?? Exact.zero).plus(moved);
    this.current.movements.push({ how: "push", from: syringe, to: target, asked: volume, moved, liquid: passed, spot });
    return moved;
  }

  /** Drug goes back into the stock container that it came from. */
  private returns(syringe: Vessel, target: Vessel): boolean {
    const own = target.stock?.name.name;
    return own !== undefined && syringe.wettedBy.includes(own) && this.holdsDrug(own) && !target.powder;
  }

  private watchTarget(syringe: Vessel, target: Vessel, spot: Spot): void {
    if (this.returns(syringe, target)) {
      this.note("returned-to-stock", spot, { vessel: target, syringe });
      // The bubble goes back with it.
      syringe.airExpelled = true;
    }
    for (const drug of syringe.liquid.drugs) {
      const alert = this.isHighAlert(drug);
      const drawn = syringe.drawnBy;
      const checked = this.lastCheck && drawn && this.lastCheck.number > drawn.number;
      if (alert && !checked && this.isFinal(target)) this.note("high-alert-added-unchecked", spot, { drug, target });
    }
  }

  /** A syringe is filled through its own free tip, and by its scale only once its air is out. */
  private watchReceiving(syringe: Vessel, target: Vessel, spot: Spot): void {
    if (target.kind !== "syringe") return;
    const by = target.attached.at(-1);
    const part = syringe.attached.at(-1);
    if (by && part && closesTip.has(by.kind)) this.note("tip-occupied", spot, { syringe: target, by, part });
    const drawn = target.drawnBy;
    if (!target.airExpelled && drawn && drawn !== this.current && target.liquid.volume.isPositive()) {
      this.note("air-not-expelled", spot, { syringe: target, drawn, target });
      target.airExpelled = true;
    }
  }

  /** Liquid arrives in a container, by whatever way. */
  receive(target: Vessel, liquid: Liquid, spot: Spot): void {
    if (target.sealed) this.note("touched-after-seal", spot, { vessel: target, since: target.sealed });
    if (target.labelled && this.isFinal(target)) this.note("labelled-before-filled", spot, { vessel: target });
    if (target.running) this.note("added-while-running", spot, { vessel: target, since: target.running });
    if (target.stock?.facts.one("premixed")?.slots.answer.choice === "yes")
      this.note("added-to-premixed", spot, { vessel: target });
    if (target.unmixed && target.kind !== "syringe")
      this.note("added-before-mixed", spot, { vessel: target, since: target.unmixed });
    if (liquid.glass && this.isFinal(target)) {
      this.note("glass-not-filtered", spot, { target, drugs: liquid.drugs });
    }
    const present = {
      drugs: target.liquid.drugs,
      fluids: [...target.liquid.fluids.keys()],
      volume: target.liquid.volume,
    };
    const after = pour(target.liquid, this.isFinal(target) ? { ...liquid, glass: false } : liquid);
    this.note("addition", spot, {
      vessel: target,
      drugs: liquid.drugs,
      fluids: [...liquid.fluids.keys()],
      present,
      after,
    });
    // What stands in a line does not meet what comes into the reservoir.
    const mixes = target.liquid.volume.isAbove(inLines(target)) && !isSameStock(target.liquid, liquid);
    target.liquid = after;
    if (target.yields) target.yields = target.yields.plus(liquid.volume);
    if (mixes) target.unmixed = this.current;
    target.mixed = undefined;
    target.inspected = undefined;
    const inside = target.liquid.volume.minus(inLines(target));
    if (target.capacity && inside.isAbove(target.capacity)) {
      const data = { vessel: target, volume: inside, capacity: target.capacity };
      this.note("container-overfilled", spot, data);
    }
    const key = vesselKey(target);
    this.demands.addedVolume.set(key, (this.demands.addedVolume.get(key) ?? Exact.zero).plus(liquid.volume));
  }

  /** Takes liquid out and throws it away. */
  waste(vessel: Vessel, syringe: Vessel | undefined, ask: Ask, spot: Spot): Exact {
    if (syringe) {
      const moved = this.draw([vessel], syringe, ask, spot, undefined);
      syringe.liquid = noLiquid;
      const movement = this.current.movements.at(-1);
      if (movement) movement.how = "waste";
      return moved;
    }
    const moved = Exact.least(ask.volume, vessel.liquid.volume);
    if (moved.isPositive()) vessel.liquid = takePart(vessel.liquid, moved).left;
    return moved;
  }
}

/** What has to come off before anything else goes into the tip; a connector is made for it. */
const closesTip: ReadonlySet<string> = new Set([
  "needle",
  "filter-needle",
  "filter-straw",
  "spike",
  "vented-spike",
  "cap",
]);

/** Both from one and the same product alone, so that nothing is left to mix. */
function isSameStock(held: Liquid, added: Liquid): boolean {
  return held.stocks.length === 1 && added.stocks.length === 1 && held.stocks[0] === added.stocks[0];
}

/** Tells vessels of one set apart. */
export function vesselKey(vessel: Vessel): string {
  return `${vessel.name} ${vessel.index}`;
}

/** Bought full, so that the label says what may be drawn; a bag in which something was mixed is read by its volume. */
function isStockContainer(vessel: Vessel): boolean {
  return vessel.stock !== undefined && vessel.liquid.stocks.length <= vessel.yieldsOf;
}

/** Used up one after another, so that their number can be derived. */
export function isConsumable(vessel: Vessel): boolean {
  return vessel.kind === "ampoule" || vessel.kind === "vial" || vessel.kind === "powder-vial";
}

/** Air passes by what is on the syringe; by what is not known it may. */
export function mayVent({ attached, unknownParts }: Vessel): boolean {
  return (
    unknownParts.length > 0 || attached.some((part) => part.kind === "vented-spike" || part.kind === "transfer-device")
  );
}

function mayBeClosed({ attached, unknownParts }: Vessel): boolean {
  return unknownParts.length > 0 || attached.some((part) => part.kind === "transfer-device");
}

function carriesAnything({ attached, unknownParts }: Vessel): boolean {
  return attached.length + unknownParts.length > 0;
}
