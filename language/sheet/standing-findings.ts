/**
 * The findings that stand against a sheet: those of the recipe and of every declaration that it rests on, and those that the checks
 * make at the very point of the order that is printed (a fault between the ends of a range shows at no end).
 */
import type { Finding } from "../../shared/finding.ts";
import type { Run } from "../bench/run.ts";
import type { ChunkFinding } from "../checks/chunk-finding.ts";
import { evaluateChunk } from "../checks/evaluate.ts";
import { findingsAt } from "../checks/judge-recipe.ts";
import { checkNames } from "../checks/registry.ts";
import type { Library, PlacedChunk } from "../library.ts";
import type { Chunk, Recipe } from "../model/declaration.ts";
import { inBase } from "../quantities/quantity.ts";

export interface Standing {
  name: string;
  severity: Finding["severity"];
  message: string;
  silenced: { because: string; by: string; until: string } | undefined;
}

/** Every finding that concerns a run, each fault once; silenced ones are kept and marked. */
export function standingFindings(library: Library, recipe: Recipe, run: Run): Standing[] {
  const file = library.spanOf({ chunk: recipe.chunk, start: 0, end: 0 })?.file ?? "";
  const names = namesUnder(run);
  const own = library.findings(file).filter((f) => f.subject === "" || concernsAny(f.subject, names));
  const told = [...own, ...aboutDeclarations(library, names, recipe.chunk)];
  const all = new Map<string, Standing>();
  for (const f of [...told, ...atThisOrder(library, file, recipe, run)]) {
    const key = `${f.name} ${f.message}`;
    if (!all.has(key)) {
      all.set(key, { name: f.name, severity: f.severity, message: f.message, silenced: f.silenced });
    }
  }
  return [...all.values()];
}

/** What keeps an answer about a recipe from being relied on: its errors that no deviation silences. */
export interface Against {
  name: string;
  message: string;
}

/** The errors that concern any of these runs of one recipe, each once. */
export function errorsAgainst(library: Library, recipe: Recipe, runs: readonly Run[]): Against[] {
  return errorsAmong(runs.flatMap((run) => standingFindings(library, recipe, run)));
}

/** The errors of what is declared under a name. */
export function errorsOfName(library: Library, name: string): Against[] {
  const chunks = new Set(library.declared(name).map((d) => d.chunk));
  return errorsAmong(chunkFindings(library, chunks));
}

function errorsAmong(findings: readonly Standing[]): Against[] {
  const errors = findings.filter((f) => f.severity === "error" && !f.silenced);
  return [...new Map(errors.map(({ name, message }) => [`${name} ${message}`, { name, message }])).values()];
}

/** Names that a run rests on. By name alone: where two declarations share one, nobody knows which is meant. */
function namesUnder(run: Run): Set<string> {
  const { recipe } = run;
  const order = recipe.order;
  const others = [order?.one("diluent")?.slots.fluid.name, order?.one("dose")?.slots.bands?.name];
  return new Set([
    recipe.name.name,
    ...recipe.materials.map((m) => m.item.name),
    ...run.setup.drugs.keys(),
    ...run.doses.map((d) => d.drug),
    ...run.setup.fluids.keys(),
    ...others.filter((name) => name !== undefined),
  ]);
}

/**
 * Findings of the declarations themselves. Only their own chunks are looked at: the files they stand in may hold hundreds of others,
 * and a sheet is waited for.
 */
function aboutDeclarations(library: Library, names: ReadonlySet<string>, own: Chunk): Standing[] {
  const lots = library.ofKind("lots").filter((d) => names.has(d.name.name));
  const declared = [...library.ofKind("site"), ...lots, ...[...names].flatMap((name) => library.declared(name))];
  const chunks = new Set(declared.map((d) => d.chunk));
  chunks.delete(own);
  return chunkFindings(library, chunks);
}

/** What is built in stands in no file and is not judged. */
function chunkFindings(library: Library, chunks: ReadonlySet<Chunk>): Standing[] {
  const around = library.surroundings();
  return [...chunks]
    .filter((chunk) => library.spanOf({ chunk, start: 0, end: 0 }))
    .flatMap((chunk) => evaluateChunk(chunk, (chunk as PlacedChunk).reading, around).map(standing));
}

/** A finding names its declaration as `stock x` or `site`; one at the top of a file concerns all that stands in it. */
function concernsAny(subject: string, names: ReadonlySet<string>): boolean {
  return subject === "site" || names.has(subject.slice(subject.indexOf(" ") + 1));
}

function atThisOrder(library: Library, file: string, recipe: Recipe, run: Run): Standing[] {
  const chunk = library.chunks(file).find((c) => c === recipe.chunk);
  if (!chunk || run.point.size === 0) return [];
  const around = library.surroundings();
  const context = { ...around, chunk, reading: chunk.reading, declaration: recipe, checkNames };
  const found = findingsAt(run.point, recipe, context, around);
  // Claims over a range ("= 20 mL to 40 mL") are held against both its ends where they are judged.
  return [...found.filter((f) => f.name !== "claim-differs").map(standing), ...claimsMissed(run)];
}

function standing({ name, severity, message, silencedBy }: ChunkFinding): Standing {
  const silenced = silencedBy && {
    because: silencedBy.because?.text ?? "",
    by: silencedBy.by?.name ?? "",
    until: silencedBy.until?.text ?? "",
  };
  return { name, severity, message, silenced };
}

/** Whether the figure of this order lies inside what is claimed beside the step. */
function claimsMissed(run: Run): Standing[] {
  if (run.unknown) return [];
  return run.steps.flatMap((step) =>
    (step.skipped ? [] : step.claims).flatMap((claim) => {
      const [from, to] = [claim.from.quantity, claim.to.quantity];
      if (claim.kind !== "moves" || !from || !to || !step.moved) return [];
      if (from.unit.dimension.key !== "volume" || to.unit.dimension.key !== "volume") return [];
      if (step.moved.isAtLeast(inBase(from)) && step.moved.isAtMost(inBase(to))) return [];
      const stated = claim.isRange ? `${claim.from.written} to ${claim.to.written}` : claim.from.written;
      const message = `Beside step ${step.number} stands ${stated}; at this order the step moves ${step.moved.toText()} mL. Find out which is wrong and mend it.`;
      return [{ name: "claim-differs", severity: "error" as const, message, silenced: undefined }];
    }),
  );
}
