/** What the command line asks of the language. Every module here takes it as a value, so that tests can put another in its place. */

import type { Explained, ExplainRequest } from "../../language/answers/explain.ts";
import type { BlockWords, LineWords } from "../../language/answers/language-words.ts";
import type { TradeWord } from "../../language/answers/words-of-the-trade.ts";
import type { meaningMaker } from "../../language/compare/meaning-maker.ts";
import type { exporter } from "../../language/export/exporter.ts";
import type { Plan, PlanRequest } from "../../language/planning/plan.ts";
import type { Shortage } from "../../language/planning/shortage.ts";
import type { Sheet, SheetRefusal, SheetRequest } from "../../language/sheet/sheet.ts";
import type { Family, Finding, JudgedRange, Severity } from "../../shared/finding.ts";
import type { KnownErrors } from "./known-errors.ts";

/** Files under one library root, sharing their names. */
export interface OpenLibrary {
  open(file: string, text: string): void;
  change(file: string, text: string): void;
  close(file: string): void;
  /** A CSV export with the lots on the shelf. */
  openInventory(file: string, csv: string): void;
  files(): string[];
  /** In order of place; silenced ones included and marked. */
  findings(file: string): Finding[];
  /** Recipes of a file, just asked, whose order has a range. Left out: an engine without ranges. */
  ranges?(file: string): JudgedRange[];
  /** Files whose declarations this file uses, directly or through others. */
  dependencies(file: string): string[];
  /** Lets go of what was worked out for a file that is not asked again. */
  release(file: string): void;
  /** What the findings of a file, just asked, rest on besides its text and all declarations that are no recipes. */
  restsOn?(file: string): RestsOn;
}

export interface RestsOn {
  /** Names looked for, whatever is declared under them. */
  names: string[];
  /** It looked at the names of all recipes, or at a recipe of another file. */
  otherRecipes: boolean;
}

export interface CheckDescription {
  name: string;
  family: Family;
  severity: Severity;
  title: string;
  why: string;
  source: string;
  /** Smallest text that shows it, and the same put right; empty where a text cannot show it. */
  bad: string;
  good: string;
}

/** Recipes with the file each stands in: all of the library, those of one name, those of one file. */
export interface RecipeFinder {
  recipes(library: OpenLibrary): { name: string; file: string }[];
  recipesNamed(library: OpenLibrary, name: string): { name: string; file: string }[];
  recipesIn(library: OpenLibrary, file: string): { name: string; file: string }[];
}

/** Shows the working of figures and plans batches. A refusal is a plain sentence that says why there is none. */
export interface Adviser extends RecipeFinder {
  explain(library: OpenLibrary, request: ExplainRequest): Explained | SheetRefusal;
  plan(library: OpenLibrary, request: PlanRequest): Plan | SheetRefusal;
  shortage(library: OpenLibrary, stock: string): Shortage | SheetRefusal;
}

/** Makes sheets from an opened library. */
export interface SheetMaker extends RecipeFinder {
  timeZone(library: OpenLibrary): string;
  /** What the wall clock of a zone shows, with its offset: `2026-11-25T09:30:00+00:00`; undefined where the zone is not known. */
  wallClock(now: Date, zone: string): string | undefined;
  /** The sheet, or a plain sentence that says why there is none. */
  sheet(library: OpenLibrary, request: SheetRequest): Sheet | SheetRefusal;
  /** The data of the sheet, as shared/sheet.schema.json describes it. */
  json(sheet: Sheet): string;
  /** Self-contained HTML. `drawCode` gives the SVG of a bar code. */
  html(sheet: Sheet, labelsOnly: boolean, drawCode: (elementString: string) => string): string;
}

/** Compares meanings, takes fingerprints, keeps approvals and merges. See language/compare/meaning-maker.ts. */
export type MeaningMaker = typeof meaningMaker;

/** Writes recipes in open formats. See language/export/exporter.ts. */
export type Exporter = typeof exporter;

export type { BlockWords, LineWords };

export interface Engine {
  /** `known`: by recipe the checks whose errors are not shown, so that nothing may be left out on their account. */
  library(options: { asOf: string; known?: KnownErrors }): Promise<OpenLibrary>;
  checks(): Promise<readonly CheckDescription[]>;
  formatText(): Promise<(text: string) => string>;
  /** The blocks of the language with their lines. Left out where an engine has no reference. */
  words?(): Promise<readonly BlockWords[]>;
  /** What the language writes for a word of the trade. Left out where an engine has no reference. */
  tradeWord?(): Promise<(word: string) => readonly TradeWord[]>;
  /** The recipes' names of a file that declares nothing but recipes; undefined for any other. Left out: nothing is kept between runs. */
  recipesOnly?(): Promise<(text: string) => string[] | undefined>;
  /** Left out where an engine prints nothing. */
  sheets?(): Promise<SheetMaker>;
  /** Left out where an engine explains and plans nothing. */
  adviser?(): Promise<Adviser>;
  /** Left out where an engine exports nothing. */
  exporter?(): Promise<Exporter>;
  /** Left out where an engine compares nothing. */
  meanings?(): Promise<MeaningMaker>;
}
