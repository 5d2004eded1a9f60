/**
 * Changes that come after later ones. The protocol forbids it, but an editor that sends each from a task of its own does it when
 * strokes come quickly, and the text checked would then not be the text on the screen. Numbers may be skipped for good, too; so
 * after a skip the text before it is kept for a while, and a change that fits into the gap is put where it belongs.
 */
import type { TextDocumentContentChangeEvent } from "vscode-languageserver-protocol";
import type { Document } from "./document.ts";

interface Change {
  /** Null where the editor does not count. */
  version: number | null;
  changes: readonly TextDocumentContentChangeEvent[];
}

/** A number was skipped after `base`; `since` came afterwards, in the order of their numbers. */
export interface Skip {
  base: Document;
  since: readonly Numbered[];
}

type Numbered = Change & { version: number };

/** How many changes may overtake another. */
const longest = 32;

export function inOrder(
  before: Document,
  skip: Skip | undefined,
  change: Change,
): { now: Document; skip: Skip | undefined } {
  const { version, changes } = change;
  if (version === null) return { now: before.changed(null, changes), skip: undefined };
  const numbered = { version, changes };
  const newest = before.version ?? version;
  if (version > newest) {
    const now = before.changed(version, changes);
    if (skip) return { now, skip: kept(skip.base, [...skip.since, numbered]) };
    return { now, skip: version > newest + 1 ? { base: before, since: [numbered] } : undefined };
  }
  const isLate = skip && version > (skip.base.version ?? version) && !skip.since.some((c) => c.version === version);
  // A number that has been there before: an editor that does not count; its changes are taken as they come.
  if (!isLate) return { now: before.changed(version, changes), skip: undefined };
  const since = [...skip.since, numbered].sort((a, b) => a.version - b.version);
  const now = since.reduce((document, c) => document.changed(c.version, c.changes), skip.base);
  return { now, skip: kept(skip.base, since) };
}

/** Undefined once every number of the gap is there, or nothing late can be expected any more. */
function kept(base: Document, since: readonly Numbered[]): Skip | undefined {
  const isFilled = since.at(-1)!.version - (base.version ?? 0) === since.length;
  return isFilled || since.length > longest ? undefined : { base, since };
}
