/**
 * Every method of the protocol (3.18), once: what answers it, or why it is not offered. A test holds this table against the
 * protocol's own list, so that a new method is a decision and never an oversight.
 */
import { changeConfiguration } from "./configuration.ts";
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from "./features/call-hierarchy.ts";
import { codeActionResolve, codeActions } from "./features/code-actions.ts";
import { codeLenses, codeLensResolve } from "./features/code-lens.ts";
import { completion, completionResolve } from "./features/completion.ts";
import { documentLinks } from "./features/document-links.ts";
import { hover } from "./features/hover.ts";
import { inlayHintResolve, inlayHints } from "./features/inlay-hints.ts";
import {
  foldingRanges,
  formatting,
  onTypeFormatting,
  rangeFormatting,
  rangesFormatting,
  selectionRanges,
} from "./features/layout.ts";
import { definition, highlights, references, typeDefinition } from "./features/navigation.ts";
import { documentDiagnostics, workspaceDiagnostics } from "./features/pull-diagnostics.ts";
import { prepareRename, rename } from "./features/rename.ts";
import { semanticTokens, semanticTokensDelta, semanticTokensRange } from "./features/semantic-tokens.ts";
import { signatureHelp } from "./features/signature-help.ts";
import { documentSymbols, workspaceSymbols } from "./features/symbols.ts";
import type { Answer, Serving } from "./serving.ts";
import { changeFiles, changeFolders, changeText, closeText, moveFiles, openText, saveText } from "./sync.ts";

export type Offer =
  /** A request of the editor's. */
  // biome-ignore lint/suspicious/noExplicitAny: the table holds requests of every shape; each file types its own
  | { answer: Answer<any, unknown> }
  /** A notification of the editor's. */
  // biome-ignore lint/suspicious/noExplicitAny: as above
  | { take: (serving: Serving, params: any) => void | Promise<void> }
  /** Dealt with by the connection or in the named file. */
  | { handled: string }
  /** Sent by the server, or why it never is. */
  | { sent: string }
  | { absent: string };

const noNotebooks = { absent: "Recipes are plain files; there are no notebooks of them." };
const noColours = { absent: "No colour is written in a recipe." };
const noTypes = { absent: "Declarations have no types that inherit from each other." };
const sentNever = (why: string) => ({ sent: `Never: ${why}` });

