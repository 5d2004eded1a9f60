/** Bytes to text, or the finding that says why not, by the rule that the server has too (language/syntax/decode.ts). */
import { isUtf8 } from "node:buffer";
import { decodeBytes, largestFile, type NotText, tooLarge as tooLargeReason } from "../../language/syntax/decode.ts";
import type { Finding } from "../../shared/finding.ts";
import { fileFinding, fileNotUtf8, fileTooLarge } from "./file-checks.ts";
import { readFile } from "./read-file.ts";

export type Decoded = { text: string } | { finding: Finding };

export function decode(bytes: Buffer, file: string): Decoded {
  const read = decodeBytes(bytes, () => (isUtf8(bytes) ? bytes.toString("utf8") : undefined));
  return "text" in read ? read : { finding: findingOf(read, file) };
}

/** A file that is read once, by the same rule as those of the library. Reason: a whole sentence. */
export function decodeFile(path: string, file: string): { text: string } | { reason: string } {
  const read = readFile(path, { most: largestFile });
  if ("reason" in read) return { reason: `It cannot be read: ${read.reason}.` };
  if ("tooLarge" in read) return { reason: tooLargeReason(read.tooLarge).reason };
  const decoded = decode(read.bytes, file);
  return "text" in decoded ? decoded : { reason: decoded.finding.message };
}

export function tooLarge(file: string, size: number): Finding {
  return findingOf(tooLargeReason(size), file);
}

function findingOf({ name, reason }: NotText, file: string): Finding {
  return fileFinding(name === "file-too-large" ? fileTooLarge : fileNotUtf8, file, reason);
}
