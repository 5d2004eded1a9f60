/**
 * The status bar: how many findings stand, and on which day dates were judged. Figures come from the server; until it has sent
 * them the item says so, since an empty count would read as an all clear.
 */
import * as vscode from "vscode";
import { type BaseLanguageClient, State } from "vscode-languageclient";
import { type LibraryStatus, statusNotification } from "../../../shared/status.ts";
import { isChecked } from "./client-options.ts";
import { statusText } from "./status-text.ts";

export function showStatus(client: BaseLanguageClient): vscode.Disposable {
  const item = vscode.window.createStatusBarItem("misce.status", vscode.StatusBarAlignment.Right, 90);
  item.name = "Misce findings and as-of date";
  item.command = "misce.showFindings";
  let status: LibraryStatus | undefined;
  let running = true;
  const paint = () => {
    const front = vscode.window.activeTextEditor?.document;
    const isOther = front?.languageId === "misce" && !isChecked(front);
    const shown = statusText(isOther ? { notChecked: front.uri.scheme } : running ? status : "stopped");
    item.text = shown.text;
    item.tooltip = shown.tooltip;
    item.accessibilityInformation = { label: shown.spoken };
    item.backgroundColor = shown.grave ? new vscode.ThemeColor("statusBarItem.errorBackground") : undefined;
    const always = vscode.workspace.getConfiguration("misce").get("status.show") === "always";
    // In sight, not in focus: the preview takes the focus and the count must not vanish with it.
    if (always || vscode.window.visibleTextEditors.some((e) => e.document.languageId === "misce")) item.show();
    else item.hide();
  };
  paint();
  return vscode.Disposable.from(
    item,
    client.onNotification(statusNotification, (received: LibraryStatus) => {
      status = received;
      paint();
    }),
    client.onDidChangeState(({ newState }) => {
      running = newState === State.Running || newState === State.Starting;
      if (newState !== State.Running) status = undefined;
      paint();
    }),
    vscode.window.onDidChangeVisibleTextEditors(paint),
    vscode.window.onDidChangeActiveTextEditor(paint),
    vscode.workspace.onDidChangeConfiguration((e) => e.affectsConfiguration("misce.status.show") && paint()),
  );
}
