/**
 * A `source` that stands once speaks for every fact of its block that names none. Where one side changed it or took it out, a fact that
 * the other side wrote under the former one names that itself in the merged text: so each fact keeps the source that it was written with.
 */
import { canonicalJson, type Plain } from "./canonical.ts";
import { indentOf } from "./merge-comments.ts";
import type { LinePart, MergeEntry, MergePart } from "./merge-parts.ts";

/** @returns entries that say the same each, with own sources where their block's no longer is theirs, whichever side settles a conflict */
export function withOwnSources(entries: readonly MergeEntry[]): MergeEntry[] {
  const spoken = { ours: spokenIn(entries, "ours"), theirs: spokenIn(entries, "theirs") };
  return entries.map((entry) => {
    if ("conflict" in entry) {
      const { base, ours, theirs } = entry.conflict;
      const own = (parts: readonly MergePart[], side: MergeSide) => parts.map((part) => named(part, [spoken[side]]));
      return { conflict: { base, ours: own(ours, "ours"), theirs: own(theirs, "theirs") } };
    }
    if (entry.kind === "block") return { ...entry, body: withOwnSources(entry.body) };
    return named(entry, [spoken.ours, spoken.theirs]);
  });
}

type MergeSide = "ours" | "theirs";

/** What speaks for the facts of a block once every conflict is settled for one side. */
function spokenIn(entries: readonly MergeEntry[], side: MergeSide): Said | undefined {
  const parts = entries.flatMap((e): readonly (MergePart | MergeEntry)[] => ("conflict" in e ? e.conflict[side] : [e]));
  const speaking = parts.find((e): e is LinePart => isLine(e) && e.word === "source");
  return speaking && sourceSaid(speaking.statement?.value ?? null, "source");
}

/** A source that comes to speak for a fact written without one cannot be written away: the text is then not given out. */
function named<P extends MergePart>(part: P, spoken: readonly (Said | undefined)[]): P {
  if (part.kind === "block" || part.word === "source" || namesItsSource(part)) return part;
  const meant = sourceSaid(part.statement?.value ?? null, "…source");
  if (!meant || spoken.every((each) => each && canonicalJson(each) === canonicalJson(meant))) return part;
  return { ...part, text: `${withNewline(part.text)}${indentOf(part)}    ${words(meant)}\n` };
}

function isLine(entry: MergeEntry | MergePart): entry is LinePart {
  return !("conflict" in entry) && entry.kind === "line";
}

interface Said {
  readonly [key: string]: Plain;
  readonly reference: string;
  readonly where: string;
}

function sourceSaid(value: Plain, slot: string): Said | undefined {
  const said = (value as { [key: string]: Plain } | null)?.[slot] as Partial<Said> | undefined;
  return said && { reference: said.reference ?? "", where: said.where ?? "" };
}

function namesItsSource({ statement }: LinePart): boolean {
  return /\ssource(?:\s|$)/.test(statement?.shown.replace(/"[^"]*"/g, '""') ?? "");
}

function withNewline(text: string): string {
  return text.endsWith("\n") ? text : `${text}\n`;
}

function words({ reference, where }: Said): string {
  return ["source", reference, where === "" ? "" : `"${where}"`].filter((word) => word !== "").join(" ");
}
