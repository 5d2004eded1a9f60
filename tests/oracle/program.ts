/**
 * A preparation as plain data, from which both sides work: the oracle reads it as it is, the language reads the text that is
 * written of it. What the words mean is told in tests/spec and language/LANGUAGE.md.
 */
import type { Figure } from "./figure.ts";
import type { Fraction } from "./fraction.ts";

export interface DrugFact {
  name: string;
  /** Atoms in one of it; mass turns into mmol by it. */
  formula?: readonly (readonly [element: string, count: number])[];
  formulaText?: string;
  ion?: { name: string; charge: number; count: number };
  /** Form that amounts are counted in, and another with the mass of it that holds one g of that form. */
  salt?: { base: string; name: string; massForOneGram: Figure };
}

export interface FluidFact {
  name: string;
  title: string;
  contains: readonly { ion: string; figure: Figure }[];
  /** mOsm in a litre. */
  osmolarity: number;
}

export interface StockFact {
  name: string;
  container: "ampoule" | "vial" | "powder-vial" | "bag" | "empty-bag" | "empty-vial" | "infusor";
  drug?: string;
  fluid?: string;
  strength?: Figure;
  fill?: Figure;
  overfill?: { least: Figure; most: Figure };
  capacity?: Figure;
  /** What the line fixed to it holds. */
  ownLine?: Figure;
  contains?: readonly { ion: string; figure: Figure }[];
  /** mOsm in a litre. */
  osmolarity?: number;
  powder?: {
    content: Figure;
    displacement?: Figure;
    label?: { with: Figure; gives: Figure; withdrawable: Figure; fluid: string };
    /** The label rounds what it gives; the displacement says what it is. */
    givesAbout?: Figure;
  };
}

export interface SyringeFact {
  capacity: Figure;
  graduation: Figure;
  deadSpace?: Figure;
}

/** For which patients or doses something holds. An end is included, or not. */
export interface Condition {
  of: "weight" | "body-surface" | "dose";
  from?: Figure;
  above?: Figure;
  upTo?: Figure;
  below?: Figure;
}

interface Held {
  when?: Condition;
}

export interface MaterialFact extends Held {
  name: string;
  /** A stock, or undefined for a syringe or a set. */
  stock?: string;
  syringe?: SyringeFact;
  /** A giving set, by what it holds. */
  set?: Figure;
  /** Another device that liquid passes, by its name. */
  device?: string;
  /** Undefined: as many as it takes. */
  count?: number;
}

/** How much: a figure, or what the order says. */
export type Much =
  | Figure
  | "dose"
  | "rest of dose"
  | "all"
  | "added-volume"
  | "added-volume and overfill"
  | "diluent-volume"
  | { doseOf: string }
  | { restOf: string };

interface Claimed extends Held {
  /** `= Q`: all that the step moves. At two ends where the order has a range. */
  moves?: Figure;
  movesMost?: Figure;
  giving?: Figure;
  /** Of which drug the strength is. */
  givingOf?: string;
}

export type Action = Claimed &
  (
    | { do: "reconstitute"; vials: string; each: boolean; much: Figure; from: string; using: string }
    | {
        do: "draw";
        much: Much;
        from: string;
        into: string;
        each?: boolean;
        onTop?: boolean;
        deadSpace?: "included" | "excluded";
      }
    | { do: "expel"; from: string; much: Figure }
    | { do: "inject"; much?: Much; from: string; into: string; each?: boolean }
    | { do: "add"; much: Much; from: string; into: string; using: string; each?: boolean }
    | { do: "withdraw"; much: Much; from: string; using: string; each?: boolean }
    | { do: "make-up"; into: string; much: Figure | "final-volume"; from: string; using?: string }
    | { do: "transfer"; much: Much; from: string; into: string; each?: boolean }
    | { do: "pool"; from: string; into: string; using: string }
    | { do: "fill"; into: string; much: Much; from: string; using: string; each?: boolean }
    | { do: "sample"; much: Figure; from: string; using: string }
    | { do: "discard"; from: string }
    | { do: "pass"; from: string; through: string; into: string }
    | { do: "activate"; bag: string }
    | { do: "prime"; set: string; much: Figure; from: string }
    | { do: "connect"; set: string; to: string }
    | { do: "own-line"; of: string }
    /** A step that is not for this patient. */
    | { do: "skipped" }
  );

export interface DoseFact extends Held {
  drug: string;
  figure: Figure;
  /** The figure is meant for each kg of body weight, or each m2 of body surface. */
  perEach?: "kg" | "m2";
  /** Given as one of the bands. */
  bands?: string;
}

export interface BandsFact {
  name: string;
  rows: readonly { from: Figure; below: Figure; gives: Figure }[];
}

/** A figure of an order, for some patients or for all of them; a volume may be meant for each kg. */
export interface Row extends Held {
  figure: Figure;
  perKilogram?: boolean;
}

export interface RangeFact {
  of: "weight" | "body-surface";
  from: Figure;
  to: Figure;
  step: Figure;
}

export interface OrderFact {
  doses: readonly DoseFact[];
  /** The figure of the one dose is the strength of the finished liquid. */
  byConcentration?: boolean;
  range?: RangeFact;
  round?: { to: Figure; way: "to nearest" | "upward to" | "downward to" };
  maximum?: Figure;
  minimum?: Figure;
  /** Over all that brings the ion. */
  targets?: readonly { ion: string; figure: Figure }[];
  diluent?: string;
  /** Several fluids; one may make up what the others leave of the final volume. */
  diluents?: readonly { fluid: string; figure?: Figure }[];
  diluentVolumes?: readonly Row[];
  finalVolume?: Row;
  /** Whether what its filled line holds counts in the final volume. */
  line?: "included" | "excluded";
  method: "add-to-bag" | "withdraw-first" | "withdraw-first-with-overfill" | "build-from-empty" | "undiluted";
  overage?: Figure;
}

export interface Program {
  shape: string;
  drugs: readonly DrugFact[];
  bands: readonly BandsFact[];
  fluids: readonly FluidFact[];
  stocks: readonly StockFact[];
  materials: readonly MaterialFact[];
  order: OrderFact;
  actions: readonly Action[];
  /** Name of the finished container, or of the set of them. */
  final: string;
  preparation: {
    concentrations: readonly ({ drug: string; figure: Figure } & Held)[];
    volumes: readonly ({ figure: Figure } & Held)[];
  };
  intermediates: readonly { name: string; in: string; at: readonly { drug: string; figure: Figure }[] }[];
}

/** A value of what the order has a range of: body weight in kg, or body surface in m2. */
export type Patient = Fraction | undefined;
