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
  container: "ampoule" | "vial" | "powder-vial" | "bag" | "empty-bag" | "infusor";
  drug?: string;
  fluid?: string;
  strength?: Figure;
  fill?: Figure;
  overfill?: { least: Figure; most: Figure };
  capacity?: Figure;
  contains?: readonly { ion: string; figure: Figure }[];
  /** mOsm in a litre. */
  osmolarity?: number;
  powder?: {
    content: Figure;
    displacement?: Figure;
    label?: { with: Figure; gives: Figure; withdrawable: Figure; fluid: string };
  };
}

export interface SyringeFact {
  capacity: Figure;
  graduation: Figure;
}

export interface MaterialFact {
  name: string;
  /** A stock, or undefined for a syringe. */
  stock?: string;
  syringe?: SyringeFact;
  /** Undefined: as many as it takes. */
  count?: number;
}

/** How much: a figure, or what the order says. */
export type Much = Figure | "dose" | "rest of dose" | "all" | "added-volume" | "added-volume and overfill";

interface Claimed {
  /** `= Q`: all that the step moves. At two ends where the order has a range. */
  moves?: Figure;
  movesMost?: Figure;
  giving?: Figure;
}

export type Action = Claimed &
  (
    | { do: "reconstitute"; vials: string; each: boolean; much: Figure; from: string; using: string }
    | { do: "draw"; much: Much; from: string; into: string; each?: boolean; onTop?: boolean }
    | { do: "expel"; from: string; much: Figure }
    | { do: "inject"; much?: Much; from: string; into: string; each?: boolean }
    | { do: "add"; much: Much; from: string; into: string; using: string; each?: boolean }
    | { do: "withdraw"; much: Much; from: string; using: string; each?: boolean }
    | { do: "make-up"; into: string; much: Figure; from: string; using?: string }
    | { do: "transfer"; much: Much; from: string; into: string; each?: boolean }
    | { do: "pool"; from: string; into: string; using: string }
    | { do: "fill"; into: string; much: Much; from: string; using: string }
    | { do: "sample"; much: Figure; from: string; using: string }
    | { do: "discard"; from: string }
  );

export interface DoseFact {
  drug: string;
  figure: Figure;
  /** The figure is meant for each kg of body weight. */
  perKilogram?: boolean;
}

export interface OrderFact {
  doses: readonly DoseFact[];
  /** In place of a dose. */
  concentration?: Figure;
  weight?: { from: Figure; to: Figure; step: Figure };
  round?: Figure;
  maximum?: Figure;
  diluent?: string;
  diluentVolume?: Figure;
  finalVolume?: Figure;
  method: "add-to-bag" | "withdraw-first" | "withdraw-first-with-overfill" | "build-from-empty" | "undiluted";
  overage?: Figure;
}

export interface Program {
  shape: string;
  drugs: readonly DrugFact[];
  fluids: readonly FluidFact[];
  stocks: readonly StockFact[];
  materials: readonly MaterialFact[];
  order: OrderFact;
  actions: readonly Action[];
  /** Name of the finished container, or of the set of them. */
  final: string;
  preparation: { concentrations: readonly { drug: string; figure: Figure }[]; volume?: Figure };
  intermediates: readonly { name: string; in: string; at: Figure }[];
}

/** A given body weight, in kg. */
export type Weight = Fraction | undefined;
