/**
 * A figure with its working: the one source for the sheet, the preview and `misce explain`. Pure data; each line carries its value
 * with the unit, so that nobody reads a figure back out of a sentence.
 *
 * Invariant: a working repeats what the bench computed and shows how; it decides no figure of its own.
 */
import type { WorkingLine } from "../bench/working-line.ts";
import type { Exact } from "../quantities/exact.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";

export { type LineOrigin, line, type WorkingLine } from "../bench/working-line.ts";

export type WorkingKind =
  | "dose"
  | "step"
  | "containers"
  | "after-step"
  | "final-volume"
  | "amount"
  | "concentration"
  | "ion"
  | "percent-strength"
  | "osmolarity"
  | "filled-weight"
  | "rate"
  | "drops"
  | "use-within"
  | "worst-case";

export interface Working {
  kind: WorkingKind;
  /** What tells it from others of its kind: names of drug and container, a step's number. Kebab-case words. */
  of: readonly string[];
  /** The sheet's and the preview's own name of the figure: `dose vancomycin`, `step 6 moves`. */
  key: string;
  label: string;
  /** The step that it belongs to, for figures of one step. */
  step: number | undefined;
  /** Undefined for a count, for a time of the calendar and where it cannot be said. */
  value: Quantity | undefined;
  /** The figure in words. */
  text: string;
  lines: readonly WorkingLine[];
}

const millilitre = findUnit("mL").unit!;

export function millilitres(volume: Exact): Quantity {
  return { value: volume, unit: millilitre };
}

/** In working the rounding is named; a figure that ends shows all its digits. */
export function shown(q: Quantity): string {
  return q.value.terminates() ? showQuantity(q) : `${showQuantity(q)} (to four figures)`;
}

/** `7.62 mL`, volumes of working. */
export function shownVolume(volume: Exact): string {
  return shown(millilitres(volume));
}

/**
 * The name under which a figure is asked for: its kind alone where it is the only one, else with what tells it apart:
 * `concentration`, `concentration-calcium-gluconate`, `step-6`.
 */
export function namesOf(workings: readonly Working[]): Map<Working, string> {
  const perKind = new Map<WorkingKind, number>();
  for (const { kind } of workings) perKind.set(kind, (perKind.get(kind) ?? 0) + 1);
  return new Map(
    workings.map((w) => {
      const alone = perKind.get(w.kind) === 1 && w.kind !== "step" && w.kind !== "after-step";
      return [w, alone ? w.kind : fullName(w)];
    }),
  );
}

export function fullName({ kind, of }: Working): string {
  return [kind, ...of].join("-");
}

/** The word of a step as it is spoken: of `make up` the verb is `make`. */
export function spokenVerb(verb: string): string {
  return verb === "make" ? "make up" : verb;
}
