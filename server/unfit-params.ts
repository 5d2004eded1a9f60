/** Messages that say too little to be taken; told as such, so that whoever writes a client finds the fault on that side. */
import { runAtRequest } from "../shared/editor-requests.ts";
import { previewRequest } from "../shared/preview.ts";

const ofPosition = new Set(
  ["completion", "hover", "signatureHelp", "declaration", "definition", "typeDefinition", "references"]
    .concat("documentHighlight", "prepareCallHierarchy", "prepareRename", "rename", "onTypeFormatting")
    .map((name) => `textDocument/${name}`),
);
const ofRange = new Set(
  ["codeAction", "inlayHint", "rangeFormatting", "semanticTokens/range"].map((name) => `textDocument/${name}`),
);
const ofItem = new Set(["callHierarchy/incomingCalls", "callHierarchy/outgoingCalls"]);
const ofUri = new Set<string>([previewRequest, runAtRequest]);

/** @returns what the parameters of a request lack, undefined where nothing */
export function unfit(method: string, params: unknown): string | undefined {
  if (!isObject(params)) return `${method} has no parameters.`;
  const { position, range, ranges, positions, item } = params;
  if (ofUri.has(method) && typeof params.uri !== "string") return `${method} names no document: uri is missing.`;
  if (method === "workspace/symbol" && typeof params.query !== "string") return `${method} has no query.`;
  if (ofItem.has(method) && !(isText(member(item, "uri")) && isText(member(item, "name"))))
    return `${method} has no item with uri and name.`;
  if (!method.startsWith("textDocument/")) return undefined;
  const lacking = documentless(method, params);
  if (lacking) return lacking;
  if (ofPosition.has(method) && !isPosition(position)) return `${method} has no position with line and character.`;
  if (ofRange.has(method) && !isRange(range)) return `${method} has no range with start and end.`;
  if (method === "textDocument/rangesFormatting" && !isListOf(ranges, isRange)) return `${method} has no ranges.`;
  if (method === "textDocument/selectionRange" && !isListOf(positions, isPosition))
    return `${method} has no positions with line and character.`;
  if (method === "textDocument/rename" && !isText(params.newName)) return `${method} has no newName.`;
  return undefined;
}

/** @returns what the parameters of a notification about a text lack, undefined where nothing */
export function unfitNote(method: string, params: unknown): string | undefined {
  if (!method.startsWith("textDocument/")) return undefined;
  if (!isObject(params)) return `${method} has no parameters.`;
  const lacking = documentless(method, params);
  if (lacking) return lacking;
  if (method === "textDocument/didOpen" && !isText(member(params.textDocument, "text")))
    return `${method} has no text: textDocument.text is missing.`;
  if (method === "textDocument/didChange" && !isListOf(params.contentChanges, isChange))
    return `${method} has no contentChanges with text, each of a range with start and end or of the whole text.`;
  return undefined;
}

function documentless(method: string, params: Record<string, unknown>): string | undefined {
  return isText(member(params.textDocument, "uri"))
    ? undefined
    : `${method} names no document: textDocument.uri is missing.`;
}

/** A range of null is none: the text is the whole. */
function isChange(value: unknown): boolean {
  const range = member(value, "range") ?? undefined;
  return isText(member(value, "text")) && (range === undefined || isRange(range));
}

function isObject(value: unknown): value is Record<string, unknown> {
  return value !== null && typeof value === "object";
}

function isListOf(value: unknown, is: (value: unknown) => boolean): boolean {
  return Array.isArray(value) && value.every(is);
}

function isText(value: unknown): boolean {
  return typeof value === "string";
}

function member(of: unknown, name: string): unknown {
  return isObject(of) ? of[name] : undefined;
}

function isRange(value: unknown): boolean {
  return isPosition(member(value, "start")) && isPosition(member(value, "end"));
}

function isPosition(value: unknown): boolean {
  return [member(value, "line"), member(value, "character")].every((n) => Number.isInteger(n) && (n as number) >= 0);
}
