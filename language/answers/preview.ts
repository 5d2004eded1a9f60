/**
 * One recipe as the bench will see it, for the side preview: order, materials, figures with their working, steps, and the
 * findings that stand, each beside its row. For an order with a range both ends are followed. Nothing is shown as known that the
 * run could not follow to its end.
 */
import type { Finding, Severity, Span } from "../../shared/finding.ts";
import type { Run } from "../bench/run.ts";
import type { Library, PlacedChunk } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import { lineEndAt, lineStartAt } from "../syntax/lines.ts";
import { runsOf } from "./figures.ts";
import { chunkAt } from "./place.ts";
import { figureItems, materialItems, orderItems, preparationItems, stepItems } from "./preview-rows.ts";

export interface PreviewNoteAt {
  severity: Severity;
  name: string;
  text: string;
}

/** A row before it is given its place as lines and characters. See `PreviewItem` in shared/preview.ts. */
export interface PreviewRow {
  label: string;
  text: string;
  figure: string;
  working: string[];
  more: string[];
  notes: PreviewNoteAt[];
  /** In the recipe's chunk. */
  spot: Spot | undefined;
}

export interface PreviewPart {
  kind: "order" | "materials" | "figures" | "steps" | "preparation" | "findings";
  heading: string;
  rows: PreviewRow[];
  empty: string;
}

export interface RecipePreview {
  recipe: string;
  title: string;
  asOf: string;
  counts: Record<Severity, number>;
  verdict: string;
  state: "followed" | "stopped" | "none";
  parts: PreviewPart[];
  /** The declaration itself, to make its sheet of. */
  declaration: Recipe | undefined;
  /** The recipe's chunk: row places count from its `base`. Undefined where the file has no recipe. */
  chunk: PlacedChunk | undefined;
}

/**
 * @param offset of the cursor: the recipe around it is shown, else the nearest above, else the first of the file
 * @param beside findings of the file that rest on more than the library, such as those about approvals
 */
export function previewOf(
  library: Library,
  file: string,
  offset: number,
  beside: readonly Finding[] = [],
): RecipePreview {
  const asOf = dateText(library.surroundings().asOf);
  const found = recipeNear(library, file, offset);
  if (!found) return withoutRecipe(asOf);
  const { chunk, recipe } = found;
  const findings = [...library.findings(file), ...beside].filter(
    (f) => !f.silenced && f.span.start >= chunk.base && f.span.start < chunk.base + chunk.text.length,
  );
  const counts = { error: 0, warning: 0, note: 0 };
  for (const { severity } of findings) counts[severity]++;
  const runs = runsOf(library, recipe);
  const stopped = runs.some((run) => run.unknown);
  const parts = partsOf(library, recipe, runs, stopped);
  parts.push(tell(parts, findings, chunk));
  return {
    recipe: recipe.name.name,
    title: recipe.facts.one("title")?.slots.text.text ?? recipe.name.name,
    asOf,
    counts,
    verdict: verdictOf(counts, stopped),
    state: stopped ? "stopped" : "followed",
    parts,
    declaration: recipe,
    chunk,
  };
}

function partsOf(library: Library, recipe: Recipe, runs: readonly Run[], stopped: boolean): PreviewPart[] {
  const { lookup, asOf } = library.surroundings();
  const unknown = "Not known yet: a step or a figure could not be followed. The findings below say which.";
  return [
    { kind: "order", heading: "Order", rows: orderItems(recipe), empty: "The recipe has no order yet." },
    {
      kind: "materials",
      heading: "Materials",
      rows: materialItems(recipe, runs, lookup, asOf),
      empty: "The recipe names no materials yet.",
    },
    {
      kind: "figures",
      heading: "Figures and their working",
      rows: stopped ? [] : figureItems(recipe, runs),
      empty: stopped ? unknown : "Nothing follows from the recipe yet.",
    },
    { kind: "steps", heading: "Steps", rows: stepItems(recipe, runs, stopped), empty: "The recipe has no steps yet." },
    {
      kind: "preparation",
      heading: "Finished preparation",
      rows: preparationItems(recipe),
      empty: "The recipe does not describe the finished preparation yet.",
    },
  ];
}

function recipeNear(
  library: Library,
  file: string,
  offset: number,
): { chunk: PlacedChunk; recipe: Recipe } | undefined {
  const at = chunkAt(library, file, offset);
  const all = library
    .chunks(file)
    .flatMap((chunk) => chunk.reading.declarations.flatMap((d) => (d.kind === "recipe" ? [{ chunk, recipe: d }] : [])));
  const above = all.filter(({ chunk }) => at !== undefined && chunk.base <= at.base);
  return above.at(-1) ?? all[0];
}

function withoutRecipe(asOf: string): RecipePreview {
  return {
    recipe: "",
    title: "No recipe in this file",
    asOf,
    counts: { error: 0, warning: 0, note: 0 },
    verdict: "The preview shows recipes. Open a file with a recipe, or begin one here.",
    state: "none",
    parts: [],
    declaration: undefined,
    chunk: undefined,
  };
}

function verdictOf({ error, warning, note }: Record<Severity, number>, stopped: boolean): string {
  const open = stopped ? " Some figures are not known, so not everything could be judged." : "";
  if (error > 0) {
    const verb = error === 1 ? "stands" : "stand";
    return `${count(error, "error")} ${verb} against this recipe: not for use as it is.${open}`;
  }
  if (warning > 0) return `${count(warning, "warning")}: a careful colleague would object.${open}`;
  if (stopped) return `No finding, but some figures are not known, so not everything could be judged.`;
  if (note > 0) return `${count(note, "note")} worth knowing.`;
  return "No check found anything. That does not replace the pharmacist's check.";
}

function count(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? "" : "s"}`;
}

/** Puts each finding beside the smallest row that holds its place; the part returned tells those that no row holds. */
function tell(parts: readonly PreviewPart[], findings: readonly Finding[], chunk: PlacedChunk): PreviewPart {
  const rows = parts.filter((p) => p.kind !== "figures").flatMap((p) => p.rows);
  const rest: PreviewRow[] = [];
  for (const { name, severity, message, span } of findings) {
    const note = { name, severity, text: message };
    const row = smallestAround(rows, span, chunk.base);
    if (row) row.notes.push(note);
    else {
      const spot = { start: span.start - chunk.base, end: span.end - chunk.base };
      rest.push({ label: "", text: "", figure: "", working: [], more: [], notes: [note], spot });
    }
  }
  return {
    kind: "findings",
    heading: "Other findings",
    rows: rest.map((row) => ({ ...row, text: lineOf(chunk.text, row.spot!.start) })),
    empty: "None beside those told above.",
  };
}

function smallestAround(rows: readonly PreviewRow[], span: Span, base: number): PreviewRow | undefined {
  let best: { row: PreviewRow; size: number } | undefined;
  for (const row of rows) {
    if (!row.spot || span.start < base + row.spot.start || span.start > base + row.spot.end) continue;
    const size = row.spot.end - row.spot.start;
    if (!best || size < best.size) best = { row, size };
  }
  return best?.row;
}

/** The author's line at an offset, as the row's own words. */
function lineOf(text: string, at: number): string {
  const line = text.slice(lineStartAt(text, at), lineEndAt(text, at)).trim();
  return line === "" ? "End of the recipe" : line;
}
