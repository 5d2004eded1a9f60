/** Carries out the actions of a program, one after another, as tests/spec/steps.md and its neighbours tell them. */
import { BenchTop, CannotBeDone, type Container, type Filling, OneMore } from "./bench-top.ts";
import { doseOf } from "./dose.ts";
import { amountOf, named } from "./facts.ts";
import type { Figure } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import { forPatient, rowFigure } from "./patients.ts";
import type { Action, Much, Patient, Program } from "./program.ts";
import { nothing, part, type Shares, sum } from "./vessel.ts";

export interface StepOutcome {
  /** mL that the step moved in all; undefined for what moves nothing. */
  moved: Fraction | undefined;
  /** What the container that the step made holds, once it is done. */
  made: Shares | undefined;
  /** The scale had no mark for what was wanted. */
  offMark: boolean;
}

export interface Outcome {
  top: BenchTop;
  steps: StepOutcome[];
  /** What cannot be as it is written: too much for a container, nothing left to draw. */
  faults: readonly string[];
  /** It broke off, and nothing after counts. */
  broken: boolean;
}

/** The program as it stands for the patient, with the volumes that each step measured, one after another, as a printed sheet states them. */
export interface Carried extends Outcome {
  program: Program;
  volumes: Fraction[][];
}

/**
 * @param volumes what each step measures where that is known beforehand: the printed sheet's, for a run with other filling
 */
export function carriedOut(
  whole: Program,
  patient: Patient = undefined,
  filling: Filling = "label",
  volumes?: readonly (readonly Fraction[])[],
): Carried {
  const program = forPatient(whole, patient, firstDose(whole, patient));
  const counts = new Map<string, number>();
  let added = new Map<string, Fraction>();
  for (;;) {
    const run = new Follower(program, patient, new BenchTop(program, counts, filling), added, volumes);
    try {
      const outcome = run.follow();
      const settled = [...run.addedNow].every(([name, volume]) => added.get(name)?.is(volume));
      if (settled || outcome.broken) return { ...outcome, program, volumes: run.volumes };
      added = run.addedNow;
    } catch (stopped) {
      if (!(stopped instanceof OneMore)) throw stopped;
      counts.set(stopped.set, (counts.get(stopped.set) ?? 1) + stopped.howMany);
    }
  }
}

/** What a condition on the dose is asked about. */
function firstDose(program: Program, patient: Patient): Fraction | undefined {
  const [first] = program.order.doses;
  if (!first || !program.order.range) return undefined;
  try {
    return doseOf(program, first.drug, patient);
  } catch (stopped) {
    if (stopped instanceof CannotBeDone) return undefined;
    throw stopped;
  }
}

class Follower {
  readonly volumes: Fraction[][] = [];
  /** Container → mL that steps put into one of it. */
  readonly addedNow = new Map<string, Fraction>();
  private readonly drawn = new Map<string, Fraction>();
  /** Set → what stands in it once it is filled. */
  private readonly primed = new Map<string, Shares>();
  private offMark = false;

  constructor(
    private readonly program: Program,
    private readonly patient: Patient,
    private readonly top: BenchTop,
    private readonly added: ReadonlyMap<string, Fraction>,
    private readonly printed: readonly (readonly Fraction[])[] | undefined,
  ) {}

  follow(): Outcome {
    const steps: StepOutcome[] = [];
    for (const action of this.program.actions) {
      this.offMark = false;
      this.volumes.push([]);
      try {
        const { moved, made } = this.step(action);
        steps.push({ moved, made: made?.holds, offMark: this.offMark });
      } catch (stopped) {
        if (!(stopped instanceof CannotBeDone)) throw stopped;
        return { top: this.top, steps, faults: [...this.top.faults, stopped.message], broken: true };
      }
    }
    return { top: this.top, steps, faults: this.top.faults, broken: false };
  }

