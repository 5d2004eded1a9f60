/** The containers of one run: what each holds, what may still be drawn from it, and how many had to be opened. */
import { named } from "./facts.ts";
import { Fraction } from "./fraction.ts";
import type { MaterialFact, Program, StockFact, SyringeFact } from "./program.ts";
import { Contents, nothing, part, type Shares, sum } from "./vessel.ts";

export interface Container {
  name: string;
  stock: StockFact | undefined;
  syringe: SyringeFact | undefined;
  holds: Shares;
  /** Vials of powder in it that nothing has dissolved yet. */
  powder: Fraction;
  /** mL of what it holds that stand in its line, beside the reservoir. */
  inLine: Fraction;
  /** mL that may still be drawn by its label; undefined for what was filled here. */
  left: Fraction | undefined;
}

export function countsOverfill({ actions, final }: Program, name: string): boolean {
  const filled = actions.findIndex((each) => "into" in each && each.into === name);
  return actions.some((each, i) => {
    if (each.do === "withdraw") return each.from === name && each.much === "added-volume and overfill";
    // The finished container goes by its label.
    const isTaken =
      name !== final &&
      "from" in each &&
      each.from === name &&
      each.do !== "discard" &&
      each.do !== "pool" &&
      each.do !== "pass";
    return isTaken && filled >= 0 && i > filled && !("much" in each && each.much === "all");
  });
}

/** More of one product than this nobody puts on a tray, whatever its label says. */
const mostOfOne = 100;

/** One more of a set is needed than stands there. */
export class OneMore extends Error {
  readonly set: string;
  readonly howMany: number;
  constructor(set: string, howMany: number) {
    super(`${howMany} more of ${set}`);
    this.set = set;
    this.howMany = howMany;
  }
}

/** So many of a set that the oracle does not follow. */
export class TooMany extends Error {}

/** A step that nobody can carry out. */
export class CannotBeDone extends Error {}

export type Filling = "label" | "least" | "most";

export class BenchTop {
  readonly contents: Contents;
  readonly sets = new Map<string, Container[]>();
  /** All that went into a sharps box, a sink or a sample tube. */
  wasted: Shares = nothing;
  readonly faults: string[] = [];
  private readonly counts: ReadonlyMap<string, number>;
  private readonly program: Program;

  constructor(program: Program, counts: ReadonlyMap<string, number>, filling: Filling) {
    this.program = program;
    this.counts = counts;
    this.contents = new Contents(program);
    for (const material of program.materials) this.sets.set(material.name, this.laidOut(material, filling));
  }

  private laidOut(material: MaterialFact, filling: Filling): Container[] {
    const stock = material.stock === undefined ? undefined : named(this.program.stocks, material.stock);
    const count = material.count ?? this.counts.get(material.name) ?? 1;
    return Array.from({ length: count }, () => {
      const fill = stock?.fill?.value;
      const really = fill?.plus(this.beyondLabel(material.name, stock!, filling));
      return {
        name: material.name,
        stock,
        syringe: material.syringe,
        holds: really ? new Map([[stock!.name, really]]) : nothing,
        powder: stock?.powder ? Fraction.one : Fraction.zero,
        inLine: Fraction.zero,
        left: fill,
      };
    });
  }

  /**
   * Overfill is counted by the label only where a step takes it out, or takes a part of what was mixed in the container: then as the
   * middle of what is declared.
   */
  private beyondLabel(name: string, stock: StockFact, filling: Filling): Fraction {
    if (!stock.overfill) return Fraction.zero;
    if (filling !== "label") return stock.overfill[filling].value;
    return countsOverfill(this.program, name) ? this.meanOverfill(stock) : Fraction.zero;
  }

  meanOverfill({ overfill }: StockFact): Fraction {
    return overfill ? overfill.least.value.plus(overfill.most.value).over(Fraction.of(2)) : Fraction.zero;
  }

  set(name: string): Container[] {
    const found = this.sets.get(name);
    if (!found) throw new CannotBeDone(`${name} is not on the bench`);
    return found;
  }

  one(name: string): Container {
    return this.set(name)[0]!;
  }

  volume(of: Container): Fraction {
    return this.contents.volume(of.holds);
  }

  private available(of: Container): Fraction {
    const holds = this.volume(of);
    return of.left ? holds.least(of.left) : holds;
  }

  /** The first of a set from which something can still be drawn. */
  source(name: string): Container {
    const set = this.set(name);
    const found = set.find((each) => this.available(each).isPositive);
    if (!found) this.askMore(name, Fraction.ratio(1n, 1000n));
    return found ?? set[0]!;
  }

  allIn(name: string): Fraction {
    return this.set(name).reduce((all, each) => all.plus(this.available(each)), Fraction.zero);
  }

  /** Takes a volume out of a set, one container after another. */
  take(name: string, volume: Fraction): Shares {
    let taken = nothing;
    let open = volume;
    for (const each of this.set(name)) {
      const holds = this.volume(each);
      const now = this.available(each).least(open);
      if (!now.isPositive) continue;
      const out = part(each.holds, now.over(holds));
      each.holds = part(each.holds, Fraction.one.minus(now.over(holds)));
      if (each.left) each.left = each.left.minus(now);
      taken = sum(taken, out);
      open = open.minus(now);
    }
    if (open.isPositive) {
      this.askMore(name, open);
      throw new CannotBeDone(`${name} lacks ${open} mL`);
    }
    return taken;
  }

  /** Stops the run where the recipe leaves open how many of a product there are, to begin again with as many as it takes. */
  private askMore(name: string, missing: Fraction): void {
    const { stock, count } = named(this.program.materials, name);
    if (stock === undefined || count !== undefined) return;
    const { fill: filled, powder } = named(this.program.stocks, stock);
    if (!filled && !powder) return;
    const fill = filled?.value;
    const more = fill?.isPositive ? missing.over(fill) : Fraction.one;
    const howMany = Number((more.n + more.d - 1n) / more.d);
    throw this.set(name).length + howMany > mostOfOne ? new TooMany(name) : new OneMore(name, howMany);
  }

  pour(shares: Shares, into: Container): void {
    const powder: Shares = into.powder.isZero ? nothing : new Map([[into.stock!.name, into.powder]]);
    into.powder = Fraction.zero;
    into.holds = sum(sum(into.holds, powder), shares);
    const most = (into.syringe?.capacity ?? into.stock?.capacity)?.value;
    if (most && this.volume(into).minus(into.inLine).against(most) > 0)
      this.faults.push(`${into.name} holds more than ${most} mL`);
  }
}
