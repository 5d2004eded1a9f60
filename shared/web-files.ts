/**
 * How a server in a browser worker reads files: it asks the client, which alone can reach the editor's file systems. Requests run
 * from the server to the client. See server/web-host.ts for the asking side.
 */

/** Recipe files in a folder, or also in the folders under it; or the records of approvals there: answers with their URIs. */
export const listFilesRequest = "misce/listFiles";

export interface ListFilesParams {
  /** URI. */
  folder: string;
  deep: boolean;
  /** Files whose names end with `.approvals.json` in the place of the recipe files. */
  records?: boolean;
}

export type ListFilesResult = string[];

/** The bytes of a file as base64; null where there is none. The request fails where the file cannot be read. */
export const readFileRequest = "misce/readFile";

export interface ReadFileParams {
  uri: string;
}

export type ReadFileResult = { bytes: string } | null;
