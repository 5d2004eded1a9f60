/**
 * The simulated bench: what stands on it, and how a step finds it. The few actions that every verb is made of stand beside it: enter
 * (entering.ts), draw and waste (drawing.ts), push and receive (pushing.ts). Each action changes the state and notes what a careful
 * colleague would have said. It never stops at a fault: it notes it, does the nearest possible thing, and goes on, so that one slip
 * does not hide the next. Where a figure cannot be known, `unknown` is set, and nothing that rests on it is judged.
 */

import type { Stock } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import type { MeasureSlot, NameSlot, Spot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Quantity } from "../quantities/quantity.ts";
import type { Happening, HappeningData, HappeningKind } from "./happenings.ts";
import type { Liquid } from "./liquid.ts";
import type { OrderedDose, OrderPoint } from "./order-rows.ts";
import type { Overfill } from "./overfill.ts";
import type { Group, Setup } from "./setup.ts";
import type { StepRun } from "./step-run.ts";
import type { Part, Thing, Vessel } from "./things.ts";

export type Pressure = "equal pressure" | "negative pressure" | undefined;

/** What a first run found out and the next run needs: counts of derived sets, volumes that `added-volume` stands for. */
export interface Foresight {
  counts: Map<string, number>;
  addedVolume: Map<string, Exact>;
  /** What `withdraw` took out of each container, for the check of the method. */
  withdrawnFrom: Map<string, Exact>;
  /** Materials of which a part was taken after a drug was mixed into them, so that their declared overfill counts. */
  overfilled: Set<string>;
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
  /** The final volume that the order wants in a container of this name. */
  finalVolume(container: string): Quantity | undefined;
  /** The volume of diluent that the order wants. */
  diluentVolume: Quantity | undefined;
  /** The order has a line of it; why it is not known is then told there. */
  diluentVolumeStated: boolean;
  /** What the containers of this run hold beyond their label. */
  overfill: Overfill;
  /** What a draw really takes when it is read so; absent, just that. For the question how far a dose can miss. */
  errors?: Errors | undefined;
  /** The run by the labels, whose volumes stand on the sheet; absent where this is that run. */
  printed?: { readonly steps: readonly StepRun[] } | undefined;
}

/** Errors that a run is made with: of what a syringe delivers, and of what a label says. */
export interface Errors {
  /** mL that really move for a reading on a syringe. */
  volume(step: StepRun, syringe: Vessel, reading: Exact): Exact;
  /** Stock → what it really holds for each part that its label says. */
  strength: ReadonlyMap<string, Exact>;
  /** mL that stay in the tubing of a transfer and never arrive. */
  stays(step: StepRun): Exact;
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
  /** Filled up to a mark: what is read there is all that the syringe then holds. */
  toMark?: boolean;
  /** The volume is the label's own for a powder: it goes in as near as the eye gets it, and the label's strength is what comes of it. */
  byLabel?: boolean;
}

export class Bench {
  readonly happenings: Happening[] = [];
  readonly steps: StepRun[] = [];
  readonly demands: Foresight = {
    counts: new Map(),
    addedVolume: new Map(),
    withdrawnFrom: new Map(),
    overfilled: new Set(),
  };
  /** mL that a step could not draw from a set whose count is derived, however often it draws. */
  readonly shortages = new Map<string, Exact>();
  /** The first step that found such a set too small. Only its demands count: what follows it rests on what was missing. */
  shortIn: StepRun | undefined;
  /** Set when a figure could not be computed: what rests on it is not judged. */
  unknown = false;
  /** The last step in which a person checked the work. */
  lastCheck: StepRun | undefined;
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
      this.note("not-each-of", name, { name: name.name, count: found.length, each: false });
      this.unknown = true;
    }
    return found[0];
  }

  syringe(name: NameSlot): Vessel | undefined {
    const found = this.vessel(name, "a syringe");
    return found && this.asSyringe(found, name);
  }

  /** Every syringe of a set. */
  syringes(name: NameSlot): Vessel[] {
    return this.vessels([name], "a syringe").flatMap((found) => this.asSyringe(found, name) ?? []);
  }

  private asSyringe(found: Vessel, name: NameSlot): Vessel | undefined {
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

  // ---- what is known of drugs ----

  isHighAlert(drug: string): boolean {
    return this.setup.drugs.get(drug)?.facts.one("high-alert")?.slots.answer.choice === "yes";
  }

  isHazardous(liquid: Liquid): boolean {
    return liquid.drugs.some((drug) => this.isHazardousDrug(drug));
  }

  /** Anywhere on the bench. */
  hasHazardousDrug(): boolean {
    for (const drug of this.setup.drugs.keys()) if (this.isHazardousDrug(drug)) return true;
    return false;
  }

  isHazardousDrug(drug: string): boolean {
    return this.setup.drugs.get(drug)?.facts.one("hazard")?.slots.answer.choice === "hazardous";
  }

  /** A stock on the tray. */
  stock(name: string): Stock | undefined {
    for (const { item } of this.setup.groups.values())
      if (item?.kind === "stock" && item.name.name === name) return item;
    return undefined;
  }

  holdsDrug(stockName: string): boolean {
    return this.stock(stockName)?.facts.one("drug") !== undefined;
  }
}
