/**
 * Runs the checks over one chunk: from declarations to findings. What a deviation silences is marked, not dropped; what the site
 * re-grades is re-graded. Findings carry places in chunks; the library turns them into places in files.
 */
import type { Run } from "../bench/run.ts";
import type { Chunk, ChunkReading, Recipe } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import type { Spot } from "../model/slots.ts";
import { checkFailed } from "./check-failed.ts";
import { type ChunkFinding, type Surroundings, subjectOf } from "./chunk-finding.ts";
import type { ChunkContext, FindingsContext, LibraryContext } from "./context.ts";
import { foldFollowUps } from "./follow-ups.ts";
import { gather } from "./gather.ts";
import { regrade, silence } from "./grading.ts";
import { judgeRecipe, judgeWritten } from "./judge-recipe.ts";
import type { RangeJudgement } from "./over-range.ts";
import { allChecks, checkNames } from "./registry.ts";

const chunkChecks = allChecks.filter((c) => c.on === "chunk");
const libraryChecks = allChecks.filter((c) => c.on === "library" && !c.alone);
const declarationChecks = allChecks.filter((c) => c.on === "library" && c.alone);
const findingsChecks = allChecks.filter((c) => c.on === "findings");

/**
 * Chunks in which the checks that look at nothing but the text and the policy found nothing, with the policy under which they looked: a
 * change elsewhere need not ask them again.
 */
const quietChunks = new WeakMap<Chunk, Policy>();

/** @param onRange told of each recipe whose order has a range, with how far it was decided */
export function evaluateChunk(
  chunk: Chunk,
  reading: ChunkReading,
  around: Surroundings,
  onRange?: (recipe: Recipe, range: RangeJudgement) => void,
): ChunkFinding[] {
  const runs = new Map<Recipe, Run>();
  const findings = judgeChunk(chunk, reading, around, onRange, runs);
  for (const declaration of reading.declarations) {
    if (declaration.kind !== "recipe") continue;
    foldFollowUps(
      findings,
      declaration,
      { chunk, reading, ...asked(around), declaration },
      around,
      runs.get(declaration),
    );
  }
  return findings;
}

function asked({ policy, lookup, asOf }: Surroundings) {
  return { policy, lookup, asOf, checkNames };
}

/** All that the checks find, each as a finding of its own. @param runs takes the runs by the labels of orders without a range */
export function judgeChunk(
  chunk: Chunk,
  reading: ChunkReading,
  around: Surroundings,
  onRange?: (recipe: Recipe, range: RangeJudgement) => void,
  runs?: Map<Recipe, Run>,
): ChunkFinding[] {
  const findings: ChunkFinding[] = [];
  const context: ChunkContext = { chunk, reading, policy: around.policy };
  const top = reading.declarations[0]?.head ?? { start: 0, end: 0 };
  const subjectOfSpot = subjectAt(reading);
  const { lookup, asOf } = around;
  const contexts = reading.declarations.map(
    (declaration): LibraryContext => ({ ...context, declaration, lookup, asOf, checkNames }),
  );
  if (quietChunks.get(chunk) !== around.policy) {
    for (const check of chunkChecks) gather(check, context, chunk, subjectOfSpot, findings, top);
    for (const library of contexts) {
      const { declaration } = library;
      const subject = () => subjectOf(declaration);
      for (const check of declarationChecks) gather(check, library, chunk, subject, findings, declaration.head);
      if (declaration.kind === "recipe") judgeWritten(declaration, library, findings);
    }
    if (findings.length === 0) quietChunks.set(chunk, around.policy);
  }
  for (const library of contexts) {
    const { declaration } = library;
    const subject = () => subjectOf(declaration);
    for (const check of libraryChecks) gather(check, library, chunk, subject, findings, declaration.head);
    if (declaration.kind !== "recipe") continue;
    const run = judgeRecipe(declaration, library, around, findings, onRange);
    if (run) runs?.set(declaration, run);
  }
  regrade(findings, around.policy);
  for (const library of contexts) {
    const { declaration } = library;
    if (declaration.kind !== "recipe") continue;
    silence(findings, declaration, chunk, around);
    judgeFindings(declaration, library, findings);
  }
  return findings
    .filter((f) => around.policy.severities.get(f.name) !== "off" || f.check === checkFailed)
    .sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end || (a.name < b.name ? -1 : 1));
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
