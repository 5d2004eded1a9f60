/** Where answers are kept between runs, and how one version of the program is told from another. */
import { readFileSync } from "node:fs";
import { homedir, platform } from "node:os";
import { isAbsolute, join, resolve } from "node:path";
import { hashOf } from "./answer-memory.ts";
import type { CheckSettings } from "./check-settings.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * The folder named by `--cache-folder`, else the system's own for things that may be thrown away: the library's folder is under
 * review and stays clean. Undefined where nothing shall be kept.
 */
export function cacheFolder(settings: CheckSettings, { cwd, env, program }: Surroundings): string | undefined {
  if (!settings.cache || program === undefined) return undefined;
  if (settings.cacheFolder !== undefined) return resolve(cwd, settings.cacheFolder);
  // A relative one is invalid and to be left aside (XDG Base Directory Specification); it would put the cache among the recipes.
  if (env.XDG_CACHE_HOME && isAbsolute(env.XDG_CACHE_HOME)) return join(env.XDG_CACHE_HOME, "misce");
  if (platform() === "win32") return env.LOCALAPPDATA ? join(env.LOCALAPPDATA, "misce", "cache") : undefined;
  const home = env.HOME ?? homedir();
  if (!home) return undefined;
  return platform() === "darwin" ? join(home, "Library", "Caches", "misce") : join(home, ".cache", "misce");
}

/** The program by its content, with the engine it runs on, whose rules for text may differ. */
export function programIdentity(program: string): string | undefined {
  try {
    return hashOf(`${hashOf(readFileSync(program))} ${process.versions.v8} ${process.versions.unicode}`);
  } catch {
    return undefined;
  }
}
