/** Asks for the day on which dates are judged, and keeps it in the settings. */
import * as vscode from "vscode";
import { asOfSetting } from "./client-options.ts";
import { dayFault } from "./day.ts";

export async function chooseAsOf(): Promise<void> {
  const before = asOfSetting();
  const chosen = await vscode.window.showInputBox({
    title: "As-of date",
    prompt: "Day on which lots, deviations and dates are judged. Leave it empty for today.",
    placeHolder: "YYYY-MM-DD",
    value: before,
    validateInput: dayFault,
  });
  if (chosen === undefined || chosen.trim() === before) return;
  const target =
    vscode.workspace.workspaceFolders === undefined
      ? vscode.ConfigurationTarget.Global
      : vscode.ConfigurationTarget.Workspace;
  const value = chosen.trim() === "" ? undefined : chosen.trim();
  await vscode.workspace.getConfiguration("misce").update("asOf", value, target);
}
