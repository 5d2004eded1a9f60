/**
 * Bytes to text, or why not: the one way by which command line, server and browser read a file. Nothing is replaced or guessed, since
 * a replaced character could be a figure. A byte order mark stays in the text, so that offsets and a rewritten file agree with the disk.
 */

/** A recipe file is a few kilobytes; far beyond that somebody has named the wrong file. */
export const largestFile = 4 * 1024 * 1024;

/** `name` is the finding about the file as a whole, `reason` its sentence. */
export interface NotText {
  name: "file-not-utf-8" | "file-too-large";
  reason: string;
}

/** @param strictly bytes to text, undefined where they are not UTF-8; a machine may have a faster way than the usual one */
export function decodeBytes(
  bytes: Uint8Array,
  strictly: (bytes: Uint8Array) => string | undefined = strictUtf8,
): { text: string } | NotText {
  if (bytes.length > largestFile) return tooLarge(bytes.length);
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return notUtf8("The file is saved as UTF-16. Save it again as UTF-8.");
  }
  const zero = bytes.indexOf(0);
  if (zero >= 0) {
    return notUtf8(`Byte ${zero + 1} of the file is zero, so it is not plain text. Save it again as UTF-8 text.`);
  }
  const text = strictly(bytes);
  if (text !== undefined) return { text };
  const line = 1 + countNewlines(bytes, firstFault(bytes));
  return notUtf8(
    `Line ${line} holds a character that is not UTF-8, so nothing in the file was checked. Save it again as UTF-8.`,
  );
}

export function tooLarge(size: number): NotText {
  const megabytes = (size / (1024 * 1024)).toFixed(1);
  return {
    name: "file-too-large",
    reason: `The file has ${megabytes} MB; recipe files up to 4 MB are read, so nothing in it was checked. Divide it, or leave it out.`,
  };
}

/**
 * Whether a text that was decoded with replacement is beyond doubt what strict decoding gives: no replacement sign, no zero, and short
 * enough for any bytes it can have come from. What is in doubt is read strictly.
 */
export function isSurely(text: string): boolean {
  return text.length * 3 <= largestFile && !text.includes("\uFFFD") && !text.includes("\0");
}

function notUtf8(reason: string): NotText {
  return { name: "file-not-utf-8", reason };
}

function strictUtf8(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

/** Length of the longest beginning that decodes: found by halving, since a decoder does not say where it stopped. */
function firstFault(bytes: Uint8Array): number {
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

function countNewlines(bytes: Uint8Array, end: number): number {
  let count = 0;
  for (let i = bytes.indexOf(10); i >= 0 && i < end; i = bytes.indexOf(10, i + 1)) count++;
  return count;
}
