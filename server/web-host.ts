/**
 * Files through the editor, for a server that has no disk. The editor's side answers two requests:
 * `misce/listFiles` { folder: URI, deep: boolean, records?: boolean } → URIs of the recipe files or of the records of approvals, and
 * `misce/readFile` { uri } → { bytes: base64 } or null where there is no such file.
 */
import type { Connection } from "vscode-languageserver";
import { decodeBytes } from "../language/syntax/decode.ts";
import { isRecord } from "./approval-records.ts";
import { type Host, sourceOf } from "./host.ts";

export function webHost(connection: Connection): Host {
  const list = async (folder: string, deep: boolean): Promise<string[]> => {
    const found = await connection.sendRequest<string[] | null>("misce/listFiles", { folder, deep });
    return (found ?? []).filter((uri) => /\.misce$/i.test(uri)).map(normal);
  };
  const records = async (folder: string): Promise<string[]> => {
    const found = await connection.sendRequest<string[] | null>("misce/listFiles", {
      folder,
      deep: false,
      records: true,
    });
    return (found ?? []).filter(isRecord).map(normal);
  };
  return {
    keyOf: normal,
    uriOf: (key) => key,
    folderOf(key) {
      const from = key.indexOf("://") + 3;
      const cut = key.lastIndexOf("/");
      return from < 3 || cut < from ? undefined : key.slice(0, cut);
    },
    recipesUnder: (folder) => list(folder, true),
    reaches: async () => true, // links are not followed here
    recipesIn: (folder) => list(folder, false),
    recordsIn: records,
    async read(key) {
      let found: { bytes: string } | null;
      try {
        const asked = connection.sendRequest<{ bytes: string } | null>("misce/readFile", { uri: key });
        found = await within(longestRead, asked);
      } catch (error) {
        // One file that may not be read must not keep the others from being checked.
        return { kind: "unreadable", name: "file-not-read", reason: `The file could not be read (${said(error)}).` };
      }
      return found ? sourceOf(decodeBytes(Uint8Array.from(atob(found.bytes), (c) => c.charCodeAt(0)))) : undefined;
    },
    resolve: (folder, path) => new URL(path, `${folder}/`).href,
    now: () => new Date(),
    after(milliseconds, run) {
      const timer = setTimeout(run, milliseconds);
      return () => clearTimeout(timer);
    },
  };
}

/** One file system that does not answer must not keep the others from being checked. */
const longestRead = 30_000;

function within<R>(milliseconds: number, answer: Promise<R>): Promise<R> {
  return new Promise((resolve, reject) => {
    const late = () => reject(new Error(`no answer within ${milliseconds / 1000} s`));
    const timer = setTimeout(late, milliseconds);
    answer.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

/** One spelling for a URI, as editors differ in what they escape. */
function normal(uri: string): string {
  try {
    return new URL(uri).href;
  } catch {
    return uri;
  }
}

function said(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
