/**
 * Errors that a baseline knows and a run does not show. Beside an error that is shown, what only repeats it or rests on it is left out;
 * beside one that is not shown nothing may be left out, or a new slip would hide behind it. So the engine is told of them.
 */
import type { BaselineEntry, ReportFinding } from "../../shared/report.ts";

/** By recipe the names of the checks. */
export type KnownErrors = ReadonlyMap<string, ReadonlySet<string>>;

/** Of each library, by its root as the baseline calls it. */
export type KnownByRoot = ReadonlyMap<string, KnownErrors>;

const recipe = /^recipe (\S+)$/;

/** The errors among these, joined with those `before`. */
export function knownErrors(
  entries: readonly (Pick<BaselineEntry & ReportFinding, "name" | "severity" | "subject"> & { root: string })[],
  before: KnownByRoot = new Map(),
): KnownByRoot {
  const found = new Map<string, Map<string, Set<string>>>();
  const add = (root: string, name: string, check: string) => {
    const library = found.get(root) ?? new Map<string, Set<string>>();
    found.set(root, library.set(name, (library.get(name) ?? new Set()).add(check)));
  };
  for (const [root, library] of before)
    for (const [name, checks] of library) for (const check of checks) add(root, name, check);
  for (const { name, severity, subject, root } of entries) {
    const of = severity === "error" ? recipe.exec(subject)?.[1] : undefined;
    if (of !== undefined) add(root, of, name);
  }
  return found;
}

export function isSame(a: KnownByRoot, b: KnownByRoot): boolean {
  return keyOf(a) === keyOf(b);
}

function keyOf(known: KnownByRoot): string {
  return JSON.stringify([...known].map(([root, library]) => [root, knownKey(library)]).sort());
}

/** One text for the same errors; empty for none. */
export function knownKey(known: KnownErrors | undefined): string {
  if (!known?.size) return "";
  return JSON.stringify([...known].map(([name, checks]) => [name, [...checks].sort()]).sort());
}
