/** Finds the recipe that a command names, in the whole library that it belongs to. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { nearNames } from "../../language/model/near.ts";
import { CannotRun } from "./cannot-run.ts";
import type { Engine, OpenLibrary, RecipeFinder } from "./engine-contract.ts";
import { type LibraryGroup, librariesOf, requireWhole } from "./library-groups.ts";
import { findFiles, findInventories } from "./source-files.ts";
import { requireReadable, SourceStore } from "./source-store.ts";
import type { Surroundings } from "./surroundings.ts";
import { tellUnusedRows } from "./unused-rows.ts";

export interface RecipeFlags {
  library?: string;
  recipe?: string;
  inventory?: string[];
}

export class NoSuchRecipe extends CannotRun {
  constructor(
    name: string,
    /** Names of recipes that are spelled like it. */
    readonly near: readonly string[],
  ) {
    const hint = near.length > 0 ? ` Did you mean ${near.join(" or ")}?` : "";
    super(`No recipe is called "${name}" here.${hint} Name its file, or the library's folder with --library.`);
  }
}

export interface OpenRecipe {
  library: OpenLibrary;
  name: string;
}

/** Whether a word on the command line means a file and not a name. */
export function isFile(what: string, { cwd }: Surroundings): boolean {
  return /\.misce$/i.test(what) || existsSync(resolve(cwd, what));
}

/**
 * @param what name of a recipe, or the file that holds it
 * @param day ISO date on which lots are judged
 * @throws CannotRun where it is not there, is not the only one, or its library cannot be read whole
 */
export async function openRecipe(
  what: string,
  flags: RecipeFlags,
  engine: Engine,
  finder: RecipeFinder,
  surroundings: Surroundings,
  day: string,
): Promise<OpenRecipe> {
  const paths = [isFile(what, surroundings) ? what : (flags.library ?? ".")];
  const groups = await openGroups(paths, flags, engine, surroundings, day);
  return chosenRecipe(what, flags, groups, finder, surroundings);
}

/** The libraries of these folders, whole. */
export async function openLibraries(
  paths: readonly string[],
  flags: RecipeFlags,
  engine: Engine,
  surroundings: Surroundings,
  day: string,
): Promise<OpenLibrary[]> {
  const groups = await openGroups(paths, flags, engine, surroundings, day);
  return Promise.all(groups.map((group) => group.library()));
}

/** All files of the libraries that hold what was named. A library that cannot be read whole answers nothing. */
async function openGroups(
  paths: readonly string[],
  flags: RecipeFlags,
  engine: Engine,
  surroundings: Surroundings,
  day: string,
): Promise<LibraryGroup[]> {
  const found = filesIn(paths, surroundings);
  const inventories = findInventories(flags.inventory ?? [], surroundings.cwd);
  const store = new SourceStore(surroundings.cwd);
  for (const path of inventories) requireReadable(path, store);
  const opened = librariesOf(engine, store, day, found.recipes, inventories);
  requireWhole(found, opened, store);
  await tellUnusedRows(opened.groups, store, surroundings.stderr);
  return opened.groups;
}

/** No recipe lies where it was looked for. */
export class NoRecipesHere extends CannotRun {}

function filesIn(paths: readonly string[], { cwd }: Surroundings): ReturnType<typeof findFiles> {
  try {
    return findFiles(paths, cwd);
  } catch (error) {
    throw error instanceof CannotRun ? new NoRecipesHere(error.message) : error;
  }
}

async function chosenRecipe(
  what: string,
  flags: RecipeFlags,
  groups: readonly LibraryGroup[],
  finder: RecipeFinder,
  surroundings: Surroundings,
): Promise<OpenRecipe> {
  const isPath = isFile(what, surroundings);
  const store = new SourceStore(surroundings.cwd);
  const found: (OpenRecipe & { file: string })[] = [];
  for (const group of groups) {
    const library = await group.library();
    const own = isPath
      ? group.asked.flatMap((path) => finder.recipesIn(library, store.nameOf(path)))
      : finder.recipesNamed(library, what);
    for (const recipe of own) found.push({ library, ...recipe });
  }
  if (isPath) return ofTheFile(what, flags.recipe, found);
  const [only, second] = found;
  if (second) {
    const files = found.map((r) => r.file);
    const some = `${files.slice(0, 3).join(", ")}${files.length > 3 ? " …" : ""}`;
    throw new CannotRun(`${found.length} recipes are called ${what}: in ${some}. Name the file instead.`);
  }
  if (only) return only;
  const all = await Promise.all(groups.map(async (group) => finder.recipes(await group.library())));
  const names = all.flat().map((r) => r.name);
  throw new NoSuchRecipe(what, [...new Set(nearNames(what, names))]);
}

function ofTheFile(file: string, wanted: string | undefined, found: readonly OpenRecipe[]): OpenRecipe {
  const names = found.map((r) => r.name);
  if (found.length === 0) throw new CannotRun(`"${file}" holds no recipe.`);
  if (wanted === undefined && found.length > 1) {
    throw new CannotRun(`"${file}" holds ${found.length} recipes: ${names.join(", ")}. Say which with --recipe NAME.`);
  }
  const chosen = wanted === undefined ? found[0] : found.find((r) => r.name === wanted);
  if (!chosen) throw new CannotRun(`"${file}" holds no recipe "${wanted}".${near(wanted ?? "", names)}`);
  return chosen;
}

function near(name: string, known: readonly string[]): string {
  const names = [...new Set(nearNames(name, known))];
  return names.length > 0 ? ` Did you mean ${names.join(" or ")}?` : "";
}
