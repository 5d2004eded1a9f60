/**
 * Runs the checks over one chunk: from declarations to findings. What a deviation silences is marked, not dropped; what the site
 * re-grades is re-graded. Findings carry places in chunks; the library turns them into places in files.
 */
import type { Family, OverRange, Severity } from "../../shared/finding.ts";
import { endsOf, type OrderPoint } from "../bench/order.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import type { CalendarDate } from "../model/dates.ts";
import type { Chunk, ChunkReading, Declaration, Deviation, Place, Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { Spot } from "../model/slots.ts";
import { anyFound } from "./asking.ts";
import type { AnyCheck, RecipeCheck, Repair } from "./check.ts";
import { checkFailed, failureText } from "./check-failed.ts";
import type { ChunkContext, FindingsContext, LibraryContext, RecipeContext } from "./context.ts";
import { deviationHolds, isBeyondDeviations } from "./deviations.ts";
import { isForDoseTold } from "./dose-consequences.ts";
import {
  foundKey,
  isIdle,
  type JudgedPiece,
  judgeRange,
  pointsAcross,
  type RangeJudgement,
  type RangeWork,
} from "./over-range.ts";
import { contradiction, figuresOf, overRange } from "./range-finding.ts";
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
  /** Set where the order has a range: the point that is shown, and for which orders it is so. */
  overRange?: OverRange;
}

export interface Surroundings {
  lookup: Lookup;
  policy: Policy;
  asOf: CalendarDate;
}

const chunkChecks = allChecks.filter((c) => c.on === "chunk");
const libraryChecks = allChecks.filter((c) => c.on === "library");
const recipeChecks = allChecks.filter((c) => c.on === "recipe");
const findingsChecks = allChecks.filter((c) => c.on === "findings");

/**
 * Chunks in which the checks of a chunk alone found nothing, with the policy under which they looked: there is nothing else that they
 * look at, so that a change elsewhere need not ask them again.
 */
const quietChunks = new WeakMap<Chunk, Policy>();

/** @param onRange told of each recipe whose order has a range, with how far it was decided */
export function evaluateChunk(
  chunk: Chunk,
  reading: ChunkReading,
  around: Surroundings,
  onRange?: (recipe: Recipe, range: RangeJudgement) => void,
): ChunkFinding[] {
  const findings: ChunkFinding[] = [];
  const context: ChunkContext = { chunk, reading, policy: around.policy };
  const top = reading.declarations[0]?.head ?? { start: 0, end: 0 };
  const subjectOfSpot = subjectAt(reading);
  if (quietChunks.get(chunk) !== around.policy) {
    for (const check of chunkChecks) gather(check, context, chunk, subjectOfSpot, findings, top);
    if (findings.length === 0) quietChunks.set(chunk, around.policy);
  }
  for (const declaration of reading.declarations) {
    const subject = () => subjectOf(declaration);
    const library: LibraryContext = { ...context, declaration, lookup: around.lookup, asOf: around.asOf, checkNames };
    for (const check of libraryChecks) gather(check, library, chunk, subject, findings, declaration.head);
    if (declaration.kind === "recipe") judgeRecipe(declaration, library, around, findings, onRange);
  }
  regrade(findings, around.policy);
  for (const recipe of reading.declarations) {
    if (recipe.kind !== "recipe") continue;
    silence(findings, recipe, chunk, around);
    const library: LibraryContext = {
      ...context,
      declaration: recipe,
      lookup: around.lookup,
      asOf: around.asOf,
      checkNames,
    };
    judgeFindings(recipe, library, findings);
  }
  return findings
    .filter((f) => around.policy.severities.get(f.name) !== "off" || f.check === checkFailed)
    .sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end || (a.name < b.name ? -1 : 1));
}

