/** `misce server`: starts the language server that is built beside this program. It lives as long as the editor's streams do. */
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
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
  // CommonJS as this program's own bundle is, which cannot import().
  createRequire(file)(file);
  // It ends the process itself when the editor leaves.
  return new Promise(() => undefined);
}
