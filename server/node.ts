/** The server as a process: `node dist/server.js --stdio`, or with `--node-ipc` as a child of an editor. */
import { createConnection } from "vscode-languageserver/node";
import { lenientHandshake } from "./lenient-handshake.ts";
import { nodeHost } from "./node-host.ts";
import { keepMemorySmall } from "./node-memory.ts";
import { start } from "./start.ts";

keepMemorySmall();

// Without a word on how to speak, standard input and output are meant.
if (!process.argv.some((word) => /^--(stdio|node-ipc|socket|pipe)/.test(word))) process.argv.push("--stdio");

// Nobody listens any more: the editor is gone without a word.
process.stdout.on("error", (error) => {
  process.stderr.write(`misce: the editor no longer reads what is sent (${error.message}); the server ends.\n`);
  process.exit(1);
});

function isSeen(editor: number): boolean {
  try {
    return process.kill(editor, 0);
  } catch {
    return false;
  }
}

start(createConnection(lenientHandshake(isSeen)), nodeHost);
