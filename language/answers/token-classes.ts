/** What each word of a file is, for colouring by meaning. Offsets in the file, in order, never overlapping. */
import { verbsByWord } from "../bench/verbs/index.ts";
import type { Library, PlacedChunk } from "../library.ts";
import { looseWord } from "../model/form-match.ts";
import { factTables } from "../model/read-chunk.ts";
import type { Block, Entry, Line, Token } from "../syntax/tree.ts";
import { claimWords, declarationWords, edgeWords, glueWords, recipeBlocks, trailingWords } from "../syntax/words.ts";
import type { Earlier, LastGood } from "./last-good.ts";
import { type Occurrence, occurrencesIn } from "./occurrences.ts";
import { placeNow } from "./shifted.ts";

export const tokenClasses = [
  "comment",
  "keyword",
  "property",
  "function",
  "variable",
  "class",
  "enumMember",
  "number",
  "string",
  "type",
] as const;
export type TokenClass = (typeof tokenClasses)[number];

export const tokenMarks = ["declaration", "defaultLibrary"] as const;

export interface ClassedToken {
  start: number;
  end: number;
  is: TokenClass;
  declares: boolean;
  builtIn: boolean;
}

const joining = new Set<string>([...glueWords, ...edgeWords, ...trailingWords, ...claimWords]);
const blockWords = new Set<string>([...declarationWords, ...recipeBlocks, "stable", "reconstitute", "only"]);

export function classedTokens(library: Library, file: string, lastGood?: LastGood): ClassedToken[] {
  return library.chunks(file).flatMap((chunk) => {
    const earlier = lastGood?.of(file, chunk);
    return earlier ? mixed(ofChunk(earlier.chunk, library), ofChunk(chunk, library), earlier) : ofChunk(chunk, library);
  });
}

/** A broken line must not recolour what stands around it: there, the colours of the last good state; on its rows, those of now. */
function mixed(
  before: readonly ClassedToken[],
  now: readonly ClassedToken[],
  { chunk, edit }: Earlier,
): ClassedToken[] {
  const { base } = chunk;
  const moved = before.flatMap((token): ClassedToken[] => {
    const start = placeNow(edit, token.start - base);
    const end = placeNow(edit, token.end - base);
    return start === undefined || end === undefined ? [] : [{ ...token, start: base + start, end: base + end }];
  });
  const touched = now.filter((t) => edit.from <= t.start - base && t.end - base <= edit.toNow);
  return [...moved.filter((t) => touched.every((own) => t.end <= own.start || own.end <= t.start)), ...touched].sort(
    (a, b) => a.start - b.start,
  );
}

function ofChunk(chunk: PlacedChunk, library: Library): ClassedToken[] {
  const { tree, declarations } = chunk.reading;
  const names = new Map<number, Occurrence>();
  for (const declaration of declarations) for (const o of occurrencesIn(declaration)) names.set(o.at.start, o);
  const found: ClassedToken[] = [];
  const put = (token: { start: number; end: number }, is: TokenClass, declares = false, builtIn = false) =>
    found.push({ start: chunk.base + token.start, end: chunk.base + token.end, is, declares, builtIn });
  const word = (token: Token, first: boolean, block: string) => {
    const name = names.get(token.start);
    if (name && name.at.end === token.end) {
      const isBuiltIn = !name.recipe && isBuiltInName(library, name.name);
      put(token, name.recipe ? "variable" : "class", name.declares, isBuiltIn);
    } else put(token, classOf(token, first, block));
  };
  const line = (l: Line, block: string) => {
    for (const [i, token] of l.tokens.entries()) {
      if (token.kind === "word") word(token, i === 0, block);
      else if (token.kind === "number" || token.kind === "ratio" || token.kind === "date") put(token, "number");
      else if (token.kind === "unit") put(token, "type");
      else if (token.kind === "string") put(token, "string");
    }
  };
  const visit = (entry: Entry, block: string) => {
    if (entry.kind === "line") line(entry, block);
    else {
      line(entry.head, "");
      for (const inner of entry.body) visit(inner, wordOf(entry) === "only" ? block : wordOf(entry));
    }
  };
  for (const entry of tree.entries) visit(entry, "");
  for (const comment of tree.comments) put(comment, "comment");
  return found.sort((a, b) => a.start - b.start);
}

function wordOf(block: Block): string {
  return block.readAs ?? looseWord(block.head.tokens[0]) ?? "";
}

function isBuiltInName(library: Library, name: string): boolean {
  const declared = library.declared(name);
  return declared.length > 0 && declared.every((d) => library.spanOf({ ...d.head, chunk: d.chunk }) === undefined);
}

function classOf(token: Token, first: boolean, block: string): TokenClass {
  const text = token.text.toLowerCase();
  if (first && block === "steps" && verbsByWord.has(text)) return "function";
  if (first && block !== "" && Object.hasOwn(factTables[block] ?? {}, text)) return "property";
  if (first && (blockWords.has(text) || text === "deviation")) return "keyword";
  if (joining.has(text)) return "keyword";
  return "enumMember";
}
