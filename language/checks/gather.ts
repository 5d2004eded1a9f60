/** Runs one check and takes down what it says. */
import type { Chunk, Place } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import { anyFound } from "./asking.ts";
import type { AnyCheck, Found, Repair } from "./check.ts";
import { checkFailed, failureText } from "./check-failed.ts";
import type { ChunkFinding } from "./chunk-finding.ts";
import type { ChunkContext, FindingsContext, LibraryContext, RecipeContext } from "./context.ts";
import { toldOfSets } from "./each-of-set.ts";

type AnyContext = ChunkContext | LibraryContext | RecipeContext | FindingsContext;

/** One check's findings. What a check found before it stopped is kept, and that it stopped is told at `head`. */
export function gather(
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

/** That a part of the judging stopped: nobody may take its silence for an answer. */
export function failure(part: string, error: unknown, head: Spot, subject: (at: Spot) => string): ChunkFinding {
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
  const told: ChunkFinding[] = [];
  try {
    for (const found of all) tell(found);
  } finally {
    into.push(...toldOfSets(told));
  }

  function tell(found: Found): void {
    const said = check.say(found as never, context as never);
    // The same fault met in several runs (both ends of a range, each overfill) is said once.
    const key = `${found.at.start}:${found.at.end}:${said.text}`;
    if (seen.has(key)) return;
    seen.add(key);
    const repairs: readonly Repair[] = check.fixes?.(found as never, context as never) ?? [];
    told.push({
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
