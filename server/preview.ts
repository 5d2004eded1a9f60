/** `misce/preview`: the recipe at the cursor as the bench will see it, with places as lines and characters. See shared/preview.ts. */
import { type PreviewNoteAt, type PreviewRow, previewOf } from "../language/answers/preview.ts";
import { previewSheet } from "../language/answers/preview-sheet.ts";
import type { Preview, PreviewItem, PreviewParams, PreviewRange } from "../shared/preview.ts";
import type { Document } from "./document.ts";
import type { Serving } from "./serving.ts";

export function preview({ session, host, approvals }: Serving, { uri, position }: PreviewParams): Preview {
  const document = session.documentAt(uri);
  const library = document && session.group(document.key)?.library;
  if (!document || !library) return unreadable(uri, session.day);
  const found = previewOf(library, document.key, document.offset(position), approvals.findings(document.key));
  const base = found.chunk?.base ?? 0;
  const answer: Preview = {
    uri,
    version: document.version,
    recipe: found.recipe,
    title: found.title,
    asOf: found.asOf,
    counts: found.counts,
    verdict: found.verdict,
    state: found.state,
    sections: found.parts.map(({ kind, heading, rows, empty }) => ({
      kind,
      heading,
      empty,
      items: rows.map((row) => itemOf(row, document, base)),
    })),
  };
  if (found.chunk) answer.range = document.range({ start: base, end: base + found.chunk.text.length });
  const sheet =
    found.declaration && found.state === "followed"
      ? previewSheet(library, found.declaration, clockOf(host.now()))
      : undefined;
  if (sheet) {
    const steps = sheet.steps.map(({ number, spot }) => ({ number, range: rangeOf(document, base, spot) }));
    answer.sheet = { html: sheet.html, shownFor: sheet.shownFor, steps };
  }
  return answer;
}

function clockOf(now: Date): string {
  return `${String(now.getHours()).padStart(2, "0")}:${String(now.getMinutes()).padStart(2, "0")}`;
}

function itemOf(row: PreviewRow, document: Document, base: number): PreviewItem {
  const { label, text, figure, working, more, spot } = row;
  const item: PreviewItem = {
    label,
    text,
    figure,
    working,
    more,
    notes: row.notes.map((n: PreviewNoteAt) => ({ ...n })),
  };
  if (spot) item.range = rangeOf(document, base, spot);
  return item;
}

function rangeOf(document: Document, base: number, spot: { start: number; end: number }): PreviewRange {
  return document.range({ start: base + spot.start, end: base + spot.end });
}

function unreadable(uri: string, asOf: string): Preview {
  return {
    uri,
    version: null,
    recipe: "",
    title: "This file cannot be shown",
    asOf,
    counts: { error: 0, warning: 0, note: 0 },
    verdict: "The checker does not know this file, or could not read it as text. Nothing is said about what it holds.",
    state: "none",
    sections: [],
  };
}