  private step(action: Action): { moved?: Fraction; made?: Container } {
    const { top } = this;
    switch (action.do) {
      case "reconstitute": {
        const vials = top.set(action.vials);
        const moved = vials.map((vial) => {
          const taken = this.measured(action.much, action.from, action.using, action.vials);
          top.pour(top.take(action.from, taken), vial);
          vial.left = vial.stock?.powder?.label?.withdrawable.value;
          return taken;
        });
        return { moved: total(moved), made: vials[0]! };
      }
      case "draw": {
        const into = action.each ? top.set(action.into) : [top.one(action.into)];
        const moved = into.map((syringe) => this.load(action.much, action.from, syringe));
        return { moved: total(moved), made: into[0]! };
      }
      case "expel": {
        const syringe = top.one(action.from);
        const out = top.volume(syringe).minus(this.read(action.much.value, action.from));
        if (!out.isPositive) throw new CannotBeDone(`${action.from} has not so much in it`);
        this.waste(top.take(action.from, out));
        return {};
      }
      case "inject": {
        const into = action.each ? top.set(action.into) : [top.one(action.into)];
        const moved = into.map((target) => {
          const volume = action.much
            ? this.measured(action.much, action.from, action.from, action.into)
            : top.allIn(action.from);
          if (top.allIn(action.from).isZero) throw new CannotBeDone(`${action.from} is empty`);
          return this.push(top.take(action.from, volume), volume, target);
        });
        return { moved: total(moved), made: into[0]! };
      }
      case "add": {
        const into = action.each ? top.set(action.into) : [top.one(action.into)];
        const moved = into.map((target) => {
          const volume = this.load(action.much, action.from, top.one(action.using));
          return this.push(top.take(action.using, volume), volume, target);
        });
        return { moved: total(moved), made: into[0]! };
      }
      case "withdraw": {
        const from = action.each ? top.set(action.from) : [top.one(action.from)];
        const moved = from.map((bag) => {
          const volume = this.measured(action.much, action.from, action.using, action.from);
          if (volume.against(top.volume(bag)) > 0) throw new CannotBeDone(`${action.from} has not so much in it`);
          const share = volume.over(top.volume(bag));
          this.waste(part(bag.holds, share));
          bag.holds = part(bag.holds, Fraction.one.minus(share));
          if (bag.left) bag.left = bag.left.minus(volume);
          return volume;
        });
        return { moved: total(moved) };
      }
      case "make-up": {
        const target = top.one(action.into);
        const now = top.volume(target);
        const wanted = target.syringe
          ? this.read(this.madeUpTo(action.much), action.into).minus(now)
          : this.read(this.madeUpTo(action.much).minus(now), action.using!);
        if (!wanted.isPositive) throw new CannotBeDone(`${action.into} holds as much already`);
        return { moved: this.push(top.take(action.from, this.kept(wanted)), wanted, target), made: target };
      }
      case "transfer":
      case "fill": {
        const into = "each" in action && action.each ? top.set(action.into) : [top.one(action.into)];
        const moved = into.map((target) => {
          const device = action.do === "fill" ? action.using : undefined;
          const volume = this.measured(action.much, action.from, device, action.into);
          return this.push(top.take(action.from, volume), volume, target);
        });
        return { moved: total(moved), made: into[0]! };
      }
      case "pool": {
        const volume = top.allIn(action.from);
        return {
          moved: this.push(top.take(action.from, volume), volume, top.one(action.into)),
          made: top.one(action.into),
        };
      }
      case "sample": {
        const volume = this.measured(action.much, action.from, action.using, action.from);
        const taken = top.take(action.from, volume);
        top.pour(taken, top.one(action.using));
        return { moved: volume };
      }
      case "discard":
        for (const each of top.set(action.from)) {
          this.waste(each.holds);
          each.holds = new Map();
        }
        return {};
      case "pass": {
        const volume = top.allIn(action.from);
        const target = top.one(action.into);
        return { moved: this.push(top.take(action.from, volume), volume, target), made: target };
      }
      case "prime": {
        const through = top.take(action.from, this.kept(action.much.value));
        const room = named(this.program.materials, action.set).set!.value;
        const stays = room.least(action.much.value).over(action.much.value);
        this.primed.set(action.set, part(through, stays));
        this.waste(part(through, Fraction.one.minus(stays)));
        return {};
      }
      case "connect": {
        const stands = this.primed.get(action.set) ?? nothing;
        if (this.program.order.line === "included") {
          top.one(action.to).inLine = top.contents.volume(stands);
          top.pour(stands, top.one(action.to));
        } else this.waste(stands);
        return {};
      }
      case "own-line": {
        const filled = top.one(action.of);
        const room = filled.stock?.ownLine?.value;
        if (!room) throw new CannotBeDone(`${action.of} has no line of its own`);
        const taken = room.least(top.volume(filled));
        if (taken.against(room) < 0) top.faults.push(`the line of ${action.of} is not filled`);
        if (this.program.order.line === "excluded") this.waste(top.take(action.of, taken));
        return {};
      }
      case "activate":
      case "skipped":
        return {};
    }
  }

