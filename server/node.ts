/** The server as a process: `node dist/server.js --stdio`, or with `--node-ipc` as a child of an editor. */
import { createConnection } from "vscode-languageserver/node";
import { nodeHost } from "./node-host.ts";
import { keepMemorySmall } from "./node-memory.ts";
import { start } from "./start.ts";

keepMemorySmall();

// Without a word on how to speak, standard input and output are meant.
if (!process.argv.some((word) => /^--(stdio|node-ipc|socket|pipe)/.test(word))) process.argv.push("--stdio");

start(createConnection(), nodeHost);
