/**
 * What is said when a check of ours stops in the middle. It stands outside the registry: no text of a library can show it, for
 * a text that did would be a fault to mend. It is never switched off, re-graded or silenced: a result that is not complete must
 * not look like an all clear.
 */
import type { LibraryCheck } from "./check.ts";

export const checkFailed: LibraryCheck = {
  on: "library",
  name: "check-failed",
  family: "structure",
  severity: "error",
  title: "A check stopped in the middle",
  why: "What that check would have found is not known, so nothing here may be read as free of faults.",
  source: "common practice",
  bad: "",
  good: "",
  find: () => [],
  say: () => ({ text: "" }),
};

/** @param part name of the check, or the part of the work that stopped */
export function failureText(part: string, error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  const words = reason.trim().replace(/\.$/, "") || "no reason given";
  return `The check \`${part}\` stopped in the middle (${words}); the result for this declaration is not complete. Have it checked by hand, and report the fault to whoever keeps the tool.`;
}
