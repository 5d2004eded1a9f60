/** Requests that say too little to be answered; told as such, so that whoever writes a client finds the fault on that side. */

const ofPosition = new Set(
  ["completion", "hover", "signatureHelp", "declaration", "definition", "typeDefinition", "references"]
    .concat("documentHighlight", "prepareCallHierarchy", "prepareRename", "rename", "onTypeFormatting")
    .map((name) => `textDocument/${name}`),
);
const ofRange = new Set(
  ["codeAction", "inlayHint", "rangeFormatting", "semanticTokens/range"].map((name) => `textDocument/${name}`),
);

/** @returns what the parameters of a request lack, undefined where nothing */
export function unfit(method: string, params: unknown): string | undefined {
  if (params === null || typeof params !== "object") return `${method} has no parameters.`;
  if (!method.startsWith("textDocument/")) return undefined;
  const { textDocument, position, range } = params as Record<string, unknown>;
  if (typeof member(textDocument, "uri") !== "string")
    return `${method} names no document: textDocument.uri is missing.`;
  if (ofPosition.has(method) && !isPosition(position)) return `${method} has no position with line and character.`;
  if (ofRange.has(method) && !(isPosition(member(range, "start")) && isPosition(member(range, "end"))))
    return `${method} has no range with start and end.`;
  return undefined;
}

function member(of: unknown, name: string): unknown {
  return of !== null && typeof of === "object" ? (of as Record<string, unknown>)[name] : undefined;
}

function isPosition(value: unknown): boolean {
  return [member(value, "line"), member(value, "character")].every((n) => Number.isInteger(n) && (n as number) >= 0);
}
