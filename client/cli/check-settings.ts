/** The flags of `misce check`, understood: what was typed becomes values, or a clear refusal. */
import { statSync } from "node:fs";
import { resolve } from "node:path";
import { nearNames } from "../../language/model/near.ts";
import { type Severity, severities } from "../../shared/finding.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun } from "./cannot-run.ts";
import { requireReportName } from "./report-file.ts";
import type { Surroundings } from "./surroundings.ts";

export const reportFormats = ["text", "json", "sarif", "junit", "github", "gitlab"] as const;
export type ReportFormat = (typeof reportFormats)[number];

/** As the argument parser hands them over. */
export interface CheckFlags {
  asOf?: string;
  format?: string;
  output?: string;
  level?: string;
  reportOnly?: boolean;
  quiet?: boolean;
  colour?: boolean;
  color?: boolean;
  stdinName?: string;
  changed?: string[];
  changedSince?: string;
  baseline?: string;
  writeBaseline?: boolean;
  inventory?: string[];
  cache?: boolean;
  cacheFolder?: string;
}

export interface CheckSettings {
  paths: string[];
  asOf: string;
  format: ReportFormat;
  output: string | undefined;
  level: Severity;
  reportOnly: boolean;
  quiet: boolean;
  colour: boolean;
  stdinName: string | undefined;
  changed: string[] | undefined;
  changedSince: string | undefined;
  baseline: string | undefined;
  writeBaseline: boolean;
  inventories: string[];
  /** Answers of an earlier run may be given again. */
  cache: boolean;
  cacheFolder: string | undefined;
}

/** @throws CannotRun for a value that is not among those known, and for flags that contradict each other. */
export function checkSettings(paths: readonly string[], flags: CheckFlags, surroundings: Surroundings): CheckSettings {
  const settings: CheckSettings = {
    paths: paths.length > 0 ? [...paths] : ["."],
    asOf: flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf),
    format: oneOf("--format", flags.format ?? "text", reportFormats),
    output: flags.output,
    level: oneOf("--level", flags.level ?? "warning", severities),
    reportOnly: flags.reportOnly ?? false,
    quiet: flags.quiet ?? false,
    colour: wantsColour(flags, surroundings),
    stdinName: flags.stdinName,
    changed: flags.changed,
    changedSince: flags.changedSince,
    baseline: flags.baseline,
    writeBaseline: flags.writeBaseline ?? false,
    inventories: flags.inventory ?? [],
    cache: flags.cache ?? true,
    cacheFolder: flags.cacheFolder,
  };
  if (settings.output !== undefined) requireReportName("The report", settings.output);
  if (settings.baseline !== undefined) requireReportName("The baseline", settings.baseline);
  if (settings.cacheFolder === "") throw new CannotRun("--cache-folder is empty. Name a folder, or leave it out.");
  refuseContradictions(settings, surroundings.cwd);
  return settings;
}

function refuseContradictions(s: CheckSettings, cwd: string): void {
  const isPart = s.changed !== undefined || s.changedSince !== undefined;
  if (s.changed && s.changedSince !== undefined)
    throw new CannotRun("Give either --changed or --changed-since, not both.");
  if (s.writeBaseline && s.baseline === undefined)
    throw new CannotRun("--write-baseline needs --baseline FILE to say where.");
  if (s.output !== undefined && s.baseline !== undefined && resolve(cwd, s.output) === resolve(cwd, s.baseline))
    throw new CannotRun(`--output and --baseline both name "${s.output}". Give the report a file of its own.`);
  if (s.writeBaseline && isPart) {
    throw new CannotRun("--write-baseline needs a run over all files. Leave out --changed and --changed-since.");
  }
  if (s.stdinName !== undefined && !s.paths.includes("-")) {
    throw new CannotRun("--stdin-name names the text on standard input. Add - to the paths, or leave the name out.");
  }
  if (s.stdinName !== undefined) requireStdinName(s.stdinName, cwd);
  if (isPart && s.paths.includes("-"))
    throw new CannotRun("Standard input is one text; leave out --changed and --changed-since.");
}

/** @throws CannotRun for a name that no recipe file bears: the text would be judged without the library that it belongs to. */
function requireStdinName(name: string, cwd: string): void {
  if (name === "")
    throw new CannotRun("--stdin-name is empty. Name the file that the text stands for, or leave it out.");
  const isFolder = statSync(resolve(cwd, name), { throwIfNoEntry: false })?.isDirectory();
  const what = isFolder ? "a folder" : /\.csv$/i.test(name) ? "an inventory" : undefined;
  if (what) throw new CannotRun(`--stdin-name is "${name}", ${what}. Name the recipe file that the text stands for.`);
}

function oneOf<T extends string>(flag: string, value: string, known: readonly T[]): T {
  const found = known.find((k) => k === value);
  if (found !== undefined) return found;
  const near = nearNames(value, known);
  const hint = near.length > 0 ? `Did you mean ${near.join(" or ")}? ` : "";
  throw new CannotRun(`${flag} is "${value}". ${hint}It can be ${known.slice(0, -1).join(", ")} or ${known.at(-1)}.`);
}

/** A flag decides; else NO_COLOR (no-color.org: any text but the empty one); else whether a person is looking. */
export function wantsColour(
  flags: { colour?: boolean; color?: boolean; output?: string },
  { env, stdout }: Surroundings,
): boolean {
  if (flags.colour === false || flags.color === false) return false;
  if (flags.colour === true || flags.color === true) return true;
  if (env.NO_COLOR !== undefined && env.NO_COLOR !== "") return false;
  return stdout.isTerminal && env.TERM !== "dumb" && flags.output === undefined;
}
