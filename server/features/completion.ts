/** `textDocument/completion` and what is told of one suggestion when it is looked at. */
import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  type CompletionParams,
  InsertTextFormat,
} from "vscode-languageserver-protocol";
import type { Suggestion, SuggestionKind } from "../../language/answers/completion/asked.ts";
import { completionsAt } from "../../language/answers/completion.ts";
import { describe } from "../../language/answers/describe.ts";
import type { Document } from "../document.ts";
import { markup } from "../markup.ts";
import type { Answer } from "../serving.ts";
import { inPlace } from "./at.ts";

const kinds: Readonly<Record<SuggestionKind, CompletionItemKind>> = {
  declaration: CompletionItemKind.Class,
  block: CompletionItemKind.Module,
  fact: CompletionItemKind.Property,
  verb: CompletionItemKind.Function,
  word: CompletionItemKind.Keyword,
  name: CompletionItemKind.Variable,
  value: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
  line: CompletionItemKind.Snippet,
};

interface Kept {
  uri: string;
  about: string;
}

export const completion: Answer<CompletionParams, CompletionList> = (serving, params) => {
  const at = inPlace(serving, params);
  if (!at) return { isIncomplete: false, items: [] };
  const stem = /([^/\\]+)\.misce$/i.exec(at.key)?.[1] ?? "";
  const found = completionsAt(at.library, at.key, at.offset, stem);
  const begun = (s: Suggestion) => Number(!beginsAs(s.label, at.document.text.slice(s.start, at.offset)));
  // Not every editor orders by the letters typed; none is left out, since some look for letters within the label.
  found.sort((a, b) => begun(a) - begun(b));
  // What fits changes with each word, not with each letter: the editor asks again when a new word begins.
  return {
    isIncomplete: true,
    items: found.map((s, i) => itemOf(s, i, at.document, serving.client.snippets, params.textDocument.uri)),
  };
};

function beginsAs(label: string, typed: string): boolean {
  return label.toLowerCase().startsWith(typed.replace(/\s+/g, " ").toLowerCase());
}

function itemOf(s: Suggestion, order: number, document: Document, snippets: boolean, uri: string): CompletionItem {
  const stops = s.insert.includes("$0");
  // In a snippet these signs have a meaning; everything but the stop is plain text.
  const text = stops && snippets ? s.insert.replace(/[\\}]|\$(?!0)/g, "\\$&") : s.insert.replace("$0", "");
  const item: CompletionItem = {
    label: s.label,
    kind: kinds[s.kind],
    sortText: String(order).padStart(4, "0"),
    filterText: s.label,
    textEdit: { range: document.range(s), newText: document.lineEndsIn(text) },
  };
  if (stops && snippets) item.insertTextFormat = InsertTextFormat.Snippet;
  if (s.detail !== "") item.detail = s.detail;
  if (s.about !== undefined) item.data = { uri, about: s.about } satisfies Kept;
  return item;
}

/** Facts of the thing suggested. An editor that drops `data` gets the item back as it is. */
export const completionResolve: Answer<CompletionItem, CompletionItem> = (serving, item) => {
  const kept = item.data as Partial<Kept> | null | undefined;
  if (typeof kept?.uri !== "string" || typeof kept.about !== "string") return item;
  const library = serving.session.group(serving.host.keyOf(kept.uri))?.library;
  const text = library
    ?.declared(kept.about)
    .map((d) => describe(library, d))
    .join("\n\n");
  return text ? { ...item, documentation: markup(text, serving.client.completionFormat) } : item;
};
