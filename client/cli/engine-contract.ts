/** What the command line asks of the language. Every module here takes it as a value, so that tests can put another in its place. */
import type { Family, Finding, Severity } from "../../shared/finding.ts";

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
  /** Files whose declarations this file uses, directly or through others. */
  dependencies(file: string): string[];
  /** Lets go of what was worked out for a file that is not asked again. */
  release(file: string): void;
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

export interface Engine {
  library(options: { asOf: string }): Promise<OpenLibrary>;
  checks(): Promise<readonly CheckDescription[]>;
  formatText(): Promise<(text: string) => string>;
}
