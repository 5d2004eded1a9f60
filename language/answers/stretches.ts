/** Stretches of text that belong together: what an editor folds away, and what it selects step by step around a place. */
import type { Library } from "../library.ts";
import type { Spot } from "../model/slots.ts";
import type { Entry } from "../syntax/tree.ts";
import { placeAt } from "./place.ts";

export interface Fold extends Spot {
  kind: "block" | "comment";
}

/** Blocks from the end of their head line to their closing brace, and comments of several lines. Offsets in the file. */
export function folds(library: Library, file: string): Fold[] {
  const found: Fold[] = [];
  const text = library.text(file) ?? "";
  for (const chunk of library.chunks(file)) {
    const visit = (entry: Entry) => {
      if (entry.kind === "line") return;
      const end = entry.close?.start ?? entry.end;
      found.push({ kind: "block", start: chunk.base + entry.open.start, end: chunk.base + end });
      entry.body.forEach(visit);
    };
    chunk.reading.tree.entries.forEach(visit);
    found.push(...commentRuns(chunk.reading.tree.comments, chunk.base, text));
  }
  return found;
}

/** Comments that stand alone on lines directly one below the other. */
function commentRuns(comments: readonly Spot[], base: number, text: string): Fold[] {
  const runs: Fold[] = [];
  let run: Fold | undefined;
  for (const { start, end } of comments) {
    const from = base + start;
    const alone = /(^|[\r\n])[ \t]*$/.test(text.slice(Math.max(0, from - 200), from));
    if (run && alone && /^[ \t]*(\r\n|\r|\n)[ \t]*$/.test(text.slice(run.end, from))) run.end = base + end;
    else {
      run = alone ? { kind: "comment", start: from, end: base + end } : undefined;
      if (run) runs.push(run);
    }
  }
  return runs.filter((r) => /[\r\n]/.test(text.slice(r.start, r.end)));
}

/** Ever wider stretches around an offset: word, statement, inside of the block, block, … , file. */
export function selectionAround(library: Library, file: string, offset: number): Spot[] {
  const text = library.text(file) ?? "";
  const place = placeAt(library, file, offset);
  const found: Spot[] = [];
  const put = (start: number, end: number) => {
    const last = found.at(-1);
    if (last && start <= last.start && last.end <= end && (start < last.start || last.end < end))
      found.push({ start, end });
    else if (!last && start <= offset && offset <= end) found.push({ start, end });
  };
  if (place) {
    const { base } = place.chunk;
    const tokens = place.line?.tokens ?? [];
    const token = tokens.find((t) => t.start <= place.at && place.at <= t.end);
    if (token) {
      put(base + token.start, base + token.end);
      const i = tokens.indexOf(token);
      const unit = tokens[i + 1];
      if (token.kind === "number" && unit?.kind === "unit") put(base + token.start, base + unit.end);
      const number = tokens[i - 1];
      if (token.kind === "unit" && number) put(base + number.start, base + token.end);
    }
    if (place.line) put(base + place.line.start, base + place.line.end);
    if (place.headOf) put(base + place.headOf.start, base + place.headOf.end);
    for (const block of [...place.blocks].reverse()) {
      put(base + block.open.end, base + (block.close?.start ?? block.end));
      put(base + block.start, base + block.end);
    }
  }
  put(0, text.length);
  return found.length > 0 ? found : [{ start: 0, end: text.length }];
}
