/**
 * Words on a sheet together with where they come from. Every text that may hold a figure is a `Said`, so that each number on a
 * printed page can be traced back: to the engine, to a line of the recipe or the library, to the shelf, to what was asked for.
 *
 * Invariant: a renderer adds no figure of its own but page numbers.
 */
import type { Exact } from "../quantities/exact.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { millilitres } from "../working/working.ts";

export { millilitres };

export type Origin =
  /** Words as they stand in the recipe or the library; `where` names the declaration. */
  | { kind: "written"; where: string }
  /** Computed by the bench. `figure` says which, in the words of `benchFigures` (tests recompute it). */
  | { kind: "bench"; figure: string; value: Quantity }
  /** A line of working: how a bench figure comes about. */
  | { kind: "working"; figure: string }
  /** The sentence of a step's verb. */
  | { kind: "step"; number: number }
  /** Fixed words of a verb or of the sheet itself. */
  | { kind: "fixed"; of: string }
  /** Given with the command: weight, time of preparation, number. */
  | { kind: "asked"; what: string }
  /** A lot on the shelf. */
  | { kind: "shelf"; stock: string; lot: string }
  /** A moment worked out from the time of preparation. */
  | { kind: "time"; what: string }
  /** Fingerprint of the recipe's meaning, and what the record of approvals says of it. */
  | { kind: "meaning"; what: "fingerprint" | "approval" }
  /** A finding of the checks. */
  | { kind: "finding"; name: string }
  /** Counted on the sheet: containers, step numbers, labels. */
  | { kind: "count"; what: string };

export interface Said {
  text: string;
  from: Origin;
}

/** A label with what stands beside it. */
export interface SaidLine {
  label: string;
  value: Said;
}

export function written(text: string, where: string): Said {
  return { text, from: { kind: "written", where } };
}

export function fixed(text: string, of: string): Said {
  return { text, from: { kind: "fixed", of } };
}

/** A bench figure in its own unit. What does not end is shown to four figures. */
export function figure(name: string, value: Quantity, text: string = showQuantity(value)): Said {
  return { text, from: { kind: "bench", figure: name, value } };
}

export function volumeFigure(name: string, volume: Exact): Said {
  return figure(name, millilitres(volume));
}

/** Every `Said` in a value, in order; for tests and for whoever audits a sheet. */
export function allSaid(value: unknown, into: Said[] = []): Said[] {
  if (typeof value !== "object" || value === null) return into;
  if (isSaid(value)) {
    into.push(value);
    return into;
  }
  for (const inner of Object.values(value)) allSaid(inner, into);
  return into;
}

function isSaid(value: object): value is Said {
  return "text" in value && "from" in value && typeof (value as Said).text === "string";
}
