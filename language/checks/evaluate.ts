/**
 * Runs the checks over one chunk: from declarations to findings. What a deviation silences is marked, not dropped; what the site
 * re-grades is re-graded. Findings carry places in chunks; the library turns them into places in files.
 */
import type { Family, Severity } from "../../shared/finding.ts";
import { pointAt } from "../bench/order.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import type { CalendarDate } from "../model/dates.ts";
import type { Chunk, ChunkReading, Declaration, Deviation, Place, Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { Spot } from "../model/slots.ts";
import type { AnyCheck, Found, Repair } from "./check.ts";
import type { ChunkContext, LibraryContext, RecipeContext } from "./context.ts";
import { allChecks, checkNames } from "./registry.ts";

/** A finding whose places are in chunks. */
export interface ChunkFinding {
  check: AnyCheck;
  name: string;
  family: Family;
  severity: Severity;
  at: Spot;
  message: string;
  related: { at: Place; text: string }[];
  fixes: { title: string; preferred: boolean; edits: { at: Place; text: string }[] }[];
  subject: string;
  silencedBy: Deviation | undefined;
}

export interface Surroundings {
  lookup: Lookup;
  policy: Policy;
  asOf: CalendarDate;
}

const chunkChecks = allChecks.filter((c) => c.on === "chunk");
const libraryChecks = allChecks.filter((c) => c.on === "library");
const recipeChecks = allChecks.filter((c) => c.on === "recipe");

export function evaluateChunk(chunk: Chunk, reading: ChunkReading, around: Surroundings): ChunkFinding[] {
  const findings: ChunkFinding[] = [];
  const context: ChunkContext = { chunk, reading, policy: around.policy };
  for (const check of chunkChecks) gather(check, context, chunk, subjectAt(reading), findings);
  for (const declaration of reading.declarations) {
    const subject = () => subjectOf(declaration);
    const library: LibraryContext = { ...context, declaration, lookup: around.lookup, asOf: around.asOf, checkNames };
    for (const check of libraryChecks) gather(check, library, chunk, subject, findings);
    if (declaration.kind !== "recipe") continue;
    const runs = allRuns(declaration, around);
    const recipe: RecipeContext = { ...library, declaration, recipe: declaration, run: runs[0]!, runs };
    for (const check of recipeChecks) gather(check, recipe, chunk, subject, findings);
  }
  regrade(findings, around.policy);
  const recipes = reading.declarations.filter((d): d is Recipe => d.kind === "recipe");
  for (const recipe of recipes) silence(findings, recipe, chunk, around);
  return findings
    .filter((f) => around.policy.severities.get(f.name) !== "off")
    .sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end || (a.name < b.name ? -1 : 1));
}

/**
 * The runs that are looked at: both ends of every input range, and least and most overfill where a stock declares it. The first
 * is the label run at the lower ends. What lies between the ends is a matter of proof, said where it is not done.
 */
