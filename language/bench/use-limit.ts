/** One limit to how long a finished container may be kept. */
import type { Place } from "../model/declaration.ts";
import type { SourceSlot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Quantity } from "../quantities/quantity.ts";

export interface UseLimit {
  kind: "policy" | "stability" | "expiry" | "in-use";
  /** Who sets it: `usp-797-2023 category 2`, the drug, the stock. */
  name: string;
  /** How long; undefined for a date of expiry, and 0 h where the place is not allowed at all. */
  time: Quantity | undefined;
  /** `4 days`, `2026-11-30`, `not kept there at all`. */
  written: string;
  /** For comparing; at the least where a month may be short, at the most for a date (from the beginning of the as-of day). */
  hours: Exact;
  /** `declared`: a fact of the library. */
  footing: "read" | "recalled" | "declared";
  source: string;
  /** From when the clock runs, and what is not known of it. */
  counted: string;
  /** What else must hold for it, in words. */
  onlyIf: string | undefined;
  /** False where it speaks only of what is left in an opened product, not of the finished container. */
  limits: boolean;
  /** Where the library declares it. */
  place: Place | undefined;
}

/** `guide "table 7"`, or the bare string. */
export function sourceText(source: SourceSlot | undefined): string | undefined {
  if (!source) return undefined;
  const words = [source.reference?.name, source.where && `"${source.where.text}"`].filter(Boolean).join(" ");
  return words === "" ? undefined : words;
}