  private madeUpTo(much: Figure | "final-volume"): Fraction {
    if (much !== "final-volume") return much.value;
    const { finalVolume } = this.program.order;
    if (!finalVolume) throw new CannotBeDone("no final volume is ordered");
    return rowFigure(finalVolume, this.patient);
  }

  private load(much: Much, from: string, syringe: Container): Fraction {
    const volume = this.measured(much, from, syringe.name, from);
    const taken = this.top.take(from, volume);
    for (const drug of this.top.contents.drugs(taken)) {
      const amount = this.top.contents.amount(taken, drug);
      this.drawn.set(drug, (this.drawn.get(drug) ?? Fraction.zero).plus(amount));
    }
    this.top.pour(taken, syringe);
    return volume;
  }

  private push(shares: Shares, volume: Fraction, into: Container): Fraction {
    this.top.pour(shares, into);
    const sets = this.top.set(into.name).length;
    const each = volume.over(Fraction.of(sets));
    this.addedNow.set(into.name, (this.addedNow.get(into.name) ?? Fraction.zero).plus(each));
    return volume;
  }

  private waste(shares: Shares): void {
    this.top.wasted = sum(this.top.wasted, shares);
  }

  /** The volume that a step measures, as it can be read on the scale of the device. */
  private measured(much: Much, from: string, device: string | undefined, into: string): Fraction {
    const wanted = this.wanted(much, from, into);
    return device === undefined || much === "all" ? this.kept(wanted) : this.kept(this.read(wanted, device));
  }

  /** Notes a volume; a run by a printed sheet measures what is printed. */
  private kept(volume: Fraction): Fraction {
    const now = this.volumes.at(-1)!;
    const printed = this.printed?.[this.volumes.length - 1]?.[now.length];
    now.push(printed ?? volume);
    return printed ?? volume;
  }

  private wanted(much: Much, from: string, into: string): Fraction {
    const { top } = this;
    if (much === "all") return top.allIn(from);
    if (much === "added-volume" || much === "added-volume and overfill") {
      const more = much === "added-volume" ? Fraction.zero : top.meanOverfill(top.one(into).stock!);
      return (this.added.get(into) ?? Fraction.zero).plus(more);
    }
    if (much === "diluent-volume") {
      const [row] = this.program.order.diluentVolumes ?? [];
      if (!row) throw new CannotBeDone("no volume of diluent is ordered");
      return rowFigure(row, this.patient);
    }
    if (isFigure(much) && much.unit.match(/^(mcL|mL|L)$/)) return much.value;
    const source = top.source(from);
    const held = top.contents.drugs(source.holds);
    const asked = typeof much === "string" || isFigure(much) ? undefined : "doseOf" in much ? much.doseOf : much.restOf;
    const drug = asked === undefined ? held[0] : held.find((each) => each === asked);
    if (drug === undefined) throw new CannotBeDone(`${from} holds no drug`);
    const strength = top.contents.amount(source.holds, drug).over(top.volume(source));
    return this.amount(much, drug).over(strength);
  }

  private amount(much: Much, drug: string): Fraction {
    if (much === "dose") return doseOf(this.program, drug, this.patient);
    if (typeof much === "object" && "doseOf" in much) return doseOf(this.program, drug, this.patient);
    if (much === "rest of dose" || (typeof much === "object" && "restOf" in much)) {
      const rest = doseOf(this.program, drug, this.patient).minus(this.drawn.get(drug) ?? Fraction.zero);
      if (!rest.isPositive) throw new CannotBeDone(`nothing is left of the dose of ${drug}`);
      return rest;
    }
    if (typeof much === "string") throw new CannotBeDone(`${much} is no amount`);
    const amount = amountOf(this.program, drug, much);
    if (!amount) throw new CannotBeDone(`${much.unit} of ${drug} cannot be worked out`);
    return amount;
  }

  private read(volume: Fraction, device: string): Fraction {
    const { graduation } = this.top.one(device).syringe!;
    const reading = volume.nearest(graduation.value);
    if (!reading.is(volume)) this.offMark = true;
    return reading;
  }
}

function isFigure(much: Much): much is Figure {
  return typeof much === "object" && "unit" in much;
}

function total(volumes: readonly Fraction[]): Fraction {
  return volumes.reduce((sum, each) => sum.plus(each), Fraction.zero);
}
