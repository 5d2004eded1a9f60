/** What a check found in a chunk, before it has a place in a file. */
import type { Family, OverRange, Severity } from "../../shared/finding.ts";
import type { CalendarDate } from "../model/dates.ts";
import type { Declaration, Deviation, Place } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { Spot } from "../model/slots.ts";
import type { AnyCheck } from "./check.ts";

/** A finding whose places are in chunks. */
export interface ChunkFinding {
  check: AnyCheck;
  name: string;
  family: Family;
  severity: Severity;
  at: Spot;
  message: string;
  related: { at: Place; text: string }[];
  fixes: { title: string; preferred: boolean; edits: { at: Place; text: string }[] }[];
  subject: string;
  silencedBy: Deviation | undefined;
  /** Set where the order has a range: the point that is shown, and for which orders it is so. */
  overRange?: OverRange;
}

export interface Surroundings {
  lookup: Lookup;
  policy: Policy;
  asOf: CalendarDate;
}

/** How findings name the declaration that they are about. */
export function subjectOf(declaration: Declaration): string {
  return declaration.kind === "site" ? "site" : `${declaration.kind} ${declaration.name.name}`;
}
