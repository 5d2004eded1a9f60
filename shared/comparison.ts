/**
 * What differs in meaning between two states of a library, as plain data. Every printed form (text, Markdown, HTML, JSON) is made from
 * this one shape; `comparison.schema.json` beside it describes the JSON form. Where only layout or comments differ, it says nothing.
 */
import type { Severity } from "./finding.ts";

export const comparisonSchema = "misce-comparison/1";

/** In rising order: a stated fact, what follows from it at the bench, what the checks say. */
export type ChangeLevel = "none" | "fact" | "consequence" | "verdict";

export const changeLevels: readonly ChangeLevel[] = ["none", "fact", "consequence", "verdict"];

export type Side = "before" | "after";

/** A figure on both sides. Texts are empty where nothing can be said. */
export interface FigureChange {
  /** What it is: `dose`, `final volume of bag`. */
  what: string;
  /** Empty where there is none on that side. */
  before: string;
  after: string;
  /** `-2 g`; `the same amount` where only the kind of unit is another. Empty where the two cannot be taken from each other. */
  difference: string;
  /** `-50 %`. Empty where the figure was zero or measures what cannot be laid beside it. */
  percent: string;
  /** `0.5 times`. */
  factor: string;
  /** A slip that is feared: ten times, a thousand times, another kind of unit, the same figure in another unit. Empty for every other change. */
  alarm: string;
}

export interface FactChange {
  /** Where in the declaration: empty, `order`, `steps`, `preparation bag`. */
  block: string;
  /** `moved` only for steps. */
  how: "added" | "removed" | "changed" | "moved";
  /** The line as written, with single blanks; empty where there is none. */
  before: string;
  after: string;
  figures: FigureChange[];
}

export interface Consequence extends FigureChange {
  /** The point of a ranged order, such as `weight 60 kg`; empty without a range. */
  at: string;
  /** Why this point: an end of the range, a break point, or the point at which the figure changed most. */
  because: "" | "lowest" | "highest" | "break point" | "changed most" | "point of the range";
  /** The figure changed by the greatest share here; an end of the range may be that point. Always false without a range. */
  isMost: boolean;
}

export interface Verdict {
  how:
    | "appeared"
    | "went"
    | "says otherwise"
    | "graver"
    | "less grave"
    | "proof lost"
    | "proof won"
    | "silenced now"
    | "no longer silenced"
    | "safe range narrower"
    | "safe range wider"
    | "safe range differs";
  /** Name of the check; empty for a safe range. */
  name: string;
  severity: Severity;
  /** What the check said, or the safe range; empty where it said nothing. */
  before: string;
  after: string;
}

export interface DeclarationChange {
  kind: string;
  name: string;
  /** `same` where it stands here only because something about it is said: it moved to another file, or its findings changed. */
  how: "added" | "removed" | "changed" | "renamed" | "renamed and changed" | "same";
  /** Set where the name was another. */
  formerName?: string;
  file: string;
  /** Set where it moved from another file. */
  formerFile?: string;
  level: ChangeLevel;
  facts: FactChange[];
  /** Recipes only. */
  consequences: Consequence[];
  verdicts: Verdict[];
  /** Recipes only: changed declarations that it rests on, each with the way that leads there. */
  reachedThrough: { declaration: string; path: string[] }[];
  /** Why figures were not compared; empty where they were. */
  notCompared: string[];
}

export interface Comparison {
  schema: typeof comparisonSchema;
  tool: { name: "misce"; version: string };
  /** ISO date on which dates, lots and deviations of both sides were judged. */
  asOf: string;
  /** As the command names them. */
  before: string;
  after: string;
  level: ChangeLevel;
  exitStatus: 0 | 1 | 2;
  counts: { declarations: number; facts: number; consequences: number; verdicts: number; alarms: number };
  /** In order: recipes with the gravest level first, then the others by kind and name. */
  declarations: DeclarationChange[];
  /** Lines that could not be read on a side; what they mean is not compared. */
  notRead: { side: Side; file: string; subject: string; words: string }[];
  /** Files that could not be opened at all. */
  notOpened: { side: Side; file: string; reason: string }[];
  notice: string;
}