function judgeRecipe(
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
  findings: ChunkFinding[],
  onRange: ((recipe: Recipe, range: RangeJudgement) => void) | undefined,
): void {
  const subject = () => subjectOf(recipe);
  const plain = new Map<JudgedPiece, RecipeContext>();
  const work = rangeWork(recipe, library, around);
  const { contextOf } = work;
  let range: RangeJudgement | undefined;
  let runs: Run[];
  try {
    range = judgeRange(work);
    runs = range ? runsAt(recipe, pointsAcross(recipe, range), around) : allRuns(recipe, around);
  } catch (error) {
    findings.push(failure("following the steps", error, recipe.head, subject));
    return;
  }
  if (!range) {
    gatherRecipe(recipeChecks, contextOf(runs), subject, findings);
    return;
  }
  onRange?.(recipe, range);
  const across = contextOf(runs, range);
  for (const check of recipeChecks) {
    if (check.across) {
      if (runs.length > 0 || check.across === "pieces")
        gather(check, across, library.chunk, subject, findings, recipe.head);
    } else gatherOverRange(check, range, library.chunk, subject, findings, recipe);
  }

  /** Each fault is shown at the roundest point at which it is met, run on the ordinary bench. */
  function gatherOverRange(
    check: RecipeCheck,
    range: RangeJudgement,
    chunk: Chunk,
    subject: (at: Spot) => string,
    into: ChunkFinding[],
    { head }: Recipe,
  ): void {
    const { axes, pieces } = range;
    const keys = new Set(pieces.flatMap((p) => [...p.result.found].filter((k) => k.startsWith(`${check.name} `))));
    for (const key of keys) {
      const failing = pieces.filter((p) => p.result.found.has(key));
      if (isForDoseTold(check, failing, pieces, recipe, around.policy)) continue;
      const shown = failing.reduce((best, p) => (figuresOf(p.point) < figuresOf(best.point) ? p : best));
      const again: ChunkFinding[] = [];
      gather(check, plainContext(shown), chunk, subject, again, head);
      const same = again.filter((f) => f.check === checkFailed || foundKey(check, f.at) === key);
      if (same.length === 0) into.push(contradiction(check.name, axes, shown, head, subject));
      for (const finding of same) into.push({ ...finding, ...overRange(finding.message, range, failing, shown) });
    }
  }

  function plainContext(piece: JudgedPiece): RecipeContext {
    const known = plain.get(piece);
    if (known) return known;
    const made = contextOf(runsAt(recipe, [piece.orderPoint], around), range);
    plain.set(piece, made);
    return made;
  }
}

/** All that judging a recipe over its range takes. */
export function rangeWork(recipe: Recipe, library: LibraryContext, around: Surroundings): RangeWork {
  const namesAt = (point: OrderPoint) => findingNamesAt(point, recipe, library, around);
  return {
    recipe,
    checks: recipeChecks,
    runsAt: (point) => runsAt(recipe, [point], around),
    contextOf: (runs, range) => ({
      ...library,
      declaration: recipe,
      recipe,
      run: runs[0]!,
      runs,
      range,
      namesAt,
    }),
  };
}

/** Checks that look at what the others found; they come last and see what was silenced. */
function judgeFindings(recipe: Recipe, library: LibraryContext, findings: ChunkFinding[]): void {
  const subject = () => subjectOf(recipe);
  const before = findings.filter((f) => f.subject === subjectOf(recipe));
  const context: FindingsContext = { ...library, declaration: recipe, recipe, findings: before };
  const later: ChunkFinding[] = [];
  for (const check of findingsChecks) gather(check, context, library.chunk, subject, later, recipe.head);
  regrade(later, library.policy);
  findings.push(...later);
}

/** What an example may expect: the findings of its recipe at one point of the order. */
function findingNamesAt(
  point: OrderPoint,
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
): ReadonlySet<string> {
  // Checks across a range (`= 20 mL to 40 mL`, a step that never happens) say nothing of one point in it.
  const isOfRange = ({ check }: ChunkFinding) => point.size > 0 && "across" in check && check.across !== undefined;
  const counted = findingsAt(point, recipe, library, around).filter((f) => !f.silencedBy && !isOfRange(f));
  return new Set(counted.map((f) => f.name));
}

