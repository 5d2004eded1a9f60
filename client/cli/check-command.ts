/** `misce check`: finds the files, asks the engine, compares with the baseline, writes the report, gives the exit status. */
import { resolve } from "node:path";
import { type Severity, severities } from "../../shared/finding.ts";
import { type ExitStatus, type Report, type ReportFinding, reportSchema, safetyNotice } from "../../shared/report.ts";
import { AnswerMemory } from "./answer-memory.ts";
import { applyBaseline, asEntries, openBaseline } from "./apply-baseline.ts";
import { addApprovalFindings } from "./approval-records.ts";
import { reportFindings } from "./build-report.ts";
import { cacheFolder, programIdentity } from "./cache-folder.ts";
import { CannotRun } from "./cannot-run.ts";
import { keepChanged } from "./changed-files.ts";
import { type CheckFlags, type CheckSettings, checkSettings } from "./check-settings.ts";
import { type Collected, type CollectOptions, collectFindings } from "./collect-findings.ts";
import type { CheckDescription, Engine } from "./engine-contract.ts";
import { fileChecks } from "./file-checks.ts";
import { isSame, type KnownByRoot, knownErrors, knownKey } from "./known-errors.ts";
import { librariesOf } from "./library-groups.ts";
import { Progress } from "./progress.ts";
import { writeReport } from "./report-file.ts";
import { renderReport } from "./reports/render-report.ts";
import { visible } from "./reports/visible.ts";
import { findFiles, findInventories } from "./source-files.ts";
import { requireReadable, SourceStore } from "./source-store.ts";
import { StableNames } from "./stable-names.ts";
import type { Surroundings } from "./surroundings.ts";
import { version } from "./version.ts";

