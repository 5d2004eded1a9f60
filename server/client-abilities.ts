/** What the editor said it can do, reduced to what the server decides by. */
import type { InitializeParams } from "vscode-languageserver-protocol";
import type { ColumnUnit } from "../language/syntax/lines.ts";

export interface ClientAbilities {
  unit: ColumnUnit;
  /** Findings are sent to the editor, or wait to be asked for: one of the two, since an editor that gets both shows each finding twice. */
  findings: "push" | "pull";
  relatedInformation: boolean;
  watchesFiles: boolean;
  configuration: boolean;
  configurationChanges: boolean;
  refreshesDiagnostics: boolean;
  refreshesHints: boolean;
  refreshesTokens: boolean;
  refreshesLenses: boolean;
  snippets: boolean;
  progress: boolean;
  nestedSymbols: boolean;
  documentChanges: boolean;
  resolvesActionEdits: boolean;
  createsFiles: boolean;
  relatedDocuments: boolean;
  /** Commands of shared/editor-requests.ts that the editor's side has; said in its initialization options. */
  commands: ReadonlySet<string>;
}

const units: readonly ColumnUnit[] = ["utf-16", "utf-8", "utf-32"];

export function abilitiesOf({ capabilities: c, initializationOptions }: InitializeParams): ClientAbilities {
  // In the editor's order of preference; UTF-16 where it says nothing.
  const unit = c.general?.positionEncodings?.find((e) => (units as readonly string[]).includes(e)) ?? "utf-16";
  const wish = (initializationOptions as { findings?: unknown } | null | undefined)?.findings;
  const canPush = c.textDocument?.publishDiagnostics !== undefined || c.textDocument?.diagnostic === undefined;
  const resolves = c.textDocument?.codeAction?.resolveSupport?.properties ?? [];
  return {
    unit: unit as ColumnUnit,
    findings: wish === "pull" || wish === "push" ? wish : canPush ? "push" : "pull",
    relatedInformation:
      c.textDocument?.publishDiagnostics?.relatedInformation ?? c.textDocument?.diagnostic?.relatedInformation ?? false,
    watchesFiles: c.workspace?.didChangeWatchedFiles?.dynamicRegistration ?? false,
    configuration: c.workspace?.configuration ?? false,
    configurationChanges: c.workspace?.didChangeConfiguration?.dynamicRegistration ?? false,
    refreshesDiagnostics: c.workspace?.diagnostics?.refreshSupport ?? false,
    refreshesHints: c.workspace?.inlayHint?.refreshSupport ?? false,
    refreshesTokens: c.workspace?.semanticTokens?.refreshSupport ?? false,
    refreshesLenses: c.workspace?.codeLens?.refreshSupport ?? false,
    snippets: c.textDocument?.completion?.completionItem?.snippetSupport ?? false,
    progress: c.window?.workDoneProgress ?? false,
    nestedSymbols: c.textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport ?? false,
    documentChanges: c.workspace?.workspaceEdit?.documentChanges ?? false,
    resolvesActionEdits: resolves.includes("edit"),
    createsFiles: c.workspace?.workspaceEdit?.resourceOperations?.includes("create") ?? false,
    relatedDocuments: c.textDocument?.diagnostic?.relatedDocumentSupport ?? false,
    commands: commandsOf(initializationOptions),
  };
}

function commandsOf(options: unknown): ReadonlySet<string> {
  const { commands } = (options ?? {}) as { commands?: unknown };
  return new Set(Array.isArray(commands) ? commands.filter((name): name is string => typeof name === "string") : []);
}
