/** Paths without links, as git names them. */
import { realpathSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/** Links resolved as far as the path exists: a removed file has no real path of its own. */
export function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    const above = dirname(path);
    return above === path ? path : join(realPath(above), basename(path));
  }
}
