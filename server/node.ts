/** The server as a process: `node dist/server.js --stdio`, or with `--node-ipc` as a child of an editor. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { createConnection } from "vscode-languageserver/node";
import { nodeHost } from "./node-host.ts";
import { start } from "./start.ts";

// The server stays open all day beside an editor: it lets its memory grow by two thirds between two clearings and not four-fold, and
// clears it when it has nothing to do (node-host.ts). What is new is kept in a space that stays as small as it is at the start: almost
// all of it is let go of at once, and a small space is cleared sooner than anybody notices.
setFlagsFromString("--heap-growing-percent=70");
setFlagsFromString("--semi-space-growth-factor=1");
setFlagsFromString("--expose-gc");
globalThis.gc = runInNewContext("gc") as NodeJS.GCFunction;

// Without a word on how to speak, standard input and output are meant.
if (!process.argv.some((word) => /^--(stdio|node-ipc|socket|pipe)/.test(word))) process.argv.push("--stdio");

start(createConnection(), nodeHost);
