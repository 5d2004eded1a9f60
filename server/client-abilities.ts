/** What the editor said it can do, reduced to what the server decides by. */
import { type InitializeParams, MarkupKind } from "vscode-languageserver-protocol";
import type { ColumnUnit } from "../language/syntax/lines.ts";

export interface ClientAbilities {
  unit: ColumnUnit;
  /** Findings are sent to the editor, or wait to be asked for: one of the two, since an editor that gets both shows each finding twice. */
  findings: "push" | "pull";
  relatedInformation: boolean;
  watchesFiles: boolean;
  /** Version control may be asked: not in a folder that the user does not trust. */
  readsHistory: boolean;
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
  /** The editor's side is made for this server and takes its notifications beside the protocol; others would tell the author of each. */
  takesStatus: boolean;
  preparesRename: boolean;
  /** Asks for the layout of several ranges at once, which came with 3.18. */
  formatsRanges: boolean;
  actionLiterals: boolean;
  diagnosticTags: boolean;
  codeDescriptions: boolean;
  hoverFormat: MarkupKind;
  completionFormat: MarkupKind;
  parameterOffsets: boolean;
  signatureParameter: boolean;
}

const units: readonly ColumnUnit[] = ["utf-16", "utf-8", "utf-32"];

export function abilitiesOf({ capabilities: c, initializationOptions }: InitializeParams): ClientAbilities {
  // In the editor's order of preference; UTF-16 where it says nothing.
  const encodings = listOf(c.general?.positionEncodings) ?? countedAs(initializationOptions);
  const unit = encodings.find((e) => (units as readonly string[]).includes(e)) ?? "utf-16";
  // `watches: false` is for editors that watch and miss files which another program puts in the place of the old.
  const wishes = initializationOptions as
    | { findings?: unknown; watches?: unknown; history?: unknown; commands?: unknown }
    | null
    | undefined;
  const wish = wishes?.findings;
  const canPush = c.textDocument?.publishDiagnostics !== undefined || c.textDocument?.diagnostic === undefined;
  const action = c.textDocument?.codeAction;
  const shown = c.textDocument?.publishDiagnostics ?? c.textDocument?.diagnostic;
  const signature = c.textDocument?.signatureHelp?.signatureInformation;
  return {
    unit: unit as ColumnUnit,
    findings: wish === "pull" || wish === "push" ? wish : canPush ? "push" : "pull",
    relatedInformation:
      c.textDocument?.publishDiagnostics?.relatedInformation ?? c.textDocument?.diagnostic?.relatedInformation ?? false,
    watchesFiles: (c.workspace?.didChangeWatchedFiles?.dynamicRegistration && wishes?.watches !== false) ?? false,
    readsHistory: wishes?.history !== false,
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
    // A fix is found again by `data`; an editor that does not keep it is sent the edit at once.
    resolvesActionEdits: (action?.resolveSupport?.properties?.includes("edit") && action.dataSupport) ?? false,
    createsFiles: c.workspace?.workspaceEdit?.resourceOperations?.includes("create") ?? false,
    relatedDocuments: c.textDocument?.diagnostic?.relatedDocumentSupport ?? false,
    commands: commandsOf(initializationOptions),
    takesStatus: Array.isArray(wishes?.commands),
    preparesRename: c.textDocument?.rename?.prepareSupport ?? false,
    formatsRanges: c.textDocument?.rangeFormatting?.rangesSupport ?? false,
    actionLiterals: action?.codeActionLiteralSupport !== undefined,
    diagnosticTags: shown?.tagSupport !== undefined,
    codeDescriptions: shown?.codeDescriptionSupport ?? false,
    hoverFormat: formatOf(c.textDocument?.hover?.contentFormat),
    completionFormat: formatOf(c.textDocument?.completion?.completionItem?.documentationFormat),
    parameterOffsets: signature?.parameterInformation?.labelOffsetSupport ?? false,
    signatureParameter: signature?.activeParameterSupport ?? false,
  };
}

/** For editors that count columns in bytes or letters and cannot say so in the handshake: `positionEncodings` of the options. */
function countedAs(options: unknown): readonly string[] {
  const { positionEncodings } = (options ?? {}) as { positionEncodings?: unknown };
  return listOf(positionEncodings) ?? [];
}

function listOf(value: unknown): readonly string[] | undefined {
  return Array.isArray(value) ? value : undefined;
}

/** Markdown, unless the editor has said what it takes and this is not among it. */
function formatOf(taken: readonly string[] | undefined): MarkupKind {
  return !taken || taken.includes(MarkupKind.Markdown) ? MarkupKind.Markdown : MarkupKind.PlainText;
}

function commandsOf(options: unknown): ReadonlySet<string> {
  const { commands } = (options ?? {}) as { commands?: unknown };
  return new Set(Array.isArray(commands) ? commands.filter((name): name is string => typeof name === "string") : []);
}
