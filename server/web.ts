/** The server as a worker in a browser: no Node, files through the editor. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { lenientHandshake } from "./lenient-handshake.ts";
import { start } from "./start.ts";
import { webHost } from "./web-host.ts";

// The worker's own scope; the types of browsers are not loaded in a project that also runs in Node.
const worker = globalThis as never;
const connection = createConnection(
  new BrowserMessageReader(worker),
  new BrowserMessageWriter(worker),
  lenientHandshake(),
);
start(connection, webHost(connection));
