/** One side of a comparison: texts by path, and what could not be opened. */
import { decode, decodeFile } from "./decode.ts";

export interface ComparedSide {
  label: string;
  /** Texts by path, the paths of both sides counted from the same place. */
  texts: Map<string, string>;
  notOpened: { file: string; reason: string }[];
}

export interface ComparedSides {
  before: ComparedSide;
  after: ComparedSide;
  /** The one file or folder that was asked about; what changed elsewhere is told only as far as it reaches it. */
  only?: string;
}

/** What one word of the command line stands for. */
export type Operand =
  | { kind: "revision"; commit: string; label: string }
  | { kind: "folder"; path: string; label: string }
  | { kind: "file"; path: string; label: string }
  /** Neither here nor a revision; beside a revision it may be what that had. */
  | { kind: "gone"; path: string; label: string }
  | { kind: "nothing"; label: string };

export function put(side: ComparedSide, name: string, bytes: Buffer): void {
  const decoded = decode(bytes, name);
  if ("text" in decoded) side.texts.set(name, decoded.text);
  else side.notOpened.push({ file: name, reason: decoded.finding.message });
}

export function putFile(side: ComparedSide, name: string, path: string): void {
  const read = decodeFile(path, name);
  if ("text" in read) side.texts.set(name, read.text);
  else side.notOpened.push({ file: name, reason: read.reason });
}

/** Whether a file is the one of this path, or lies in the folder of it. */
export function isWithin(file: string, path: string): boolean {
  return `${file}/`.startsWith(`${path}/`);
}