/** @returns exit status: 0 nothing at or above the level, 1 something, 2 part of the files could not be checked, 3 only ranges not decided. */
export async function checkCommand(
  paths: readonly string[],
  flags: CheckFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<ExitStatus> {
  const settings = checkSettings(paths, flags, surroundings);
  const store = new SourceStore(surroundings.cwd);
  const names = new StableNames(store);
  const progress = new Progress(surroundings, !settings.quiet);
  const sources = chosenSources(settings, store, surroundings);
  const changes = await changesOf(settings, store);
  const { asOf } = settings;
  const { program } = surroundings;
  const opened =
    settings.baseline === undefined ? undefined : openBaseline(settings.baseline, settings.writeBaseline, store);

  /** Everything that is found beside errors that are not shown. */
  const judge = async (known: KnownByRoot) => {
    const knownIn = (root: string | undefined) =>
      known.get(opened?.seen(root === undefined ? "" : store.nameOf(root)) ?? "");
    const { groups, missing } = librariesOf(engine, store, asOf, sources.recipes, sources.inventories, knownIn);
    if (changes) await keepChanged(groups, changes, engine, store, asOf);
    const memoryOf = answerMemories(settings, engine, surroundings);
    const collected = await collectFindings(groups, store, { asOf, program, memoryOf, progress });
    await addApprovalFindings(groups, store, collected, engine, asOf);
    addUnread(collected.notChecked, [...sources.unreadable, ...missing], store);
    return { collected, all: reportFindings(collected.found, collected.texts, names) };
  };

  let known = knownErrors(opened?.entries ?? []);
  let { collected, all } = await judge(known);
  // A first baseline lists what rests on the errors that it lists, too: they will not be shown.
  while (opened && !opened.entries) {
    const more = knownErrors(asEntries(all, opened), known);
    if (isSame(more, known)) break;
    known = more;
    ({ collected, all } = await judge(known));
  }
  const baseline = opened && applyBaseline(all, opened, settings, collected);
  const findings = baseline?.reported ?? all.map((f) => f.finding);
  const report = makeReport(findings, settings, collected);
  if (baseline) {
    report.baseline = baseline.summary;
    report.counts.baseline = baseline.summary.known;
  }
  const rules = settings.format === "sarif" ? await rulesOf(findings, engine) : new Map<string, CheckDescription>();
  const width = surroundings.stdout.columns;
  const text = await renderReport(report, settings, { texts: collected.texts, rules, colour: settings.colour, width });
  deliver(text, settings, surroundings);
  for (const { file, reason } of report.notChecked)
    surroundings.stderr.write(`misce: not checked: ${visible(`${file}. ${reason}`)}\n`);
  return report.exitStatus;
}

/** One memory a library; none where nothing shall be kept, or where the engine cannot say what its answers rest on. */
function answerMemories(
  settings: CheckSettings,
  engine: Engine,
  surroundings: Surroundings,
): CollectOptions["memoryOf"] {
  const folder = cacheFolder(settings, surroundings);
  const program = folder === undefined ? undefined : programIdentity(surroundings.program!);
  return async ({ root, known }, texts) => {
    if (folder === undefined || program === undefined || !engine.recipesOnly) return undefined;
    const { asOf } = settings;
    const recipesOnly = await engine.recipesOnly();
    const options = { folder, program, asOf, cwd: surroundings.cwd, known: knownKey(known) };
    return new AnswerMemory(options, root, texts, recipesOnly);
  };
}

interface ChosenSources {
  recipes: string[];
  inventories: string[];
  unreadable: { path: string; reason: string }[];
}

function chosenSources(settings: CheckSettings, store: SourceStore, surroundings: Surroundings): ChosenSources {
  const onDisk = settings.paths.filter((path) => path !== "-");
  const found = findFiles(onDisk, surroundings.cwd, store.folders);
  const recipes = new Set(found.recipes);
  if (settings.paths.includes("-")) {
    const path = resolve(surroundings.cwd, settings.stdinName ?? "standard-input.misce");
    const bytes = surroundings.readStdin();
    // What should have written it has failed; its own exit status is lost in a pipe.
    if (bytes.length === 0) throw new CannotRun("Standard input is empty, so there is nothing to check.");
    store.put(path, bytes);
    recipes.add(path);
  }
  const inventories = new Set([...found.inventories, ...findInventories(settings.inventories, surroundings.cwd)]);
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
  { files, notChecked, ranges }: Collected,
): Report {
  const counts = { error: 0, warning: 0, note: 0, silenced: 0, baseline: 0 };
  for (const finding of findings) counts[finding.silenced ? "silenced" : finding.severity]++;
  return {
    schema: reportSchema,
    tool: { name: "misce", version },
    asOf: settings.asOf,
    level: settings.level,
    exitStatus: notChecked.length > 0 ? 2 : settings.reportOnly ? 0 : statusOf(findings, settings.level),
    files: [...files],
    notChecked,
    counts,
    ranges: [...ranges],
    findings: [...findings],
    notice: safetyNotice,
  };
}

/** What could not be decided is told from what was decided and found: the first asks for a narrower order, the second for a mend. */
function statusOf(findings: readonly ReportFinding[], level: Severity): 0 | 1 | 3 {
  const counted = severities.slice(0, severities.indexOf(level) + 1);
  const failing = findings.filter((f) => !f.silenced && counted.includes(f.severity));
  if (failing.length === 0) return 0;
  return failing.every((f) => f.name === "range-not-decided") ? 3 : 1;
}

async function rulesOf(findings: readonly ReportFinding[], engine: Engine): Promise<Map<string, CheckDescription>> {
  const names = new Set(findings.map((finding) => finding.name));
  if (names.size === 0) return new Map();
  const known = [...fileChecks, ...(await engine.checks())];
  return new Map(known.filter((check) => names.has(check.name)).map((check) => [check.name, check]));
}

function deliver(text: string, settings: CheckSettings, { cwd, stdout }: Surroundings): void {
  if (settings.output !== undefined) writeReport("The report", settings.output, text, cwd);
  else if (text !== "") stdout.write(text);
}