/** The findings of a recipe's own checks at one point of its order, silenced ones marked. Examples themselves are left aside. */
export function findingsAt(
  point: OrderPoint,
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
): ChunkFinding[] {
  const runs = [runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" })];
  const namesAt = () => new Set<string>();
  const context: RecipeContext = { ...library, declaration: recipe, recipe, run: runs[0]!, runs, namesAt };
  const subject = () => subjectOf(recipe);
  const found: ChunkFinding[] = [];
  gatherRecipe(notAboutExamples, context, subject, found);
  regrade(found, around.policy);
  silence(found, recipe, library.chunk, around);
  return found.filter((f) => around.policy.severities.get(f.name) !== "off");
}

const notAboutExamples = recipeChecks.filter((check) => !check.name.startsWith("example-"));

/** What these checks find in a recipe's runs. */
function gatherRecipe(
  checks: readonly RecipeCheck[],
  context: RecipeContext,
  subject: () => string,
  into: ChunkFinding[],
): void {
  const { chunk, recipe } = context;
  for (const check of checks) {
    if (!isIdle(check, context)) gather(check, context, chunk, subject, into, recipe.head);
  }
}

/** The runs of an order without ranges; of one with ranges, at their lower ends and at their upper ends. The label run is the first. */
export function allRuns(recipe: Recipe, around: Surroundings): Run[] {
  return runsAt(recipe, endsOf(recipe), around);
}

/** By the label at each point, then with least and with most overfill at each, where a stock declares it. */
function runsAt(recipe: Recipe, points: readonly OrderPoint[], around: Surroundings): Run[] {
  const runs = points.map((point) => runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" }));
  const overfilled = recipe.materials.some((m) => around.lookup.find("stock", m.item.name)?.facts.one("overfill"));
  if (overfilled) {
    for (const overfill of ["least", "most"] as const) {
      for (const point of points) runs.push(runRecipe(recipe, around.lookup, around.policy, { point, overfill }));
    }
  }
  return runs;
}

type AnyContext = ChunkContext | LibraryContext | RecipeContext | FindingsContext;

/** One check's findings. What a check found before it stopped is kept, and that it stopped is told at `head`. */
function gather(
  check: AnyCheck,
  context: AnyContext,
  chunk: Chunk,
  subject: (at: Spot) => string,
  into: ChunkFinding[],
  head: Spot,
): void {
  try {
    gatherAll(check, context, chunk, subject, into);
  } catch (error) {
    into.push(failure(check.name, error, head, subject));
  }
}

function failure(part: string, error: unknown, head: Spot, subject: (at: Spot) => string): ChunkFinding {
  const { name, family, severity } = checkFailed;
  const at = { start: head.start, end: head.end };
  const message = failureText(part, error);
  return {
    check: checkFailed,
    name,
    family,
    severity,
    at,
    message,
    related: [],
    fixes: [],
    subject: subject(at),
    silencedBy: undefined,
  };
}

function gatherAll(
  check: AnyCheck,
  context: AnyContext,
  chunk: Chunk,
  subject: (at: Spot) => string,
  into: ChunkFinding[],
): void {
  const all = anyFound(check.find(context as never));
  if (!all) return;
  const seen = new Set<string>();
  for (const found of all) {
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
    if (finding.check === checkFailed) continue;
    const level = policy.severities.get(finding.name);
    if (level && level !== "off") finding.severity = level;
  }
}

/** A deviation silences the findings of its name at its place: `on NAME` means the finding's words or step name that thing. */
function silence(findings: ChunkFinding[], recipe: Recipe, chunk: Chunk, around: Surroundings): void {
  for (const deviation of recipe.deviations) {
    if (!deviationHolds(deviation, around)) continue;
    const name = deviation.check.name;
    if (around.policy.neverSilenced.has(name) || isBeyondDeviations(name)) continue;
    for (const finding of findings) {
      if (finding.name !== name || finding.silencedBy || finding.subject !== subjectOf(recipe)) continue;
      if (deviation.on && !concerns(finding, deviation.on.name, recipe, chunk)) continue;
      finding.silencedBy = deviation;
      break; // one deviation, one place: a second fault of the same kind is not hidden by the first
    }
  }
}

/** Whether a finding is about a thing of the recipe: its own words name it, the step it stands in does, or it stands in its block. */
export function concerns(finding: ChunkFinding, thing: string, recipe: Recipe, chunk: Chunk): boolean {
  const isWithin = (fact: Spot) => fact.start <= finding.at.start && finding.at.end <= fact.end;
  if (recipe.preparations.some((p) => p.name.name === thing && p.facts.every().some(isWithin))) return true;
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
