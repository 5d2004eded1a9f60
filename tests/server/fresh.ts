/**
 * What a fresh `misce check` says, for comparison with what an editor shows: the folder is copied, texts typed and not saved are put
 * in, and the command runs over the copy.
 */
import { cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import type { Diagnostic } from "vscode-languageserver-protocol";
import { engine } from "../../client/cli/engine.ts";
import { run } from "../../client/cli/program.ts";
import type { Report } from "../../shared/report.ts";
import { type Editor, uriOf } from "./client.ts";

const severities = { error: 1, warning: 2, note: 3 } as const;

/**
 * @param unsaved texts by absolute path in `folder`
 * @param inventories absolute paths of exports
 * @returns by URI of the original file, one line a finding: severity, name, place, message
 */
export async function freshCheck(
  folder: string,
  asOf: string,
  unsaved: ReadonlyMap<string, string> = new Map(),
  inventories: readonly string[] = [],
): Promise<Map<string, string[]>> {
  const copy = realpathSync(mkdtempSync(join(tmpdir(), "misce-fresh-")));
  try {
    cpSync(folder, copy, { recursive: true, verbatimSymlinks: true });
    for (const [path, text] of unsaved) {
      const to = join(copy, relative(folder, path));
      mkdirSync(dirname(to), { recursive: true });
      writeFileSync(to, text);
    }
    const csv = inventories.flatMap((path) => ["--inventory", relative(folder, path)]);
    const report = await checked(copy, ["check", ".", "--format", "json", "--as-of", asOf, "--quiet", ...csv]);
    return byUri(report, folder);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

async function checked(cwd: string, words: string[]): Promise<Report> {
  let out = "";
  let err = "";
  const outlet = (write: (text: string) => void) => ({ write, isTerminal: false, columns: undefined });
  await run(words, engine, {
    cwd,
    env: {},
    stdout: outlet((text) => (out += text)),
    stderr: outlet((text) => (err += text)),
    readStdin: () => Buffer.alloc(0),
    now: () => new Date(2026, 10, 25, 12),
  });
  if (out === "") throw new Error(`misce check gave no report: ${err}`);
  return JSON.parse(out) as Report;
}

function byUri(report: Report, folder: string): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const f of report.findings) {
    const { line, column, endLine, endColumn } = f.place;
    const tail = f.silenced ? ` Silenced until ${f.silenced.until} by ${f.silenced.by}: ${f.silenced.because}` : "";
    const level = f.silenced ? 4 : severities[f.severity];
    const uri = uriOf(join(folder, f.place.file));
    const said = `${level} ${f.name} ${line - 1}:${column - 1}-${endLine - 1}:${endColumn - 1} ${f.message}${tail}`;
    found.set(uri, [...(found.get(uri) ?? []), said].sort());
  }
  return found;
}

/** What the editor shows now, in the same words; files without findings left out. */
export function shownNow(e: Editor): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const [uri, { diagnostics }] of e.shown) {
    if (diagnostics.length > 0) found.set(uri, diagnostics.map(lineOf).sort());
  }
  return found;
}

export function lineOf({ severity, code, range, message }: Diagnostic): string {
  const { start, end } = range;
  return `${severity} ${code} ${start.line}:${start.character}-${end.line}:${end.character} ${message}`;
}

export function sorted(map: ReadonlyMap<string, string[]>): [string, string[]][] {
  return [...map].sort((a, b) => (a[0] < b[0] ? -1 : 1));
}
