/**
 * A file is cut into chunks before anything is read: each top-level declaration, with what follows it up to the next one.
 * A chunk is the unit of reading and of keeping what was read, so that an edit costs one declaration and a forgotten brace
 * spoils one declaration.
 */
import { blankClass } from "./characters.ts";
import { type DeclarationWord, declarationWords, longestText } from "./words.ts";

export interface Chunk {
  /** Offset in the file, UTF-16 code units. */
  start: number;
  text: string;
}

export interface ChunkHead {
  word: DeclarationWord;
  /** As written; undefined when there is none or when it is not a name. */
  name: string | undefined;
  /** Offsets in the chunk; equal when nothing stands there. */
  nameStart: number;
  nameEnd: number;
}

// The blanks and the name are bounded so that a line of many megabytes costs no backtracking; nobody writes a longer head.
const headPattern = new RegExp(
  `(${declarationWords.join("|")})(?:[${blankClass}]{1,200}([^\\s{}"#,=]{1,400}))?[${blankClass}]{0,200}\\{(?:[${blankClass}]*(?:$|[\\r\\n])|[${blankClass}]+#)`,
  "iy",
);
/** Letters that a declaration word begins with: most lines are told apart by their first sign alone. */
const firstLetters = new Set(
  declarationWords.flatMap((word) => [word.charCodeAt(0), word[0]!.toUpperCase().charCodeAt(0)]),
);
const namePattern = /^[A-Za-z](?:-?(?:[A-Za-z]|\d(?:\.(?=\d))?))*$/;

/** Whether a declaration head (word, at most one name, `{` at the end of the line) stands at `offset`; the caller knows it is column 1. */
export function declarationHeadAt(text: string, offset: number): boolean {
  headPattern.lastIndex = offset;
  return headPattern.test(text);
}

/** Cuts a file into chunks. The chunk texts joined are the file; only the empty file has no chunk. */
export function splitChunks(text: string): Chunk[] {
  if (text.length > longestText) return [{ start: 0, text }];
  const starts: number[] = [];
  let lineFeed = text.indexOf("\n");
  let carriageReturn = text.indexOf("\r");
  for (let start = 0; ; ) {
    const head = text.charCodeAt(start) === 0xfeff ? start + 1 : start;
    if (firstLetters.has(text.charCodeAt(head)) && declarationHeadAt(text, head)) starts.push(start);
    if (lineFeed >= 0 && lineFeed < start) lineFeed = text.indexOf("\n", start);
    if (carriageReturn >= 0 && carriageReturn < start) carriageReturn = text.indexOf("\r", start);
    if (lineFeed < 0 && carriageReturn < 0) break;
    const isFeed = carriageReturn < 0 || (lineFeed >= 0 && lineFeed < carriageReturn);
    start = (isFeed ? lineFeed : carriageReturn) + 1;
  }
  if (starts[0] !== 0 && text !== "") starts.unshift(0);
  return starts.map((start, i) => ({ start, text: text.slice(start, starts[i + 1]) }));
}

/** The declaration that a chunk begins with, without reading the rest; undefined for what stands before the first declaration. */
export function chunkHead(text: string): ChunkHead | undefined {
  const at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  headPattern.lastIndex = at;
  const match = headPattern.exec(text);
  if (!match) return undefined;
  const word = match[1]!.toLowerCase() as DeclarationWord;
  const written = match[2];
  const wordEnd = at + match[1]!.length;
  if (written === undefined) return { word, name: undefined, nameStart: wordEnd, nameEnd: wordEnd };
  const nameStart = text.indexOf(written, wordEnd);
  const name = namePattern.test(written) ? written : undefined;
  return { word, name, nameStart, nameEnd: nameStart + written.length };
}
