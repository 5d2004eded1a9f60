/** What a check may look at. Pure values: no files, no clock; the as-of date comes in. */

import type { Run } from "../bench/run.ts";
import type { CalendarDate } from "../model/dates.ts";
import type { Chunk, ChunkReading, Declaration, Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";

export interface ChunkContext {
  chunk: Chunk;
  reading: ChunkReading;
  policy: Policy;
}

export interface LibraryContext extends ChunkContext {
  /** The declaration looked at. */
  declaration: Declaration;
  lookup: Lookup;
  asOf: CalendarDate;
  /** Names of all checks, for deviations and site settings. */
  checkNames: ReadonlySet<string>;
}

export interface RecipeContext extends LibraryContext {
  declaration: Recipe;
  recipe: Recipe;
  /** The ordinary run: for a ranged order, at the lower ends of its ranges. */
  run: Run;
  /** All runs of this recipe: both ends of each range, least and most overfill. The ordinary run is the first. */
  runs: readonly Run[];
}
