/** From a finding in a chunk to one in a file. */
import type { Finding, Fix, RelatedPlace, Silenced, Span } from "../../shared/finding.ts";
import type { ChunkFinding } from "../checks/chunk-finding.ts";
import { lineEndAt, lineStartAt } from "../syntax/lines.ts";
import { FileChunk, span } from "./file-chunk.ts";

/** @param text the whole file's */
export function toFinding(found: ChunkFinding, chunk: FileChunk, text: string): Finding {
  const { check } = found;
  const own = span({ ...found.at, chunk });
  const related: RelatedPlace[] = found.related
    .filter((r) => r.at.chunk instanceof FileChunk)
    .map((r) => ({ span: span(r.at), message: r.text }));
  const fixes: Fix[] = found.fixes.map((f) => ({
    title: f.title,
    preferred: f.preferred,
    edits: f.edits.map((e) => ({ span: span(e.at), text: e.text })),
  }));
  const finding: Finding = {
    name: found.name,
    family: found.family,
    severity: found.severity,
    span: own,
    message: found.message,
    related,
    why: check.why,
    source: check.source,
    fixes,
    subject: found.subject,
    anchor: anchorOf(text, own),
  };
  if (found.overRange) finding.overRange = found.overRange;
  const by = found.silencedBy;
  if (by) {
    const silenced: Silenced = {
      span: span({ start: by.start, end: by.end, chunk }),
      because: by.because?.text ?? "",
      by: by.by?.name ?? "",
      until: by.until?.text ?? "",
    };
    finding.silenced = silenced;
  }
  return finding;
}

/** The whole line's words: stable when lines move, different when the line says something else. */
function anchorOf(text: string, at: Span): string {
  const start = lineStartAt(text, at.start);
  // The first 200 characters are kept; a line of megabytes is not walked for each finding in it.
  return text
    .slice(start, Math.min(lineEndAt(text, at.start), start + 2_000))
    .trim()
    .replace(/\s+/g, " ")
    .slice(0, 200);
}
