/** A program while it is put together, with the choices that many shapes share. */
import { amountFigure, type DrugKind } from "./drugs.ts";
import { amountOf, broughtBy, displacementOf, named } from "./facts.ts";
import type { Figure } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type {
  Action,
  BandsFact,
  Condition,
  DoseFact,
  DrugFact,
  FluidFact,
  MaterialFact,
  OrderFact,
  Program,
  StockFact,
  SyringeFact,
} from "./program.ts";
import type { Random } from "./random.ts";
import { mL, syringeFor, water } from "./shelf.ts";

export class Draft implements Program {
  shape: string;
  readonly random: Random;
  drugs: DrugFact[] = [];
  fluids: FluidFact[] = [];
  bands: BandsFact[] = [];
  stocks: StockFact[] = [];
  materials: MaterialFact[] = [];
  order: OrderFact = { doses: [], method: "add-to-bag" };
  actions: Action[] = [];
  final = "bag";
  preparation: Program["preparation"] = { concentrations: [], volumes: [] };
  intermediates: Program["intermediates"] = [];
  /** What is stated of the finished container stands apart for these. */
  rows: readonly Condition[] = [];

  constructor(shape: string, random: Random) {
    this.shape = shape;
    this.random = random;
  }

  drug({ fact }: DrugKind): void {
    if (!this.drugs.includes(fact)) this.drugs.push(fact);
  }

  material(name: string, stock: StockFact, count?: number): void {
    if (!this.stocks.some((each) => each.name === stock.name)) this.stocks.push(stock);
    this.materials.push({ name, stock: stock.name, ...(count === undefined ? {} : { count }) });
  }

  fluidOf(name: string, fluid: FluidFact, stock: StockFact, count?: number): void {
    if (!this.fluids.includes(fluid)) this.fluids.push(fluid);
    this.material(name, stock, count);
  }

  syringe(name: string, syringe: SyringeFact, count?: number): void {
    this.materials.push({ name, syringe, ...(count === undefined ? {} : { count }) });
  }

  /** What one mL of a solution, or of a powder once it is dissolved in so much, brings of its drug. */
  strength(stockName: string, dissolvedIn?: Fraction): Fraction {
    const stock = named(this.stocks, stockName);
    const amount = broughtBy(this, stock);
    return dissolvedIn ? amount.over(dissolvedIn.plus(displacementOf(stock))) : amount;
  }

  /** A volume on the marks of the syringe that holds it, from so much to so much. */
  onMark(from: number, to: number): { volume: Fraction; syringe: SyringeFact } {
    const wanted = Fraction.ratio(BigInt(this.random.between(from * 100, to * 100)), 100n);
    const syringe = syringeFor(wanted);
    const reading = wanted.nearest(syringe.graduation.value);
    return { volume: reading.isPositive ? reading : syringe.graduation.value, syringe };
  }

  /**
   * An amount that a volume brings, as it may be written; near it where it cannot be written exactly, so that the reading on the
   * scale is still that volume.
   */
  amountIn(kind: DrugKind, volume: Fraction, strength: Fraction): Figure {
    const { random } = this;
    const { fact, ionUnits } = kind;
    const exactly = volume.times(strength);
    if (ionUnits.length > 0 && random.chance(0.5)) {
      const unit = fact.ion!.charge === 0 ? "mmol" : random.pick(ionUnits);
      const one = amountOf(this, fact.name, { value: Fraction.one, unit, ion: fact.ion!.name })!;
      return { value: exactly.over(one).toFigures(random.between(4, 5)), unit, ion: fact.ion!.name };
    }
    const { salt } = fact;
    const isSalt = salt !== undefined && random.chance(0.5);
    const more = salt ? { as: isSalt ? salt.name : salt.base } : {};
    const counted = isSalt ? exactly.times(salt.massForOneGram.value) : exactly;
    const found = amountFigure(random, kind, counted, more) ?? amountFigure(random, kind, counted.toFigures(4), more);
    if (!found) throw new RangeError(`${counted} of ${fact.name} cannot be written`);
    return found;
  }

  /** The same amount in another way of writing it, or the word for it. */
  asked(kind: DrugKind, volume: Fraction, strength: Fraction, dose: Figure): Figure | "dose" {
    const way = this.random.between(0, 4);
    if (way === 0) return { value: volume, unit: "mL" };
    if (way === 1) return "dose";
    return way === 2 ? dose : this.amountIn(kind, volume, strength);
  }

  doses(...doses: DoseFact[]): void {
    this.order = { ...this.order, doses };
  }

  /** Water in vials, drawn with a syringe of its own into each vial of a powder. Returns what went into each. */
  dissolved(vials: string, stock: StockFact, count: number | undefined): Fraction {
    const into = stock.powder!.label?.with.value ?? Fraction.of(this.random.pick([4, 5, 8, 10]));
    const fill = this.random.pick([10, 20]);
    this.fluidOf("water", water, { name: "water-vial", container: "vial", fluid: water.name, fill: mL(fill) });
    this.syringe("load", syringeFor(into));
    this.actions.push({
      do: "reconstitute",
      vials,
      each: count !== 1,
      much: { value: into, unit: "mL" },
      from: "water",
      using: "load",
    });
    return into;
  }
}
