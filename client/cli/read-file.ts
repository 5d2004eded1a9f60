/** Bytes of a file, or at once why not: nothing waits for a pipe that nobody writes to, or reads a device that never ends. */
import { isUtf8 } from "node:buffer";
import { closeSync, constants, fstatSync, openSync, readSync, type Stats } from "node:fs";
import { reasonOf } from "./cannot-run.ts";

export type FileRead =
  /** Those of `into`, where they fit, stay only until it is used again. */
  { bytes: Buffer } | { tooLarge: number } | { reason: string; isMissing: boolean };

export interface ReadOptions {
  /** Bytes beyond which the file is not read. */
  most: number;
  /** For files that are read by the thousand, and made a text at once. */
  into?: Buffer;
}

/** Files that this program wrote itself (baselines, approvals) grow with a library; beyond this somebody has named another file. */
export const largestRecord = 64 * 1024 * 1024;

export function readFile(path: string, { most, into }: ReadOptions): FileRead {
  let handle: number | undefined;
  try {
    handle = openSync(path, withoutWaiting);
    const stats = fstatSync(handle);
    const kind = otherKind(stats);
    if (kind !== undefined) return { reason: kind, isMissing: false };
    if (stats.size > most) return { tooLarge: stats.size };
    const bytes = bytesOf(handle, stats.size, most, into);
    return bytes.length > most ? { tooLarge: bytes.length } : { bytes };
  } catch (error) {
    return { reason: reasonOf(error), isMissing: isMissing(error) };
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

function isMissing(error: unknown): boolean {
  return ["ENOENT", "ENOTDIR"].includes((error as NodeJS.ErrnoException).code ?? "");
}

/** The text of a file that this program wrote. */
export function readRecordText(path: string): { text: string } | { reason: string; isMissing: boolean } {
  const read = readFile(path, { most: largestRecord });
  if ("bytes" in read) {
    if (isUtf8(read.bytes)) return { text: read.bytes.toString("utf8") };
    return { reason: "it is not UTF-8 text", isMissing: false };
  }
  if ("reason" in read) return read;
  const megabytes = Math.floor(largestRecord / 1024 / 1024);
  return {
    reason: `it has more than ${megabytes} MB, so it is another file than this program wrote`,
    isMissing: false,
  };
}

/** Opening a pipe would wait for a writer, for ever if there is none. Windows has no such pipes and no such flag. */
const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** Undefined for a plain file. */
function otherKind(stats: Stats): string | undefined {
  if (stats.isFile()) return undefined;
  if (stats.isDirectory()) return "it is a folder";
  if (stats.isFIFO()) return "it is a pipe, not a file";
  return "it is a device, not a file";
}

/** What has no size of its own (a file of the system) is read to its end, or to the first byte too many. */
function bytesOf(handle: number, size: number, most: number, into: Buffer | undefined): Buffer {
  if (size === 0) return readToEnd(handle, most);
  return fill(handle, into && size <= into.length ? into.subarray(0, size) : Buffer.allocUnsafe(size));
}

/** At most one byte more than `most`: by that whoever asked sees that there is more. */
export function readToEnd(handle: number, most: number): Buffer {
  const parts: Buffer[] = [];
  for (let length = 0; length <= most; length += parts.at(-1)!.length) {
    const part = fill(handle, Buffer.allocUnsafe(Math.min(64 * 1024, most + 1 - length)));
    if (part.length === 0) break;
    parts.push(part);
  }
  return Buffer.concat(parts);
}

/** As much of the buffer as there is to read. */
function fill(handle: number, buffer: Buffer): Buffer {
  let length = 0;
  while (length < buffer.length) {
    const read = readSome(handle, buffer, length);
    if (read === 0) break;
    length += read;
  }
  return buffer.subarray(0, length);
}

function readSome(handle: number, buffer: Buffer, from: number): number {
  try {
    return readSync(handle, buffer, from, buffer.length - from, null);
  } catch (error) {
    // Windows reports the end of a pipe as an error.
    if ((error as NodeJS.ErrnoException).code === "EOF") return 0;
    throw error;
  }
}
