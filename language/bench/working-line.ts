/** One line of a working, as a person would write it on paper for the second check. */
import type { Quantity } from "../quantities/quantity.ts";

/** What kind of line it is: the order's or the label's own figure, a conversion, arithmetic, a rounding, a limit applied, a count. */
export type LineOrigin =
  | "ordered"
  | "stated"
  | "converted"
  | "computed"
  | "rounded"
  | "limited"
  | "counted"
  | "compared"
  | "remark";

export interface WorkingLine {
  text: string;
  /** What the line comes to; undefined for a remark or several figures. */
  value: Quantity | undefined;
  origin: LineOrigin;
}

export function line(origin: LineOrigin, text: string, value?: Quantity): WorkingLine {
  return { text, value, origin };
}
