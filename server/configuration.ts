/** The editor's settings, at the start and when they change. */
import { MessageType, ShowMessageNotification } from "vscode-languageserver-protocol";
import { inTurn } from "./in-turn.ts";
import type { Serving } from "./serving.ts";
import { readSettings, type SettingsReading } from "./settings.ts";
import { readInventories } from "./workspace.ts";

export function takeSettings(serving: Serving, { settings, problems }: SettingsReading): void {
  serving.settings = settings;
  serving.session.setDay(settings.asOf);
  for (const problem of problems) tellWarning(serving, problem);
}

/** As a notification: the connection's own way asks for an answer, which not every editor can give. */
function tellWarning(serving: Serving, message: string): void {
  void serving.connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Warning, message });
}

/** Asks the editor for its settings where it answers such questions. */
export async function takeConfiguration(serving: Serving, given?: unknown): Promise<void> {
  const { client, connection } = serving;
  let section: unknown;
  if (client.configuration) {
    try {
      section = await connection.workspace.getConfiguration("misce");
    } catch {
      return; // An editor that announces settings and then has none: those of the start hold.
    }
  } else section = (given as { misce?: unknown } | null | undefined)?.misce;
  if (section === null || section === undefined) return;
  takeSettings(serving, readSettings(section));
}

export async function changeConfiguration(serving: Serving, params: { settings?: unknown }): Promise<void> {
  await serving.ready;
  await takeConfiguration(serving, params.settings);
  await inTurn(serving, () => readInventories(serving));
  serving.publisher.forget();
  serving.publisher.queueAll();
}
