/**
 * The result of one run of `misce check`, as plain data. Every printed form (text, JSON, SARIF, JUnit, GitHub, GitLab) is made
 * from this one shape; `report.schema.json` beside it describes the JSON form.
 */
import type { Family, JudgedRange, OverRange, Severity } from "./finding.ts";

export const reportSchema = "misce-report/1";

/** Stands at the end of every report and of the help. */
export const safetyNotice =
  "Misce supports and does not replace the pharmacist's check, local procedures and licensed practice.";

/** A stretch of a file. Offsets and columns count UTF-16 code units; lines and columns begin at 1; ends are exclusive. */
export interface ReportPlace {
  /** As given to the engine: relative to the working folder, with forward slashes. */
  file: string;
  start: number;
  end: number;
  line: number;
  column: number;
  endLine: number;
  endColumn: number;
}

export interface ReportFix {
  title: string;
  preferred: boolean;
  edits: { place: ReportPlace; text: string }[];
}

export interface ReportFinding {
  name: string;
  family: Family;
  severity: Severity;
  message: string;
  place: ReportPlace;
  related: { place: ReportPlace; message: string }[];
  why: string;
  source: string;
  fixes: ReportFix[];
  subject: string;
  anchor: string;
  /** 64 hexadecimal digits; the same for the same fault after lines moved. See client/cli/fingerprint.ts. */
  fingerprint: string;
  /** For which orders of a range it is so. */
  overRange?: OverRange;
  silenced?: { place: ReportPlace; because: string; by: string; until: string };
}

export interface ReportRange extends JudgedRange {
  file: string;
}

/** Findings that a library had when the baseline was written, one entry for all that look the same. */
export interface BaselineEntry {
  name: string;
  severity: Severity;
  /** Folder of the library, relative to the baseline's own folder. */
  root: string;
  /** Where it stood when written; only for the reader and to know whether the file was part of a run. */
  file: string;
  subject: string;
  anchor: string;
  count: number;
  /** The amounts in each message, sorted: a finding with others is not the one that was known. */
  figures: string[];
}

export interface BaselineSummary {
  file: string;
  /** Findings that are in the baseline and therefore not in `findings`. */
  known: number;
  /** Whose known findings are errors, sorted: `recipe magnesium-4g`. What rests on the figures that they fault is not judged there. */
  errorsIn: string[];
  /** Entries (or part of their count) that no longer occur. */
  gone: BaselineEntry[];
}

/**
 * 0: nothing at or above the level. 1: something. 2: could not run, or not all files could be checked. 3: the only findings at or
 * above the level say that a part of an order's range could not be decided.
 */
export type ExitStatus = 0 | 1 | 2 | 3;

export interface Report {
  schema: typeof reportSchema;
  tool: { name: "misce"; version: string };
  /** ISO date on which lots, deviations and dates were judged. */
  asOf: string;
  /** Findings at or above it give exit status 1. */
  level: Severity;
  exitStatus: ExitStatus;
  /** Files whose findings are in the report, in order. */
  files: string[];
  /** Files that could not be read or checked. Never empty with exit status 0. */
  notChecked: { file: string; reason: string }[];
  /** Severities count what is neither silenced nor in the baseline. */
  counts: { error: number; warning: number; note: number; silenced: number; baseline: number };
  baseline?: BaselineSummary;
  /** Recipes whose order has a range, in order of file and place: how far each was decided. */
  ranges?: ReportRange[];
  /** In order of file and place. Silenced ones are kept and marked. */
  findings: ReportFinding[];
  notice: string;
}
