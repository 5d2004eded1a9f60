/** `misce server`: starts the language server that is built beside this program. It lives as long as the editor's streams do. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { CannotRun } from "./cannot-run.ts";
import type { Surroundings } from "./surroundings.ts";

/** @throws CannotRun where the server is not there */
export async function serverCommand({ program }: Surroundings): Promise<number> {
  const file = program === undefined ? undefined : join(dirname(program), "server.js");
  if (file === undefined || !existsSync(file)) {
    throw new CannotRun(
      "The server is not beside this program. Build it with npm run build, then start misce from there.",
    );
  }
  await import(pathToFileURL(file).href);
  return 0;
}
