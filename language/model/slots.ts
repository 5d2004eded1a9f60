/**
 * What a form takes from a line, each with its place (offsets in the chunk). A measure whose notation has two readings has
 * no quantity: nothing is computed from it, and the notation checks say why.
 */
import type { Quantity } from "../quantities/quantity.ts";
import type { Token } from "../syntax/tree.ts";

export interface Spot {
  start: number;
  end: number;
}

export interface NameSlot extends Spot {
  name: string;
}

/** A number with its unit. */
export interface MeasureSlot extends Spot {
  quantity: Quantity | undefined;
  number: Token;
  unit: Token | undefined;
  /** The text as written, for messages. */
  written: string;
  /** Digits after the point as written; a claim is compared at this precision. */
  decimals: number;
}

/** `A to B`, both ends included; a single value has both ends equal. */
export interface RangeSlot extends Spot {
  from: MeasureSlot;
  to: MeasureSlot;
  isRange: boolean;
}

export interface NumberSlot extends Spot {
  /** Whole or decimal number without a unit; undefined when the notation has two readings. */
  value: import("../quantities/exact.ts").Exact | undefined;
  written: string;
}

export interface TextSlot extends Spot {
  text: string;
}

export interface DateSlot extends Spot {
  text: string;
}

export interface ChoiceSlot<T extends string = string> extends Spot {
  choice: T;
}

/** `from`/`up to` include, `above`/`below` exclude. `any` has neither end. */
export interface BoundSlot extends Spot {
  low: { measure: MeasureSlot; included: boolean } | undefined;
  high: { measure: MeasureSlot; included: boolean } | undefined;
}

/** `dose up to 1.25 g`, `weight from 40 kg below 60 kg`. */
export interface ConditionSlot extends Spot {
  input: NameSlot;
  bound: BoundSlot;
}

/** `guide-a "table 2"` (a declared reference and a place in it) or a bare string. */
export interface SourceSlot extends Spot {
  reference: NameSlot | undefined;
  where: TextSlot | undefined;
}
