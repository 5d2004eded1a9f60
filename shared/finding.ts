/**
 * What a check reports, as plain data. Editor, terminal, SARIF and sheet all read this one shape;
 * nobody parses a sentence back.
 */

/** How grave a finding is. `error`: must not be used as it stands. `warning`: a careful colleague would object. `note`: worth knowing. */
export type Severity = "error" | "warning" | "note";

export const severities: readonly Severity[] = ["error", "warning", "note"];

/** The subject a check belongs to. */
export type Family =
  | "notation"
  | "units"
  | "volumes"
  | "technique"
  | "stock"
  | "stability"
  | "limits"
  | "record"
  | "structure";

/** A stretch of a file: UTF-16 code unit offsets, `end` exclusive. */
export interface Span {
  file: string;
  start: number;
  end: number;
}

/** Replace `span` by `text`. An insertion has an empty span. */
export interface TextEdit {
  span: Span;
  text: string;
}

/** One way to mend a finding. All edits belong together; none of them overlap. */
export interface Fix {
  title: string;
  edits: TextEdit[];
  /** The obvious repair, safe to take without reading further (notation). Never true where the choice is clinical. */
  preferred: boolean;
}

export interface RelatedPlace {
  span: Span;
  message: string;
}

/** A deviation that silences a finding: the finding is kept and marked, never dropped. */
export interface Silenced {
  /** The deviation's own place. */
  span: Span;
  because: string;
  by: string;
  /** ISO date, the last day on which it holds. */
  until: string;
}

/** For which orders of a range a finding is so, in words. */
export interface OverRange {
  /** The roundest order at which it is met, `weight 50 kg`; the finding's figures are of this one. */
  shownAt: string;
  /** `45 kg to 54.9 kg`, `every order`. */
  fails: string;
  /** The rest of the range; empty where there is none, or where it is not one stretch of one input. */
  holds: string;
}

/** How far a recipe whose order has a range was decided. */
export interface JudgedRange {
  recipe: string;
  /** `weight 40 kg to 120 kg`. */
  range: string;
  /** Pieces of the range within which all checks decide alike, one run standing for all of each. */
  pieces: number;
  /** What could not be decided: nothing is known to hold there. */
  undecided: { where: string; reason: string }[];
}

export interface Finding {
  /** kebab-case name of the check, never reused. */
  name: string;
  family: Family;
  severity: Severity;
  span: Span;
  /** What is wrong with the figures, then what to do. Plain sentences. */
  message: string;
  related: RelatedPlace[];
  /** Why it matters, one sentence. */
  why: string;
  /** Where the rule comes from. */
  source: string;
  fixes: Fix[];
  /** Declaration it stands in, e.g. `recipe magnesium-4g`; empty at top level. */
  subject: string;
  /** The author's own words at the place (normalised blanks): with name and subject it identifies a finding after lines moved. */
  anchor: string;
  silenced?: Silenced;
  /** Only where the order has a range. */
  overRange?: OverRange;
}
