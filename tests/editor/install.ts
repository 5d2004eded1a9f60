/**
 * Puts a real VS Code into a cache outside the repository: Node 24 and code-server through npm, without scripts, and a Chromium
 * where the machine has none. Installed once; `MISCE_EDITOR_CACHE` names another folder.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";

const wanted = { node: "24", "code-server": "4.139.1" };

export interface Editor {
  node: string;
  entry: string;
  chromium: string;
}

export function installEditor(): Editor {
  const cache =
    process.env.MISCE_EDITOR_CACHE ?? join(process.env.XDG_CACHE_HOME ?? join(homedir(), ".cache"), "misce-editor");
  const mark = join(cache, "installed.json");
  const editor = {
    node: join(cache, "node_modules/node/bin/node"),
    entry: join(cache, "node_modules/code-server/out/node/entry.js"),
    chromium: chromium(),
  };
  const key = JSON.stringify(wanted);
  if (!existsSync(mark) || readFileSync(mark, "utf8") !== key || !existsSync(editor.entry)) {
    rmSync(cache, { recursive: true, force: true });
    mkdirSync(cache, { recursive: true });
    writeFileSync(join(cache, "package.json"), '{ "private": true }\n');
    npm(cache, "install", `node@${wanted.node}`);
    // Its scripts would fetch prebuilt parts from elsewhere; what they build is not needed to edit files.
    npm(cache, "install", `code-server@${wanted["code-server"]}`, "--ignore-scripts");
    const code = join(cache, "node_modules/code-server/lib/vscode");
    for (const folder of [code, join(code, "extensions")]) npm(folder, "install", "--omit=dev", "--ignore-scripts");
    writeFileSync(mark, key);
  }
  return editor;
}

function npm(folder: string, ...words: string[]): void {
  console.log(`npm ${words.join(" ")}`);
  const quiet = ["--no-audit", "--no-fund", "--loglevel=error"];
  execFileSync("npm", [...words, ...quiet], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
}

/** A browser that is there, else Debian's. */
function chromium(): string {
  const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const found = places.find((place) => place !== undefined && existsSync(place));
  if (found) return found;
  console.log("apt-get install chromium");
  execFileSync("apt-get", ["update"], { stdio: ["ignore", "ignore", "inherit"] });
  execFileSync("apt-get", ["install", "-y", "--no-install-recommends", "chromium"], {
    stdio: ["ignore", "ignore", "inherit"],
  });
  return "/usr/bin/chromium";
}
