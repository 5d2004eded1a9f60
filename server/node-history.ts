/**
 * What git remembers, asked in processes of its own so that nobody who types waits. Nothing that a repository's settings name is run, and
 * nothing is fetched: no text conversion, no signature program, no file monitor, no transport.
 */
import { execFile } from "node:child_process";
import { realpathSync } from "node:fs";
import { stat } from "node:fs/promises";
import { basename, dirname, join, relative } from "node:path";
import type { Approval } from "../language/compare/approvals.ts";
import { decodeBytes } from "../language/syntax/decode.ts";
import type { History, InWorkingCopy } from "./history.ts";

interface WorkingCopy {
  top: string;
  gitFolder: string;
}

const copies = new Map<string, WorkingCopy>();

export const nodeHistory: History = {
  async place(key) {
    const real = realPath(key);
    const copy = real === undefined ? undefined : await workingCopyOf(dirname(real));
    if (real === undefined || !copy) return undefined;
    return { top: slashes(copy.top), name: slashes(relative(copy.top, real)), state: await stateOf(copy) };
  },

  async commits({ top, name }: InWorkingCopy, { revision, fingerprint }: Approval) {
    const own =
      revision === null
        ? undefined
        : await asked(top, ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`]);
    const log = ["log", "--no-textconv", "--no-ext-diff", "--format=%H", `-S${fingerprint}`, "--", name];
    const found = `${own ?? ""}\n${(await asked(top, log)) ?? ""}`.split("\n").map((line) => line.trim());
    return [...new Set(found.filter((line) => line !== ""))];
  },

  async texts(top, commit) {
    const listed = (await asked(top, ["ls-tree", "-r", "-z", "--full-tree", commit])) ?? "";
    const wanted = listed.split("\0").flatMap((entry): [name: string, blob: string][] => {
      const [, blob, name] = /^\d+ blob ([0-9a-f]+)\t(.*\.misce)$/is.exec(entry) ?? [];
      return blob === undefined || name === undefined ? [] : [[name, blob]];
    });
    const texts = new Map<string, string>();
    if (wanted.length === 0) return texts;
    const out = await bytes(top, ["cat-file", "--batch"], `${wanted.map(([, blob]) => blob).join("\n")}\n`);
    let at = 0;
    for (const [name] of wanted) {
      const end = out?.indexOf(10, at) ?? -1;
      if (!out || end < 0) break;
      const size = Number(out.subarray(at, end).toString().split(" ")[2]);
      const decoded = decodeBytes(out.subarray(end + 1, end + 1 + size));
      if ("text" in decoded) texts.set(name, decoded.text);
      at = end + 1 + size + 1;
    }
    return texts;
  },
};

/** What is under no version control now may come under it. */
async function workingCopyOf(folder: string): Promise<WorkingCopy | undefined> {
  const known = copies.get(folder);
  if (known) return known;
  const out = await asked(folder, ["rev-parse", "--show-toplevel", "--absolute-git-dir"]);
  const [top, gitFolder] = out?.split(/\r?\n/) ?? [];
  if (!top || !gitFolder) return undefined;
  const found = { top, gitFolder };
  copies.set(folder, found);
  return found;
}

/** Commits and checkouts write the log of HEAD, a fetch its own file: a look at them costs no process. */
async function stateOf({ gitFolder }: WorkingCopy): Promise<string> {
  const stamps = ["HEAD", "logs/HEAD", "FETCH_HEAD"].map(async (name) => {
    try {
      const { mtimeMs, ino, size } = await stat(join(gitFolder, name));
      return `${mtimeMs} ${ino} ${size}`;
    } catch {
      return "none";
    }
  });
  return (await Promise.all(stamps)).join(", ");
}

function realPath(key: string): string | undefined {
  try {
    return join(realpathSync(dirname(key)), basename(key));
  } catch {
    return undefined; // the folder is gone
  }
}

function slashes(path: string): string {
  return process.platform === "win32" ? path.replaceAll("\\", "/") : path;
}

/** Undefined where git knows no answer, or is not there. */
async function asked(folder: string, words: readonly string[]): Promise<string | undefined> {
  return (await bytes(folder, words))?.toString();
}

const harmless = ["core.fsmonitor=false", "log.showSignature=false", "protocol.allow=never"].flatMap((set) => [
  "-c",
  set,
]);

function bytes(cwd: string, words: readonly string[], input = ""): Promise<Buffer | undefined> {
  return new Promise((resolve) => {
    const env = { ...process.env, GIT_NO_LAZY_FETCH: "1", GIT_TERMINAL_PROMPT: "0", GIT_OPTIONAL_LOCKS: "0" };
    const options = { cwd, env, encoding: "buffer", maxBuffer: 1024 * 1024 * 1024 } as const;
    const child = execFile("git", [...harmless, "--literal-pathspecs", ...words], options, (error, out) =>
      resolve(error ? undefined : out),
    );
    child.stdin?.on("error", () => undefined); // git has ended before it read all
    child.stdin?.end(input);
  });
}
