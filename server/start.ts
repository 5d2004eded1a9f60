/** Starts a session on a connection: the handshake, then the table of methods. */
import { type Connection, ErrorCodes, ResponseError } from "vscode-languageserver";
import {
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type InitializeResult,
} from "vscode-languageserver-protocol";
import { LastGood } from "../language/answers/last-good.ts";
import { type RunAtParams, runAtRequest } from "../shared/editor-requests.ts";
import { previewRequest } from "../shared/preview.ts";
import { Approvals } from "./approvals.ts";
import { abilitiesOf } from "./client-abilities.ts";
import { takeConfiguration, takeSettings } from "./configuration.ts";
import { type Host, untilMidnight } from "./host.ts";
import { inTurn } from "./in-turn.ts";
import { methods } from "./methods.ts";
import { offered } from "./offered.ts";
import { pollFiles } from "./poll-files.ts";
import { preview } from "./preview.ts";
import { Publisher } from "./publisher.ts";
import { runAt } from "./run-at.ts";
import type { Serving } from "./serving.ts";
import { Session } from "./session.ts";
import { readSettings, usualSettings } from "./settings.ts";
import { folderKeys, loseChange } from "./sync.ts";
import { unfitNote } from "./unfit-params.ts";
import { readWorkspace } from "./workspace.ts";
import { watched } from "./wrapper.ts";

export function start(connection: Connection, host: Host): Serving {
  const publisher = new Publisher();
  const approvals = new Approvals();
  const serving: Serving = {
    connection,
    host,
    session: new Session(host),
    publisher,
    approvals,
    stage: "new",
    lastGood: new LastGood(),
    client: abilitiesOf({ capabilities: {}, processId: null, rootUri: null }),
    settings: usualSettings,
    begin: () => {},
    ready: Promise.resolve(),
    timings: new Map(),
  };
  publisher.serving = serving;
  approvals.serving = serving;
  let open: () => void = () => {};
  serving.ready = new Promise((resolve) => {
    open = resolve;
  });
  connection.onInitialize((params) =>
    serving.stage === "new"
      ? initialize(serving, params)
      : new ResponseError(ErrorCodes.InvalidRequest, "initialize came a second time."),
  );
  connection.onShutdown(() => {
    serving.stage = "shut";
    publisher.held = true;
  });
  connection.onInitialized(() => serving.begin("initialized"));
  let hasBegun = false;
  serving.begin = (by) => {
    if (hasBegun || serving.stage !== "open") return;
    hasBegun = true;
    if (by !== "initialized") connection.console.warn(`misce: ${by} came before initialized.`);
    begin().catch((error) => connection.console.error(`misce: the session failed to begin: ${error}`));
  };
  const begin = async () => {
    register(serving);
    try {
      await takeConfiguration(serving);
      await inTurn(serving, () => readWorkspace(serving));
    } finally {
      publisher.held = serving.stage === "shut";
      open();
    }
    publisher.queueAll();
    keepCalendar(serving);
    pollFiles(serving);
  };
  listenTo(serving);
  connection.listen();
  return serving;
}

function listenTo(serving: Serving): void {
  const { connection } = serving;
  for (const [method, offer] of Object.entries(methods)) {
    if ("answer" in offer) connection.onRequest(method, watched(serving, method, offer.answer));
    else if ("take" in offer)
      connection.onNotification(method, (params) => watchedTake(serving, method, offer.take, params));
  }
  connection.onRequest(previewRequest, watched(serving, previewRequest, preview));
  connection.onRequest(runAtRequest, watched<RunAtParams, unknown>(serving, runAtRequest, runAt));
}

async function watchedTake(
  serving: Serving,
  method: string,
  take: (serving: Serving, params: never) => void | Promise<void>,
  params: unknown,
): Promise<void> {
  if (serving.stage !== "open") return;
  serving.begin(method);
  try {
    const lacking = unfitNote(method, params);
    if (lacking !== undefined) {
      serving.connection.console.error(`misce: ${lacking}`);
      loseChange(serving, method, params);
      return;
    }
    await take(serving, params as never);
  } catch (error) {
    serving.connection.console.error(
      `misce: ${method} failed: ${error instanceof Error ? error.stack : String(error)}`,
    );
    loseChange(serving, method, params);
  }
}

function initialize(serving: Serving, params: InitializeParams): InitializeResult {
  const { session, host } = serving;
  const client = abilitiesOf(params);
  // Once more: at the handshake the connection puts a listener of its own in the place of the one for changed folders.
  listenTo(serving);
  serving.stage = "open";
  serving.client = client;
  session.unit = serving.client.unit;
  // `rootUri` is for editors from before there were several folders, `rootPath` for those from before there were URIs.
  const root = params.rootUri
    ? host.keyOf(params.rootUri)
    : params.rootPath
      ? host.resolve("/", params.rootPath)
      : undefined;
  const folders = params.workspaceFolders?.length
    ? folderKeys(serving, params.workspaceFolders)
    : root === undefined
      ? []
      : [root.replace(/(.)\/$/, "$1")];
  for (const key of folders) session.folders.add(key);
  takeSettings(serving, readSettings(params.initializationOptions));
  return offered(serving);
}

function register(serving: Serving): void {
  const { client, connection } = serving;
  if (client.watchesFiles) {
    // Until the editor has said that it watches, the disk is looked at instead; so too where it will not watch after all.
    client.watchesFiles = false;
    const watchers = ["**/*.misce", "**/*.csv", "**/*.approvals.json"].map((globPattern) => ({ globPattern }));
    connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).then(
      () => {
        client.watchesFiles = true;
      },
      () => undefined,
    );
  }
  if (client.configurationChanges) {
    connection.client.register(DidChangeConfigurationNotification.type, { section: "misce" }).catch(() => undefined);
  }
}

/** At midnight lots go out without an edit. The clock is also looked at every minute, since a sleeping machine loses timers. */
function keepCalendar(serving: Serving): void {
  const { host, session, publisher } = serving;
  const look = () => {
    if (session.turnDay()) publisher.queueAll();
    host.after(Math.min(60_000, untilMidnight(host.now()) + 50), look);
  };
  look();
}
