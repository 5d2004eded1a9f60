/** Files that are never met half written. */
import { chmodSync, realpathSync, renameSync, rmSync, type Stats, statSync, writeFileSync } from "node:fs";

/**
 * Writes beside the file and moves that into its place. A link stays a link, a file keeps its mode; a device or a pipe
 * (`/dev/null`, `/dev/stdout`) is written to and never replaced.
 *
 * @throws the system's error, with nothing left behind
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const before = statOf(path);
  if (before && !before.isFile()) {
    writeFileSync(path, content);
    return;
  }
  const real = before ? realpathSync(path) : path;
  const half = `${real}.${process.pid}.part`;
  try {
    writeFileSync(half, content);
    if (before) chmodSync(half, before.mode);
    renameSync(half, real);
  } catch (error) {
    rmSync(half, { force: true });
    throw error;
  }
}

/** Undefined where nothing stands yet. */
function statOf(path: string): Stats | undefined {
  return statSync(path, { throwIfNoEntry: false });
}
