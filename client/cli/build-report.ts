/** From the engine's findings to the report's: places with lines and columns, fingerprints, order. */
import type { Finding } from "../../shared/finding.ts";
import type { ReportFinding } from "../../shared/report.ts";
import { Fingerprints } from "./fingerprint.ts";
import { byCodeUnit } from "./folders.ts";
import { placeOf, type SourceTexts } from "./source-text.ts";
import type { StableNames } from "./stable-names.ts";

/** A finding and the folder of its library, relative to the working folder (`.` for that folder itself, empty for none). */
export interface FoundIn {
  finding: Finding;
  root: string;
}

/** Reported findings with their library's folder, in order of file and place. The input is left as it is. */
export function reportFindings(
  found: readonly FoundIn[],
  texts: SourceTexts,
  names: StableNames,
): { finding: ReportFinding; root: string }[] {
  const fingerprints = new Fingerprints(names);
  return [...found].sort(inOrder).map(({ finding, root }) => ({
    root,
    finding: reported(finding, fingerprints.of(finding, root), texts),
  }));
}

function inOrder(a: FoundIn, b: FoundIn): number {
  const x = a.finding;
  const y = b.finding;
  return (
    byCodeUnit(x.span.file, y.span.file) ||
    x.span.start - y.span.start ||
    x.span.end - y.span.end ||
    byCodeUnit(x.name, y.name) ||
    byCodeUnit(x.message, y.message)
  );
}

function reported(finding: Finding, fingerprint: string, texts: SourceTexts): ReportFinding {
  const { name, family, severity, message, why, source, subject, anchor, silenced } = finding;
  const result: ReportFinding = {
    name,
    family,
    severity,
    message,
    place: placeOf(finding.span, texts),
    related: finding.related.map((r) => ({ place: placeOf(r.span, texts), message: r.message })),
    why,
    source,
    fixes: finding.fixes.map((fix) => ({
      title: fix.title,
      preferred: fix.preferred,
      edits: fix.edits.map((edit) => ({ place: placeOf(edit.span, texts), text: edit.text })),
    })),
    subject,
    anchor,
    fingerprint,
  };
  if (finding.overRange) result.overRange = finding.overRange;
  if (silenced) {
    const { because, by, until } = silenced;
    result.silenced = { place: placeOf(silenced.span, texts), because, by, until };
  }
  return result;
}
