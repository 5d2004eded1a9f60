/**
 * A short session with a built server, as an editor would have it, so that most of the program has run once: what V8 compiled of it is
 * then kept (client/cli/code-cache.mjs).
 */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import rpc from "vscode-languageserver-protocol/node";
import { keeping } from "../client/cli/code-cache.mjs";

/**
 * @param server path of the server
 * @param library folder with recipes
 */
export async function firstSession(server, library) {
  const child = spawn(process.execPath, [server, "--stdio"], {
    env: { ...process.env, ...keeping },
    stdio: ["pipe", "pipe", "inherit"],
  });
  const ended = new Promise((resolve, reject) => {
    child.once("error", reject);
    child.once("exit", resolve);
  });
  const connection = rpc.createMessageConnection(
    new rpc.StreamMessageReader(child.stdout),
    new rpc.StreamMessageWriter(child.stdin),
  );
  const path = join(library, "recipes/magnesium-4g.misce");
  const uri = pathToFileURL(path).href;
  const text = readFileSync(path, "utf8");
  const shown = new Promise((resolve) => {
    connection.onNotification("textDocument/publishDiagnostics", (sent) => sent.uri === uri && resolve());
  });
  connection.onRequest(() => null);
  connection.listen();
  const folder = { uri: pathToFileURL(library).href, name: "library" };
  const start = { processId: process.pid, rootUri: null, capabilities: {}, workspaceFolders: [folder] };
  await connection.sendRequest("initialize", start);
  await connection.sendNotification("initialized", {});
  await connection.sendNotification("textDocument/didOpen", {
    textDocument: { uri, languageId: "misce", version: 1, text },
  });
  await shown;
  const textDocument = { uri };
  const position = { line: text.slice(0, text.indexOf("steps {")).split("\n").length, character: 6 };
  const range = { start: { line: 0, character: 0 }, end: position };
  for (const method of ["hover", "completion", "codeLens", "inlayHint", "semanticTokens/full", "documentSymbol"])
    await connection.sendRequest(`textDocument/${method}`, { textDocument, position, range });
  await connection.sendRequest("shutdown");
  await connection.sendNotification("exit");
  const status = await ended;
  connection.dispose();
  if (status !== 0) throw new Error(`${server} ended its first session with ${status}`);
}