export function allRuns(recipe: Recipe, around: Surroundings): Run[] {
  const low = pointAt(recipe, "from");
  const high = pointAt(recipe, "to");
  const points = [...low].some(
    ([input, value]) => high.get(input) !== undefined && !value.value.equals(high.get(input)!.value),
  )
    ? [low, high]
    : [low];
  const runs = points.map((point) => runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" }));
  const overfilled = recipe.materials.some((m) => around.lookup.find("stock", m.item.name)?.facts.one("overfill"));
  if (overfilled) {
    for (const overfill of ["least", "most"] as const) {
      for (const point of points) runs.push(runRecipe(recipe, around.lookup, around.policy, { point, overfill }));
    }
  }
  return runs;
}

function gather(
  check: AnyCheck,
  context: ChunkContext | LibraryContext | RecipeContext,
  chunk: Chunk,
  subject: (at: Spot) => string,
  into: ChunkFinding[],
): void {
  const seen = new Set<string>();
  for (const found of check.find(context as never) as Iterable<Found>) {
    const said = check.say(found as never, context as never);
    // The same fault met in several runs (both ends of a range, each overfill) is said once.
    const key = `${found.at.start}:${found.at.end}:${said.text}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const repairs: readonly Repair[] = check.fixes?.(found as never, context as never) ?? [];
    into.push({
      check,
      name: check.name,
      family: check.family,
      severity: check.severity,
      at: { start: found.at.start, end: found.at.end },
      message: said.text,
      related: (said.related ?? []).map((r) => ({ at: placed(r.at, chunk), text: r.text })),
      fixes: repairs.map((r) => ({
        title: r.title,
        preferred: r.preferred ?? false,
        edits: r.edits.map((e) => ({ at: placed(e.at, chunk), text: e.text })),
      })),
      subject: subject(found.at),
      silencedBy: undefined,
    });
  }
}

function placed(at: Spot | Place, chunk: Chunk): Place {
  return "chunk" in at ? at : { start: at.start, end: at.end, chunk };
}

export function subjectOf(declaration: Declaration): string {
  return declaration.kind === "site" ? "site" : `${declaration.kind} ${declaration.name.name}`;
}

function subjectAt(reading: ChunkReading): (at: Spot) => string {
  return (at) => {
    const index = reading.blocks.findIndex((b) => b.start <= at.start && at.start <= b.end);
    const block = reading.blocks[index];
    const declaration = reading.declarations.find(
      (d) => block && d.head.start >= block.start && d.head.start <= block.end,
    );
    return declaration ? subjectOf(declaration) : "";
  };
}

function regrade(findings: ChunkFinding[], policy: Policy): void {
  for (const finding of findings) {
    const level = policy.severities.get(finding.name);
    if (level && level !== "off") finding.severity = level;
  }
}

/** Findings that speak of the deviations themselves can never be silenced by one. */
const aboutDeviations = /^deviation-/;

/** A deviation silences the findings of its name at its place: `on NAME` means the finding's words or step name that thing. */
function silence(findings: ChunkFinding[], recipe: Recipe, chunk: Chunk, around: Surroundings): void {
  for (const deviation of recipe.deviations) {
    if (!deviationHolds(deviation, around)) continue;
    const name = deviation.check.name;
    if (around.policy.neverSilenced.has(name) || aboutDeviations.test(name)) continue;
    for (const finding of findings) {
      if (finding.name !== name || finding.silencedBy || finding.subject !== subjectOf(recipe)) continue;
      if (deviation.on && !concerns(finding, deviation.on.name, recipe, chunk)) continue;
      finding.silencedBy = deviation;
      break; // one deviation, one place: a second fault of the same kind is not hidden by the first
    }
  }
}

/** Complete (reason, role, end date), the role known, and its last day not past. */
export function deviationHolds(deviation: Deviation, around: Pick<Surroundings, "policy" | "asOf">): boolean {
  if (!deviation.because?.text.trim() || !deviation.by || !deviation.until) return false;
  if (!around.policy.roles.includes(deviation.by.name)) return false;
  const { year, month, day } = around.asOf;
  const today = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
  return deviation.until.text.length === 10 && deviation.until.text >= today;
}

/** Whether a finding is about a thing of the recipe: its own words name it, or the step it stands in does. */
export function concerns(finding: ChunkFinding, thing: string, recipe: Recipe, chunk: Chunk): boolean {
  const step = recipe.steps.find((s) => s.start <= finding.at.start && finding.at.start <= s.end);
  const within = step ?? lineAround(chunk.text, finding.at);
  const text = chunk.text.slice(within.start, within.end);
  const words = text.split(/[\s,]+/);
  return words.includes(thing);
}

function lineAround(text: string, at: Spot): Spot {
  const start = text.lastIndexOf("\n", at.start - 1) + 1;
  const end = text.indexOf("\n", at.end);
  return { start, end: end < 0 ? text.length : end };
}
