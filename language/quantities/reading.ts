/** What judging the notation of a number and its unit gives. */
import type { Exact } from "./exact.ts";
import type { Quantity } from "./quantity.ts";

export interface NotationFault {
  /** Id of the rule, kebab-case. */
  rule: string;
  /** Within the text judged; `end` exclusive. */
  start: number;
  end: number;
  /** Safe form of that stretch; absent where the author alone knows what was meant. */
  replacement?: string;
  /** One plain sentence: why it is not safe. */
  detail: string;
}

export interface UnitProblem {
  kind: "unknown-unit";
  text: string;
  /** Known units near it, at most three. */
  near: string[];
}

export interface MeasureReading {
  /** Undefined where the number or the unit can be read in two ways, or the unit is not known or missing. */
  quantity: Quantity | undefined;
  /** Places lie in `numberText + gap + unitText`. */
  faults: NotationFault[];
  unitFault?: UnitProblem;
}

export interface NumberReading {
  /** Undefined where two readings are possible. */
  value: Exact | undefined;
  /** Digits after the point as written; what a stated figure is compared at. */
  decimals: number;
  faults: NotationFault[];
}
