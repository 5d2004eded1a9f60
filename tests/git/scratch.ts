/** Scratch repositories with real git, and the program as it is installed. */
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll } from "vitest";

const root = join(import.meta.dirname, "../..");

/** The program as it is installed, made once for a test file. */
export function useProgram(): { path(): string } {
  let folder = "";
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "misce-program-"));
    type Build = { bundleCompiled(out: string): Promise<void> };
    const { bundleCompiled } = (await import(join(root, "client/cli/build.mjs"))) as Build;
    await bundleCompiled(join(folder, "misce.js"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return { path: () => join(folder, "misce.js") };
}

export interface Ran {
  status: number;
  out: string;
  err: string;
}

export class Scratch {
  readonly folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-git-")));

  constructor(private readonly program: string) {
    this.git("init", "-q", "-b", "main");
    this.git("config", "user.email", "scratch@example.org");
    this.git("config", "user.name", "Scratch");
    this.git("config", "commit.gpgsign", "false");
  }

  static withSamples(program: string): Scratch {
    const scratch = new Scratch(program);
    cpSync(join(root, "samples/library"), scratch.folder, { recursive: true });
    scratch.commit("first");
    return scratch;
  }

  git(...words: string[]): string {
    return execFileSync("git", words, { cwd: this.folder, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  }

  /** For commands that may end with another status than 0. */
  gitTry(...words: string[]): Ran {
    return ran(spawnSync("git", words, { cwd: this.folder, encoding: "utf8" }));
  }

  misce(...words: string[]): Ran {
    return ran(spawnSync(process.execPath, [this.program, ...words], { cwd: this.folder, encoding: "utf8" }));
  }

  read(file: string): string {
    return readFileSync(join(this.folder, file), "utf8");
  }

  edit(file: string, was: string | RegExp, is: string): void {
    const text = this.read(file);
    const changed = text.replace(was, is);
    if (changed === text) throw new Error(`${file} does not hold ${was}`);
    writeFileSync(join(this.folder, file), changed);
  }

  commit(message: string): void {
    this.git("add", "-A");
    this.git("commit", "-q", "-m", message);
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}

function ran({ status, stdout, stderr }: { status: number | null; stdout: string; stderr: string }): Ran {
  return { status: status ?? -1, out: stdout, err: stderr };
}
