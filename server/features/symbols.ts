/** The outline of a file, and declarations of the whole workspace by name. */
import {
  type DocumentSymbol,
  type DocumentSymbolParams,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceSymbol,
  type WorkspaceSymbolParams,
} from "vscode-languageserver-protocol";
import { type OutlineEntry, outline } from "../../language/answers/outline.ts";
import type { Document } from "../document.ts";
import type { Answer } from "../serving.ts";
import { inFile, locationOf } from "./at.ts";

/** Of the kinds that every editor knows, those of the first protocol. */
const kinds: Readonly<Record<string, SymbolKind>> = {
  site: SymbolKind.Namespace,
  drug: SymbolKind.Class,
  fluid: SymbolKind.Class,
  stock: SymbolKind.Package,
  lots: SymbolKind.Array,
  device: SymbolKind.Interface,
  recipe: SymbolKind.Function,
  reference: SymbolKind.Constant,
  bands: SymbolKind.Enum,
};

export const documentSymbols: Answer<DocumentSymbolParams, DocumentSymbol[] | SymbolInformation[] | null> = (
  serving,
  params,
) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const entries = outline(at.library, at.key);
  if (serving.client.nestedSymbols) return entries.map((e) => symbolOf(e, at.document));
  return entries.map((e) => ({
    name: e.name,
    kind: kinds[e.word] ?? SymbolKind.Field,
    location: { uri: at.document.uri, range: at.document.range(e) },
  }));
};

function symbolOf(entry: OutlineEntry, document: Document): DocumentSymbol {
  return {
    name: entry.name,
    detail: entry.detail,
    kind: kinds[entry.word] ?? SymbolKind.Field,
    range: document.range(entry),
    selectionRange: document.range({ start: entry.nameStart, end: entry.nameEnd }),
    children: entry.children.map((child) => symbolOf(child, document)),
  };
}

export const workspaceSymbols: Answer<WorkspaceSymbolParams, WorkspaceSymbol[]> = (serving, { query }, token) => {
  const wanted = query.toLowerCase();
  const found: WorkspaceSymbol[] = [];
  for (const group of serving.session.allGroups) {
    for (const [kind, symbol] of Object.entries(kinds)) {
      if (token.isCancellationRequested) return found;
      for (const declaration of group.library.headsOf(kind as never)) {
        const name = declaration.name.name;
        if (!holdsInOrder(name.toLowerCase(), wanted)) continue;
        const location = locationOf(serving, group.library, { ...declaration.name, chunk: declaration.chunk });
        if (location) found.push({ name, kind: symbol, location, containerName: kind });
      }
    }
  }
  return found;
};

/** The letters asked for stand in the name in their order: `mg4` finds `magnesium-4g`. */
function holdsInOrder(name: string, wanted: string): boolean {
  let at = 0;
  for (const letter of wanted) {
    at = name.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