export const methods: Readonly<Record<string, Offer>> = {
  initialize: { handled: "start.ts" },
  initialized: { handled: "start.ts" },
  shutdown: { handled: "the connection" },
  exit: { handled: "the connection" },
  "$/setTrace": { handled: "the connection" },
  "$/logTrace": { sent: "by the connection" },
  "$/cancelRequest": { handled: "the connection; wrapper.ts and long answers look at it" },
  "$/progress": { sent: "features/pull-diagnostics.ts" },

  "textDocument/didOpen": { take: openText },
  "textDocument/didChange": { take: changeText },
  "textDocument/didClose": { take: closeText },
  "textDocument/didSave": { take: saveText },
  "textDocument/willSave": { absent: "Nothing is done before saving; the text is known as it is typed." },
  "textDocument/willSaveWaitUntil": { absent: "Nobody's recipe is changed by saving it; layout is asked for." },
  "notebookDocument/didOpen": noNotebooks,
  "notebookDocument/didChange": noNotebooks,
  "notebookDocument/didSave": noNotebooks,
  "notebookDocument/didClose": noNotebooks,

  "workspace/didChangeWatchedFiles": { take: changeFiles },
  "workspace/didChangeWorkspaceFolders": { take: changeFolders },
  "workspace/didChangeConfiguration": { take: changeConfiguration },
  "workspace/didCreateFiles": { take: moveFiles },
  "workspace/didRenameFiles": { take: moveFiles },
  "workspace/didDeleteFiles": { take: moveFiles },
  "workspace/willCreateFiles": { absent: "A new file needs no edit elsewhere: names are shared without imports." },
  "workspace/willRenameFiles": { absent: "No recipe names a file, so that renaming one changes no text." },
  "workspace/willDeleteFiles": { absent: "What a deletion breaks is told as findings; nothing is edited for it." },
  "workspace/workspaceFolders": sentNever("folders come with the handshake and its changes."),
  "workspace/configuration": { sent: "configuration.ts" },
  "workspace/applyEdit": sentNever("every change is an edit that the author has chosen."),
  "workspace/executeCommand": {
    absent: "Every change is an edit in an action, which an editor can show before it is made.",
  },

  "textDocument/publishDiagnostics": { sent: "publisher.ts" },
  "textDocument/diagnostic": { answer: documentDiagnostics },
  "workspace/diagnostic": { answer: workspaceDiagnostics },
  "workspace/diagnostic/refresh": { sent: "publisher.ts" },

  "textDocument/completion": { answer: completion },
  "completionItem/resolve": { answer: completionResolve },
  "textDocument/inlineCompletion": {
    absent: "A figure that appears unasked in a recipe could be taken for a written one.",
  },
  "textDocument/hover": { answer: hover },
  "textDocument/signatureHelp": { answer: signatureHelp },
  "textDocument/declaration": { answer: definition },
  "textDocument/definition": { answer: definition },
  "textDocument/typeDefinition": { answer: typeDefinition },
  "textDocument/implementation": { absent: "A name has one declaration and nothing that implements it." },
  "textDocument/references": { answer: references },
  "textDocument/documentHighlight": { answer: highlights },
  "textDocument/documentSymbol": { answer: documentSymbols },
  "workspace/symbol": { answer: workspaceSymbols },
  "workspaceSymbol/resolve": { absent: "Symbols are sent whole." },
  "textDocument/prepareCallHierarchy": { answer: prepareCallHierarchy },
  "callHierarchy/incomingCalls": { answer: incomingCalls },
  "callHierarchy/outgoingCalls": { answer: outgoingCalls },
  "textDocument/prepareTypeHierarchy": noTypes,
  "typeHierarchy/supertypes": noTypes,
  "typeHierarchy/subtypes": noTypes,
  "textDocument/moniker": { absent: "Names hold within one library only." },

  "textDocument/codeAction": { answer: codeActions },
  "codeAction/resolve": { answer: codeActionResolve },
  "textDocument/prepareRename": { answer: prepareRename },
  "textDocument/rename": { answer: rename },
  "textDocument/linkedEditingRange": {
    absent: "Correcting one use of a material to another would rename it everywhere; renaming is asked for.",
  },

  "textDocument/codeLens": { answer: codeLenses },
  "codeLens/resolve": { answer: codeLensResolve },
  "workspace/codeLens/refresh": { sent: "publisher.ts" },
  "textDocument/documentLink": { answer: documentLinks },
  "documentLink/resolve": { absent: "Links are sent whole." },
  "textDocument/inlayHint": { answer: inlayHints },
  "inlayHint/resolve": { answer: inlayHintResolve },
  "workspace/inlayHint/refresh": { sent: "publisher.ts" },
  "textDocument/inlineValue": { absent: "There is no debugger that stops in a recipe." },
  "workspace/inlineValue/refresh": sentNever("there are no inline values."),
  "textDocument/semanticTokens/full": { answer: semanticTokens },
  "textDocument/semanticTokens/full/delta": { answer: semanticTokensDelta },
  "textDocument/semanticTokens/range": { answer: semanticTokensRange },
  "workspace/semanticTokens/refresh": { sent: "publisher.ts" },
  "textDocument/documentColor": noColours,
  "textDocument/colorPresentation": noColours,

  "textDocument/foldingRange": { answer: foldingRanges },
  "workspace/foldingRange/refresh": sentNever("folds change with their own text alone."),
  "textDocument/selectionRange": { answer: selectionRanges },
  "textDocument/formatting": { answer: formatting },
  "textDocument/rangeFormatting": { answer: rangeFormatting },
  "textDocument/rangesFormatting": { answer: rangesFormatting },
  "textDocument/onTypeFormatting": { answer: onTypeFormatting },

  "workspace/textDocumentContent": {
    absent: "Preview and runs at one order are answered to requests of their own, which the side of the editor shows.",
  },
  "workspace/textDocumentContent/refresh": sentNever("the side of the editor asks again when a recipe has changed."),

  "client/registerCapability": { sent: "start.ts" },
  "client/unregisterCapability": sentNever("what is registered holds for the session."),
  "window/showMessage": { sent: "configuration.ts" },
  "window/showMessageRequest": sentNever("nothing is asked in a box over the text."),
  "window/showDocument": sentNever("the author decides what is opened."),
  "window/logMessage": { sent: "where something failed" },
  "window/workDoneProgress/create": sentNever("progress is told on the editor's own token."),
  "window/workDoneProgress/cancel": { handled: "the connection" },
  "telemetry/event": sentNever("nothing about the user leaves the machine."),
};
