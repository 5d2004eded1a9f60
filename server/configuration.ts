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

/** Milliseconds for which findings wait for the settings. */
const patience = 5000;
/** How often each editor was asked: the answer to an older question says nothing any more. */
const asked = new WeakMap<Serving, number>();

/** Asks the editor for its settings where it answers such questions. */
export async function takeConfiguration(serving: Serving, given?: unknown): Promise<void> {
  if (!serving.client.configuration) {
    takeSection(serving, (given as { misce?: unknown } | null | undefined)?.misce);
    return;
  }
  const question = (asked.get(serving) ?? 0) + 1;
  asked.set(serving, question);
  // An editor that announces settings and then has none: those of the start hold.
  const answer = serving.connection.workspace.getConfiguration("misce").catch(() => undefined);
  let isLate = false;
  const taken = answer.then(async (section: unknown) => {
    if (asked.get(serving) !== question || serving.stage === "shut") return;
    takeSection(serving, section);
    if (isLate) await judgeAgain(serving);
  });
  await Promise.race([
    taken,
    new Promise<void>((resolve) => {
      const callOff = serving.host.after(patience, () => {
        isLate = true;
        serving.connection.console.warn(
          `misce: the editor has not answered workspace/configuration for ${patience / 1000} s. The settings of the start hold until it does.`,
        );
        resolve();
      });
      void taken.finally(callOff);
    }),
  ]);
}

function takeSection(serving: Serving, section: unknown): void {
  if (section !== null && section !== undefined) takeSettings(serving, readSettings(section));
}

async function judgeAgain(serving: Serving): Promise<void> {
  await inTurn(serving, () => readInventories(serving));
  serving.publisher.forget();
  serving.publisher.queueAll();
}

export async function changeConfiguration(serving: Serving, params: { settings?: unknown } | null): Promise<void> {
  await serving.ready;
  await takeConfiguration(serving, params?.settings);
  await judgeAgain(serving);
}
