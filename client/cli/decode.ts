/** Bytes to text, or the finding that says why not. Nothing is replaced or guessed: a replaced character could be a figure. */
import type { Finding } from "../../shared/finding.ts";
import { fileFinding, fileNotUtf8, fileTooLarge, largestFile } from "./file-checks.ts";

export type Decoded = { text: string } | { finding: Finding };

/** A byte order mark stays in the text, so that offsets and a rewritten file agree with the disk. */
export function decode(bytes: Buffer, file: string): Decoded {
  if (bytes.length > largestFile) return { finding: tooLarge(file, bytes.length) };
  if (startsWith(bytes, [0xff, 0xfe]) || startsWith(bytes, [0xfe, 0xff])) {
    return notUtf8(file, "The file is saved as UTF-16. Save it again as UTF-8.");
  }
  const zero = bytes.indexOf(0);
  if (zero >= 0) {
    return notUtf8(file, `Byte ${zero + 1} of the file is zero, so it is not plain text. Save it again as UTF-8 text.`);
  }
  try {
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    const line = 1 + countNewlines(bytes, firstFault(bytes));
    return notUtf8(
      file,
      `Line ${line} holds a character that is not UTF-8, so nothing in the file was checked. Save it again as UTF-8.`,
    );
  }
}

export function tooLarge(file: string, size: number): Finding {
  const megabytes = (size / (1024 * 1024)).toFixed(1);
  return fileFinding(
    fileTooLarge,
    file,
    `The file has ${megabytes} MB; recipe files up to 4 MB are read, so nothing in it was checked. Divide it, or leave it out.`,
  );
}

function notUtf8(file: string, message: string): Decoded {
  return { finding: fileFinding(fileNotUtf8, file, message) };
}

function startsWith(bytes: Buffer, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte);
}

/** Length of the longest beginning that decodes: found by halving, since a decoder does not say where it stopped. */
function firstFault(bytes: Buffer): number {
  let good = 0;
  let bad = bytes.length;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    try {
      new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(0, middle), { stream: true });
      good = middle;
    } catch {
      bad = middle;
    }
  }
  return good;
}

function countNewlines(bytes: Buffer, end: number): number {
  let count = 0;
  for (let i = bytes.indexOf(10); i >= 0 && i < end; i = bytes.indexOf(10, i + 1)) count++;
  return count;
}
