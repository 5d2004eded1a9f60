/**
 * A library with one recipe as plain data, from which both sides work: the judge reads it as it is, the language reads the text that is
 * written of it. The steps are always the same few, so that nothing but the verdicts is in question.
 */
import type { Fraction } from "../oracle/fraction.ts";
import type { DrugFact, FluidFact, StockFact } from "../oracle/program.ts";

export interface Edge {
  /** In the unit of its limit. */
  value: Fraction;
  /** `from`, `up to`; otherwise `above`, `below`. */
  included: boolean;
}

export interface Limits {
  low?: Edge;
  high?: Edge;
  unit: string;
}

export interface Condition extends Limits {
  input: "weight" | "age" | "dose";
}

export type LimitKind = "dose" | "concentration" | "usual-concentration" | "rate";

export interface LimitRow extends Limits {
  kind: LimitKind;
  ion?: string;
  as?: string;
  route: "any" | "intravenous" | "intramuscular";
  access?: Access;
  use?: "bolus" | "infusion";
  when?: Condition;
}

export type Access = "peripheral" | "central";
export type Place = "room-temperature" | "refrigerator";

export interface Time {
  number: number;
  unit: "min" | "h" | "days" | "months";
}

export interface StableRow {
  in: string;
  at: Place | "any";
  concentration?: Limits;
  as?: string;
  madeOf: string;
  light: "protected" | "any";
  countedFrom: "opening" | "mixing";
  for: Time;
}

export interface Pore {
  rule: "required" | "never";
  micrometres?: string;
}

export interface Monograph {
  fact: DrugFact;
  limits: LimitRow[];
  stable: StableRow[];
  compatible: string[];
  incompatible: string[];
  addedBefore: string[];
  together: { one: string; upTo: Fraction; other: string; otherUpTo: Fraction }[];
  materials: { material: string; suits: boolean; over?: Time }[];
  light: "protect-always" | "not-sensitive";
  filter?: Pore;
  inLine?: Pore;
}

/** One drug's part of the recipe: product, syringe and, where there is one, the filter that it is drawn through. */
export interface Additive {
  drug: string;
  product: StockFact & { doses: "single" | "multiple"; inUse?: Time };
  /** mL drawn where the order has no range; on a mark of the syringe. */
  volume: Fraction;
  /** How the order says it: the amount, or an amount of the ion, or for each kg or m2. */
  unit: string;
  ion?: string;
  as?: string;
  filter?: string;
  /**
   * Of an order with a range, in g or units: what is ordered for each kg, the dose before it is rounded where it is rounded and not cut to
   * its cap, and the dose that is given. A volume that is read at a mark brings a little more or less.
   */
  ordered?: Fraction;
  calculated?: Fraction;
  given?: Fraction;
  /** Waited after the vial is first entered, before its drug goes into the bag. */
  waitBefore?: Time;
  /** Half of it is drawn so much later, out of the same vial. */
  again?: Time;
}

export interface Lot {
  id: string;
  /** `2027-04` or `2027-04-30`. */
  expires: string;
}

export interface Order {
  /** kg, years, m2. */
  weight?: Fraction;
  age?: Fraction;
  surface?: Fraction;
  access: Access;
  use: "bolus" | "infusion" | "titrated" | "titrated as bolus" | "part-of-container" | "part-of-container as bolus";
  over?: Time;
  at?: { number: Fraction; unit: string; as?: string };
  inLineFilter?: string;
}

export interface Deviation {
  name: string;
  on?: string;
  until: string;
}

export interface Range {
  from: Fraction;
  to: Fraction;
  step: Fraction;
  /** mg or units for each kg, what the dose is rounded to, and its cap. */
  perKilogram: Fraction;
  unit: string;
  round?: Fraction;
  maximum?: Fraction;
}

export interface Scenario {
  asOf: string;
  site: {
    edition: "wisconsin-phar-15" | "uk-section-10";
    category?: 1 | 2;
    pumpStep?: Fraction;
    osmolarity?: number;
    expiryAhead: number;
    monthOnly?: "first-day";
    severity: { name: string; grade: "error" | "warning" | "note" | "off" }[];
    neverSilenced: string[];
  };
  drugs: Monograph[];
  fluid: FluidFact;
  bag: StockFact & { madeOf?: string };
  additives: Additive[];
  order: Order;
  covered: boolean;
  useWithin: { time: Time; at: Place }[];
  tested: boolean;
  /** Stock → its lots. */
  lots: Map<string, Lot[]>;
  deviations: Deviation[];
  /** Weights of the order; its `weight` is then one of them. */
  range?: Range;
}

/** Where a finding stands, in words that the writer turns into a line. */
export type Spot = string;

/** What has to be said, and where; of several spots one suffices. */
export interface Verdict {
  name: string;
  at: readonly Spot[];
  /** What is limited: a drug or an ion. */
  of?: string;
}
