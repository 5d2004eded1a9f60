/** Runs a command line inside the test's own process, over a folder of its own, with the stand-in engine. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { onTestFinished } from "vitest";
import type { Engine } from "../../client/cli/engine-contract.ts";
import { run } from "../../client/cli/program.ts";
import { engine as fakeEngine } from "./fake-engine.ts";

export const asOf = ["--as-of", "2026-11-25"];

/** A folder with these files, gone after the test. A name may hold folders. */
export function folderWith(files: Record<string, string | Buffer>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-cli-")));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) write(folder, name, content);
  return folder;
}

export function write(folder: string, name: string, content: string | Buffer): void {
  mkdirSync(dirname(join(folder, name)), { recursive: true });
  writeFileSync(join(folder, name), content);
}

export interface Ran {
  status: number;
  out: string;
  err: string;
}

export interface Conditions {
  stdin?: string | Buffer;
  env?: Record<string, string>;
  terminal?: boolean;
  engine?: Engine;
  now?: () => Date;
}

export async function runIn(cwd: string, words: readonly string[], conditions: Conditions = {}): Promise<Ran> {
  const ran: Ran = { status: -1, out: "", err: "" };
  const isTerminal = conditions.terminal ?? false;
  const columns = isTerminal ? 80 : undefined;
  ran.status = await run(words, conditions.engine ?? fakeEngine, {
    cwd,
    env: conditions.env ?? {},
    stdout: { write: (text) => (ran.out += text), isTerminal, columns },
    stderr: { write: (text) => (ran.err += text), isTerminal, columns },
    readStdin: () => Buffer.from(conditions.stdin ?? ""),
    now: conditions.now ?? (() => new Date(2026, 10, 25, 12)),
  });
  return ran;
}
