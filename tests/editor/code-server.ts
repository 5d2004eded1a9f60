/** A code-server of its own: its own settings, its own extensions (only ours), a scratch copy of the sample library as workspace. */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Editor } from "./install.ts";

export interface CodeServer {
  url: string;
  workspace: string;
  /** What it wrote, for the search for faults. */
  log(): string;
  stop(): void;
}

const settings = {
  "misce.asOf": "2026-11-25",
  "workbench.startupEditor": "none",
  "workbench.colorTheme": "Default Light Modern",
  "workbench.tips.enabled": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "security.workspace.trust.enabled": false,
  "window.commandCenter": false,
  "workbench.layoutControl.enabled": false,
  "chat.disableAIFeatures": true,
  "editor.minimap.enabled": false,
  "editor.fontSize": 13,
  "files.autoSave": "off",
  "files.simpleDialog.enable": true,
  "telemetry.telemetryLevel": "off",
  "extensions.autoUpdate": false,
};

export async function startCodeServer(editor: Editor, vsix: string, library: string): Promise<CodeServer> {
  const scratch = mkdtempSync(join(tmpdir(), "misce-editor-"));
  const place = (name: string) => join(scratch, name);
  mkdirSync(place("data/User"), { recursive: true });
  writeFileSync(place("data/User/settings.json"), JSON.stringify(settings));
  writeFileSync(place("config.yaml"), "auth: none\n");
  cpSync(library, place("library"), { recursive: true });
  const common = [
    "--config",
    place("config.yaml"),
    "--user-data-dir",
    place("data"),
    "--extensions-dir",
    place("extensions"),
  ];
  const env = { ...process.env, EXTENSIONS_GALLERY: "{}", HOME: scratch };
  execFileSync(editor.node, [editor.entry, ...common, "--install-extension", vsix], { env, stdio: "pipe" });
  const port = await freePort();
  const quiet = ["--disable-telemetry", "--disable-update-check", "--disable-getting-started-override"];
  const words = [...common, "--auth", "none", "--bind-addr", `127.0.0.1:${port}`, ...quiet, place("library")];
  const child = spawn(editor.node, [editor.entry, ...words], {
    env,
    stdio: ["ignore", "pipe", "pipe"],
    detached: true,
  });
  let log = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (bytes: Buffer) => {
      log += bytes.toString();
    });
  }
  const stop = () => {
    // Its own group of processes: the server starts others. They may have ended by themselves.
    try {
      if (child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
    } catch {}
    rmSync(scratch, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  // Interrupted, the run leaves nothing behind either.
  process.once("SIGINT", () => {
    stop();
    process.exit(130);
  });
  process.once("SIGTERM", () => {
    stop();
    process.exit(143);
  });
  const url = `http://127.0.0.1:${port}/`;
  await answering(url, child, () => log);
  return {
    url,
    workspace: place("library"),
    log: () => log,
    stop,
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === "object" && address ? address.port : 0));
    });
  });
}

async function answering(url: string, child: ChildProcess, log: () => string): Promise<void> {
  for (let i = 0; i < 100; i++) {
    if (child.exitCode !== null) throw new Error(`code-server ended with ${child.exitCode}:\n${log()}`);
    try {
      if ((await fetch(url)).ok) return;
    } catch {
      // Not listening yet.
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Error(`code-server did not answer within 20 s:\n${log()}`);
}
