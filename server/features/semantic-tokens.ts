/** Colouring by meaning: whole, what changed since, and a range. */
import type {
  SemanticTokens,
  SemanticTokensDelta,
  SemanticTokensDeltaParams,
  SemanticTokensLegend,
  SemanticTokensParams,
  SemanticTokensRangeParams,
} from "vscode-languageserver-protocol";
import { type ClassedToken, classedTokens, tokenClasses, tokenMarks } from "../../language/answers/token-classes.ts";
import type { Document } from "../document.ts";
import type { Answer, Serving } from "../serving.ts";
import { inFile } from "./at.ts";

export const legend: SemanticTokensLegend = { tokenTypes: [...tokenClasses], tokenModifiers: [...tokenMarks] };

interface Sent {
  id: string;
  data: number[];
}

/** What each open file was last given, to send differences only. */
const sent = new WeakMap<Serving, Map<string, Sent>>();
let nextId = 1;

function remember(serving: Serving, key: string, data: number[]): string {
  const map = sent.get(serving) ?? new Map<string, Sent>();
  sent.set(serving, map);
  const id = String(nextId++);
  if (serving.session.isOpen(key)) map.set(key, { id, data });
  else map.delete(key);
  return id;
}

function encode(document: Document, tokens: readonly ClassedToken[]): number[] {
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const token of tokens) {
    const start = document.position(token.start);
    const end = document.position(token.end);
    const marks = (token.declares ? 1 : 0) | (token.builtIn ? 2 : 0);
    const newLine = start.line !== line;
    data.push(
      start.line - line,
      newLine ? start.character : start.character - character,
      end.character - start.character,
      tokenClasses.indexOf(token.is),
      marks,
    );
    line = start.line;
    character = start.character;
  }
  return data;
}

export const semanticTokens: Answer<SemanticTokensParams, SemanticTokens | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const data = encode(at.document, classedTokens(at.library, at.key, serving.lastGood));
  return { resultId: remember(serving, at.key, data), data };
};

export const semanticTokensDelta: Answer<SemanticTokensDeltaParams, SemanticTokens | SemanticTokensDelta | null> = (
  serving,
  params,
) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const before = sent.get(serving)?.get(at.key);
  const data = encode(at.document, classedTokens(at.library, at.key, serving.lastGood));
  const resultId = remember(serving, at.key, data);
  if (before === undefined || before.id !== params.previousResultId) return { resultId, data };
  return { resultId, edits: difference(before.data, data) };
};

/** One stretch between what is the same at the beginning and at the end. */
function difference(before: readonly number[], now: readonly number[]) {
  const most = Math.min(before.length, now.length);
  let start = 0;
  while (start < most && before[start] === now[start]) start++;
  let tail = 0;
  while (tail < most - start && before[before.length - 1 - tail] === now[now.length - 1 - tail]) tail++;
  if (start === before.length && start === now.length) return [];
  return [{ start, deleteCount: before.length - start - tail, data: now.slice(start, now.length - tail) }];
}

export const semanticTokensRange: Answer<SemanticTokensRangeParams, SemanticTokens | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const from = at.document.offset(params.range.start);
  const to = at.document.offset(params.range.end);
  return {
    data: encode(
      at.document,
      classedTokens(at.library, at.key, serving.lastGood).filter((t) => t.end >= from && t.start <= to),
    ),
  };
};
