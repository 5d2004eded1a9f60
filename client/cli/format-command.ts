/** `misce format`: writes files in the canonical layout, or says which are not in it. */
import { CannotRun, reasonOf } from "./cannot-run.ts";
import { decode } from "./decode.ts";
import type { Engine } from "./engine-contract.ts";
import { visible } from "./reports/visible.ts";
import { findFiles } from "./source-files.ts";
import { SourceStore } from "./source-store.ts";
import type { Surroundings } from "./surroundings.ts";
import { writeWhole } from "./write-whole.ts";

export interface FormatFlags {
  /** Change nothing; say which files would change. */
  check?: boolean;
}

/** @returns 0 done or nothing to do; 1 with `--check`, some file would change; 2 a file was left as it was. */
export async function formatCommand(
  paths: readonly string[],
  flags: FormatFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1 | 2> {
  const formatText = await engine.formatText();
  if (paths.includes("-")) {
    if (paths.length > 1) throw new CannotRun("Standard input (-) is laid out alone. Leave out the other paths.");
    return formatStdin(formatText, flags, surroundings);
  }
  const { stdout, stderr, cwd } = surroundings;
  const store = new SourceStore(cwd);
  const found = findFiles(paths.length > 0 ? paths : ["."], cwd);
  if (found.recipes.length === 0 && found.unreadable.length === 0)
    throw new CannotRun("An inventory has no layout of its own. Name recipe files, or folders with them.");
  const result = { changed: 0, same: 0, left: 0 };
  const leave = (name: string, reason: string) => {
    result.left++;
    stderr.write(`misce: left as it was: ${visible(`${name}. ${reason}`)}\n`);
  };
  for (const { path, reason } of found.unreadable) leave(store.nameOf(path), `It could not be read: ${reason}.`);
  for (const path of found.recipes) {
    const name = store.nameOf(path);
    const source = store.read(path);
    if (source.kind === "unreadable") leave(name, `It could not be read: ${source.reason}.`);
    else if (source.kind === "finding") leave(name, source.finding.message);
    else {
      const laidOut = layOut(source.text, formatText);
      if ("reason" in laidOut) leave(name, laidOut.reason);
      else if (laidOut.text === source.text) result.same++;
      else {
        const failure = flags.check ? undefined : replaceFile(path, laidOut.text);
        if (failure === undefined) {
          result.changed++;
          stdout.write(`${flags.check ? "would change" : "changed"}  ${visible(name)}\n`);
        } else leave(name, failure);
      }
    }
  }
  const verb = flags.check ? "would change" : "changed";
  stderr.write(`${result.changed} ${verb}, ${result.same} already in layout, ${result.left} left as they were.\n`);
  return result.left > 0 ? 2 : flags.check && result.changed > 0 ? 1 : 0;
}

function formatStdin(
  formatText: (text: string) => string,
  flags: FormatFlags,
  { stdout, readStdin }: Surroundings,
): 0 | 1 {
  const bytes = readStdin();
  // As with a check: what should have written it has failed.
  if (bytes.length === 0) throw new CannotRun("Standard input is empty, so there is nothing to lay out.");
  const decoded = decode(bytes, "standard input");
  if ("finding" in decoded) throw new CannotRun(`Standard input: ${decoded.finding.message}`);
  const laidOut = layOut(decoded.text, formatText);
  if ("reason" in laidOut) throw new CannotRun(`Standard input: ${laidOut.reason}`);
  if (flags.check) return laidOut.text === decoded.text ? 0 : 1;
  stdout.write(laidOut.text);
  return 0;
}

/**
 * Invariant: laying out moves blanks and nothing else. It is tested where it is made; here it is checked once more on every file,
 * since a figure lost while writing would be lost for good.
 */
function layOut(text: string, formatText: (text: string) => string): { text: string } | { reason: string } {
  const result = formatText(text);
  if (withoutBlanks(result) === withoutBlanks(text)) return { text: result };
  return { reason: "Its layout could not be changed without changing its content; this is a fault of this program." };
}

function withoutBlanks(text: string): string {
  return text.replace(/[ \t\r\n\ufeff]+/g, "");
}

/** @returns a reason on failure. */
function replaceFile(path: string, text: string): string | undefined {
  try {
    writeWhole(path, text);
    return undefined;
  } catch (error) {
    return `It could not be written: ${reasonOf(error)}.`;
  }
}
