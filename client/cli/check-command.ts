/** `misce check`: finds the files, asks the engine, compares with the baseline, writes the report, gives the exit status. */
import { renameSync, rmSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { severities } from "../../shared/finding.ts";
import { type Report, type ReportFinding, reportSchema, safetyNotice } from "../../shared/report.ts";
import { applyBaseline } from "./apply-baseline.ts";
import { reportFindings } from "./build-report.ts";
import { CannotRun, reasonOf } from "./cannot-run.ts";
import { keepChanged } from "./changed-files.ts";
import { type CheckFlags, type CheckSettings, checkSettings } from "./check-settings.ts";
import { collectFindings } from "./collect-findings.ts";
import type { CheckDescription, Engine } from "./engine-contract.ts";
import { fileChecks } from "./file-checks.ts";
import { openLibraries } from "./library-groups.ts";
import { Progress } from "./progress.ts";
import { renderReport } from "./reports/render-report.ts";
import { visible } from "./reports/visible.ts";
import { findFiles } from "./source-files.ts";
import { SourceStore } from "./source-store.ts";
import type { Surroundings } from "./surroundings.ts";
import { version } from "./version.ts";

/** @returns exit status: 0 nothing at or above the level, 1 something, 2 part of the files could not be checked. */
export async function checkCommand(
  paths: readonly string[],
  flags: CheckFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1 | 2> {
  const settings = checkSettings(paths, flags, surroundings);
  const store = new SourceStore(surroundings.cwd);
  const progress = new Progress(surroundings, !settings.quiet);
  const sources = chosenSources(settings, store, surroundings);
  const { groups, missing } = await openLibraries(engine, store, settings.asOf, sources.recipes, sources.inventories);
  const changes = await changesOf(settings, store);
  if (changes) await keepChanged(groups, changes, engine, store, settings.asOf);
  const collected = collectFindings(groups, store, progress);
  addUnread(collected.notChecked, [...sources.unreadable, ...missing], store);

  const all = reportFindings(collected.found, collected.texts);
  const baseline = settings.baseline === undefined ? undefined : applyBaseline(all, settings, collected, store);
  const findings = baseline?.reported ?? all.map((f) => f.finding);
  const report = makeReport(findings, settings, collected.files, collected.notChecked);
  if (baseline) {
    report.baseline = baseline.summary;
    report.counts.baseline = baseline.summary.known;
  }
  const rules = await rulesOf(findings, engine);
  const width = surroundings.stdout.columns;
  const text = await renderReport(report, settings, { texts: collected.texts, rules, colour: settings.colour, width });
  deliver(text, settings, surroundings);
  for (const { file, reason } of report.notChecked)
    surroundings.stderr.write(`misce: not checked: ${visible(`${file}. ${reason}`)}\n`);
  return report.exitStatus;
}

interface ChosenSources {
  recipes: string[];
  inventories: string[];
  unreadable: { path: string; reason: string }[];
}

function chosenSources(settings: CheckSettings, store: SourceStore, surroundings: Surroundings): ChosenSources {
  const onDisk = settings.paths.filter((path) => path !== "-");
  const found = findFiles(onDisk, surroundings.cwd);
  const recipes = new Set(found.recipes);
  if (settings.paths.includes("-")) {
    const path = resolve(surroundings.cwd, settings.stdinName ?? "standard-input.misce");
    store.put(path, surroundings.readStdin());
    recipes.add(path);
  }
  const named = settings.inventories.length === 0 ? [] : findFiles(settings.inventories, surroundings.cwd);
  if (!Array.isArray(named) && named.recipes.length > 0) {
    throw new CannotRun(`--inventory takes a .csv file; "${store.nameOf(named.recipes[0]!)}" is none.`);
  }
  const inventories = new Set([...found.inventories, ...(Array.isArray(named) ? [] : named.inventories)]);
  for (const path of inventories) requireReadable(path, store);
  if (recipes.size === 0 && found.unreadable.length === 0) {
    throw new CannotRun(
      "An inventory is checked together with the library that uses it. Name the library's folder too.",
    );
  }
  return {
    recipes: [...recipes].sort(),
    inventories: [...inventories].sort(),
    unreadable: found.unreadable.map(({ path, reason }) => ({ path, reason: `It could not be read: ${reason}.` })),
  };
}

function addUnread(
  notChecked: Report["notChecked"],
  unread: readonly { path: string; reason: string }[],
  store: SourceStore,
): void {
  for (const { path, reason } of unread) {
    const file = store.nameOf(path);
    if (!notChecked.some((entry) => entry.file === file)) notChecked.push({ file, reason });
  }
}

/** Without its lots a library looks better stocked, or worse, than it is. */
function requireReadable(path: string, store: SourceStore): void {
  const source = store.read(path);
  if (source.kind === "unreadable") throw new CannotRun(`"${store.nameOf(path)}" cannot be read: ${source.reason}.`);
  if (source.kind === "finding") throw new CannotRun(`"${store.nameOf(path)}": ${source.finding.message}`);
}

async function changesOf(settings: CheckSettings, store: SourceStore) {
  if (settings.changedSince !== undefined) {
    const { changesSince } = await import("./git.ts");
    return changesSince(settings.changedSince, store.cwd);
  }
  if (!settings.changed) return undefined;
  const found = settings.changed.map((path) => store.pathOf(path));
  for (const path of found) {
    const source = store.read(path);
    if (source.kind === "unreadable") {
      throw new CannotRun(
        `--changed names "${store.nameOf(path)}", which cannot be read: ${source.reason}. For removed files use --changed-since.`,
      );
    }
  }
  return { paths: found, formerBytes: undefined };
}

function makeReport(
  findings: readonly ReportFinding[],
  settings: CheckSettings,
  files: readonly string[],
  notChecked: Report["notChecked"],
): Report {
  const counts = { error: 0, warning: 0, note: 0, silenced: 0, baseline: 0 };
  for (const finding of findings) counts[finding.silenced ? "silenced" : finding.severity]++;
  const failing = severities.slice(0, severities.indexOf(settings.level) + 1).some((severity) => counts[severity] > 0);
  return {
    schema: reportSchema,
    tool: { name: "misce", version },
    asOf: settings.asOf,
    level: settings.level,
    exitStatus: notChecked.length > 0 ? 2 : failing && !settings.reportOnly ? 1 : 0,
    files: [...files],
    notChecked,
    counts,
    findings: [...findings],
    notice: safetyNotice,
  };
}

async function rulesOf(findings: readonly ReportFinding[], engine: Engine): Promise<Map<string, CheckDescription>> {
  const names = new Set(findings.map((finding) => finding.name));
  if (names.size === 0) return new Map();
  const known = [...fileChecks, ...(await engine.checks())];
  return new Map(known.filter((check) => names.has(check.name)).map((check) => [check.name, check]));
}

function deliver(text: string, settings: CheckSettings, { cwd, stdout }: Surroundings): void {
  if (settings.output === undefined) {
    if (text !== "") stdout.write(text);
    return;
  }
  const path = resolve(cwd, settings.output);
  const half = `${path}.${process.pid}.part`;
  try {
    // Written beside and moved: a reader never meets half a report.
    writeFileSync(half, text);
    renameSync(half, path);
  } catch (error) {
    rmSync(half, { force: true });
    throw new CannotRun(`The report cannot be written to "${settings.output}": ${reasonOf(error)}.`);
  }
}
