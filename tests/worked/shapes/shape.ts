/** A shape of worked example: which rows have it, and how the engine comes to their figure. */
import type { Quantity, Refusal } from "../../../language/quantities/quantity.ts";
import type { Row } from "../rows.ts";

export interface Shape {
  name: string;
  /** Row numbers without the leading `WE-`. */
  rows: readonly string[];
  find(row: Row): Quantity | Refusal;
}
