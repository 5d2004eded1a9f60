/** `misce compare`: what changed in meaning between two states, and what it does at the bench. */
import { type ChangeLevel, type Comparison, changeLevels, comparisonSchema } from "../../shared/comparison.ts";
import { safetyNotice } from "../../shared/report.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun } from "./cannot-run.ts";
import { comparePair } from "./compare-pair.ts";
import { comparedSides, libraryPairs, unopened } from "./compare-sides.ts";
import { isWithin } from "./compared-side.ts";
import type { Engine, MeaningMaker } from "./engine-contract.ts";
import { writeReport } from "./report-file.ts";
import { visible } from "./reports/visible.ts";
import type { Surroundings } from "./surroundings.ts";
import { version } from "./version.ts";

export interface CompareFlags {
  staged?: boolean;
  asOf?: string;
  format?: string;
  output?: string;
  level?: string;
  /** The file of the working copy that both sides are states of; git hands them over under other names. */
  of?: string;
}

/** @returns exit status: 0 nothing at or above the level, 1 something, 2 not all could be compared. */
export async function compareCommand(
  words: readonly string[],
  flags: CompareFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1 | 2> {
  const maker = await meaningMakerOf(engine);
  const form = flags.format ?? "text";
  if (!(maker.forms as readonly string[]).includes(form))
    throw new CannotRun(`--format is "${form}". Write ${maker.forms.join(", ")}.`);
  const level = (flags.level ?? "fact") as ChangeLevel;
  if (!changeLevels.includes(level) || level === "none")
    throw new CannotRun(`--level is "${level}". Write fact, consequence or verdict.`);
  const asOf = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  const sides = comparedSides(words, flags.staged ?? false, surroundings.cwd, engine, asOf, flags.of);
  const names = { before: sides.before.label, after: sides.after.label };
  const notOpened = unopened(sides);
  const parts: Comparison[] = [];
  const isAsked = (file: string) => sides.only === undefined || isWithin(file, sides.only);
  for (const pair of libraryPairs(sides.before, sides.after)) {
    if (![...pair.before.keys(), ...pair.after.keys()].some(isAsked)) continue;
    const about = { names, version, notOpened: [] };
    const part = await comparePair(pair, engine, maker, { asOf, program: surroundings.program, about });
    parts.push(sides.only === undefined ? part : maker.aboutFiles(part, isAsked));
  }
  const comparison = joined(parts, { names, asOf, notOpened }, level);
  deliver(maker.report(comparison, form as never), flags.output, surroundings);
  for (const { file, reason } of notOpened)
    surroundings.stderr.write(`misce: not compared: ${visible(`${file}. ${reason}`)}\n`);
  return comparison.exitStatus;
}

export async function meaningMakerOf(engine: Engine): Promise<MeaningMaker> {
  const maker = await engine.meanings?.();
  if (!maker) throw new CannotRun("This engine compares no meanings.");
  return maker;
}

/** Several libraries in one comparison, gravest first. */
function joined(
  parts: readonly Comparison[],
  {
    names,
    asOf,
    notOpened,
  }: { names: { before: string; after: string }; asOf: string; notOpened: Comparison["notOpened"] },
  level: ChangeLevel,
): Comparison {
  const rank = Math.max(0, ...parts.map((p) => changeLevels.indexOf(p.level)));
  const counts = { declarations: 0, facts: 0, consequences: 0, verdicts: 0, alarms: 0 };
  for (const part of parts)
    for (const key of Object.keys(counts) as (keyof typeof counts)[]) counts[key] += part.counts[key];
  return {
    schema: comparisonSchema,
    tool: { name: "misce", version },
    asOf,
    ...names,
    level: changeLevels[rank]!,
    exitStatus: notOpened.length > 0 ? 2 : rank >= changeLevels.indexOf(level) ? 1 : 0,
    counts,
    declarations: parts.flatMap((p) => p.declarations),
    notRead: parts.flatMap((p) => p.notRead),
    notOpened,
    notice: safetyNotice,
  };
}

function deliver(text: string, output: string | undefined, { cwd, stdout }: Surroundings): void {
  if (output === undefined) stdout.write(text);
  else writeReport("The report", output, text, cwd);
}
