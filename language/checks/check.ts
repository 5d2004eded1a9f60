/**
 * A check is one file with always the same parts in the same order: what it is called, how grave it is, why it matters and who
 * says so, the smallest text that shows it; then `find` (facts with places, no words), `say` (words only) and `fixes` (edits only).
 */
import type { Family, Severity } from "../../shared/finding.ts";
import type { HappeningKind } from "../bench/happenings.ts";
import type { Place } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import type {
  ChunkContext,
  DeclarationContext,
  FindingsContext,
  LibraryContext,
  RecipeContext,
  WrittenContext,
} from "./context.ts";

/** What `find` gives: at least a place in the chunk at hand. */
export interface Found {
  at: Spot;
}

/** All that `find` gives: a list, or a generator that works it out as it is asked. */
export type Findings<F extends Found> = readonly F[] | Generator<F, void>;

export interface Said {
  text: string;
  related?: readonly { at: Spot | Place; text: string }[];
}

/** Edits in the chunk at hand, or at a named place elsewhere. */
export interface Edit {
  at: Spot | Place;
  text: string;
}

export interface Repair {
  title: string;
  edits: readonly Edit[];
  /** The obvious, harmless repair. */
  preferred?: true;
}

interface CheckParts {
  /** kebab-case, says the fault, equals the file's name, never reused. */
  name: string;
  family: Family;
  severity: Severity;
  title: string;
  /** One sentence. */
  why: string;
  /** `common practice`, or a published source, or a row of the published tables (`technique-rules amp-filter-draw`). */
  source: string;
  /** Rows of the published practice and notation tables that this check answers, as `table row`. */
  rows?: readonly string[];
  /** Smallest library text that shows it: gives exactly this finding. See example.ts. */
  bad: string;
  /** The same, right: gives none. */
  good: string;
  /** ISO date for the two texts; 2026-11-25 when absent. */
  asOf?: string;
}

export interface RecipeCheck<F extends Found = Found> extends CheckParts {
  on: "recipe";
  /**
   * Set where it looks at the whole range of an order at once (a claim such as `= 2 mL to 8 mL`), so that one point shows nothing.
   * Every other check is made at each point of the range on its own. `pieces`: at how the range was judged alone, so that it is asked
   * even where no value of the range is ordered and nothing was run.
   */
  across?: true | "pieces";
  /** The one kind of happening that it tells: where no run has it, the check is not asked. */
  happening?: HappeningKind;
  /** Set by `writtenCheck`: nothing but the recipe as it is written, and the site's policy, is looked at. */
  alone?: true;
  find(context: RecipeContext): Findings<F>;
  say(found: F, context: RecipeContext): Said;
  fixes?(found: F, context: RecipeContext): readonly Repair[];
}

/** Looks at one chunk (any declaration) on its own, without running anything. */
export interface ChunkCheck<F extends Found = Found> extends CheckParts {
  on: "chunk";
  find(context: ChunkContext): Findings<F>;
  say(found: F, context: ChunkContext): Said;
  fixes?(found: F, context: ChunkContext): readonly Repair[];
}

/** Looks at a declaration with the library around it (names, lots, sources). */
export interface LibraryCheck<F extends Found = Found> extends CheckParts {
  on: "library";
  /** Set by `declarationCheck`: nothing but the declaration itself, and the site's policy, is looked at. */
  alone?: true;
  find(context: LibraryContext): Findings<F>;
  say(found: F, context: LibraryContext): Said;
  fixes?(found: F, context: LibraryContext): readonly Repair[];
}

/** Looks at what the other checks found in a recipe, once all have spoken. */
export interface FindingsCheck<F extends Found = Found> extends CheckParts {
  on: "findings";
  find(context: FindingsContext): Findings<F>;
  say(found: F, context: FindingsContext): Said;
  fixes?(found: F, context: FindingsContext): readonly Repair[];
}

// biome-ignore lint/suspicious/noExplicitAny: the registry holds checks over facts of every shape
export type AnyCheck = RecipeCheck<any> | ChunkCheck<any> | LibraryCheck<any> | FindingsCheck<any>;

export function recipeCheck<F extends Found>(check: Omit<RecipeCheck<F>, "on">): RecipeCheck<F> {
  return inOneShape({ ...check, on: "recipe" });
}

/**
 * Looks at a recipe as it is written: nothing is run or looked up, so that what it found stands until the recipe or the policy changes. Its
 * words and edits may look further.
 */
export function writtenCheck<F extends Found>(
  check: CheckParts & {
    find(context: WrittenContext): Findings<F>;
    say(found: F, context: WrittenContext & LibraryContext): Said;
    fixes?(found: F, context: WrittenContext & LibraryContext): readonly Repair[];
  },
): RecipeCheck<F> {
  return inOneShape({ ...check, on: "recipe", alone: true });
}

export function chunkCheck<F extends Found>(check: Omit<ChunkCheck<F>, "on">): ChunkCheck<F> {
  return inOneShape({ ...check, on: "chunk" });
}

export function libraryCheck<F extends Found>(check: Omit<LibraryCheck<F>, "on">): LibraryCheck<F> {
  return inOneShape({ ...check, on: "library" });
}

/** The same for a declaration of any kind. */
export function declarationCheck<F extends Found>(
  check: Omit<LibraryCheck<F>, "on" | "alone" | "find"> & { find(context: DeclarationContext): Findings<F> },
): LibraryCheck<F> {
  return inOneShape({ ...check, on: "library", alone: true });
}

export function findingsCheck<F extends Found>(check: Omit<FindingsCheck<F>, "on">): FindingsCheck<F> {
  return inOneShape({ ...check, on: "findings" });
}

/** Every check as an object of the same parts in the same order, absent ones undefined: hundreds are walked for each recipe. */
function inOneShape<C extends AnyCheck>(check: C): C {
  const { on, name, family, severity, title, why, source, rows, bad, good, asOf, find, say, fixes } = check;
  const { across, happening, alone } = check as Partial<RecipeCheck>;
  const parts = { on, name, family, severity, title, why, source, rows, bad, good, asOf };
  return { ...parts, across, happening, alone, find, say, fixes } as unknown as C;
}
