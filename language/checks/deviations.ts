/** When a deviation counts, and which findings none can silence. */
import { alwaysTold } from "../model/always-told.ts";
import type { CalendarDate } from "../model/dates.ts";
import type { Deviation } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";

const aboutDeviations = /^(deviation-|check-failed$)/;

/** Findings that speak of the deviations themselves, or of a text or result that is not complete, can never be silenced by one. */
export function isBeyondDeviations(check: string): boolean {
  return aboutDeviations.test(check) || alwaysTold.has(check);
}

/** Complete (reason, role, end date), the role known, and its last day not past. */
export function deviationHolds(deviation: Deviation, around: { policy: Policy; asOf: CalendarDate }): boolean {
  if (!deviation.because?.text.trim() || !deviation.by || !deviation.until) return false;
  if (!around.policy.roles.includes(deviation.by.name)) return false;
  const { year, month, day } = around.asOf;
  const today = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
  return deviation.until.text.length === 10 && deviation.until.text >= today;
}
