/** What a check may look at. Pure values: no files, no clock; the as-of date comes in. */

import type { Severity } from "../../shared/finding.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import type { CalendarDate } from "../model/dates.ts";
import type { Chunk, ChunkReading, Declaration, Deviation, Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { RangeJudgement } from "./over-range.ts";

export interface ChunkContext {
  chunk: Chunk;
  reading: ChunkReading;
  policy: Policy;
}

/** A declaration as it is written. */
export interface DeclarationContext extends ChunkContext {
  /** The declaration looked at. */
  declaration: Declaration;
  /** Names of all checks, for deviations and site settings. */
  checkNames: ReadonlySet<string>;
}

/** A recipe as it is written. */
export interface WrittenContext extends DeclarationContext {
  declaration: Recipe;
  recipe: Recipe;
}

export interface LibraryContext extends DeclarationContext {
  lookup: Lookup;
  asOf: CalendarDate;
}

export interface RecipeContext extends LibraryContext {
  declaration: Recipe;
  recipe: Recipe;
  /** The ordinary run: for a ranged order, at the lower ends of its ranges. */
  run: Run;
  /**
   * The runs at one point of the order: by the label, then with least and most overfill. For a check `across` a range: at the ends
   * of every piece of it. The ordinary run is the first.
   */
  runs: readonly Run[];
  /** The range of the order in its pieces; undefined where it has none. */
  range?: RangeJudgement | undefined;
  /** Names of the findings that the recipe has at one point of its order, silenced ones and those about examples left aside. */
  namesAt(point: OrderPoint): ReadonlySet<string>;
}

/** A finding of another check, as far as later checks look at it. */
export interface FoundBefore {
  name: string;
  severity: Severity;
  silencedBy: Deviation | undefined;
}

/** For checks that look at what the other checks found in a recipe. */
export interface FindingsContext extends LibraryContext {
  declaration: Recipe;
  recipe: Recipe;
  /** All findings of the recipe, re-graded and silenced. */
  findings: readonly FoundBefore[];
}
