/**
 * What the side preview of an editor shows: one recipe as the bench will see it, as plain data. The server answers with it, the
 * client draws it; no sentence in it is ever parsed back. Lines and characters are those of LSP: from 0, UTF-16 code units.
 */
import type { Severity } from "./finding.ts";

/** Request from the client: which recipe stands at this place. */
export const previewRequest = "misce/preview";

export interface PreviewPosition {
  line: number;
  character: number;
}

export interface PreviewRange {
  start: PreviewPosition;
  end: PreviewPosition;
}

export interface PreviewParams {
  uri: string;
  /** The cursor. The recipe around it is shown, or the nearest one above, or the first of the file. */
  position: PreviewPosition;
}

/** A finding told beside the row it belongs to. */
export interface PreviewNote {
  severity: Severity;
  /** Name of the check. */
  name: string;
  text: string;
}

/** One row: a fact, a material, a figure or a step. */
export interface PreviewItem {
  /** What it is: "dose", "bag", "draw from mag". Empty for a step, whose `text` is the whole sentence. */
  label: string;
  /** What stands in the recipe or follows from it, with its unit. */
  text: string;
  /** What the bench adds: volume to draw, graduation, lot. Empty when nothing does. */
  figure: string;
  /** The working of the figure, line by line as on paper. */
  working: string[];
  /** More lines: lots on the shelf of a material, what a container holds after a step. */
  more: string[];
  notes: PreviewNote[];
  /** Where it stands in the text; absent for what follows from several places. */
  range?: PreviewRange;
}

export type PreviewSectionKind = "order" | "materials" | "figures" | "steps" | "preparation" | "findings";

export interface PreviewSection {
  kind: PreviewSectionKind;
  heading: string;
  items: PreviewItem[];
  /** Said in place of rows when there are none. */
  empty: string;
}

export interface PreviewSheetData {
  /** A whole document, without bar code. */
  html: string;
  /** `weight 40 kg (the least that is ordered), prepared 2026-11-25 09:30`. */
  shownFor: string;
  /** The steps by the number printed on them. */
  steps: { number: string; range: PreviewRange }[];
}

export interface Preview {
  uri: string;
  /** Version of the text that this was computed from; null when the file is not open in the client. */
  version: number | null;
  /** Name of the recipe, empty when the file has none. */
  recipe: string;
  title: string;
  /** ISO date on which lots and dates were judged. */
  asOf: string;
  /** Findings of this recipe that stand (silenced ones not counted). */
  counts: Record<Severity, number>;
  /** One sentence on top: what stands against use, or that figures are unknown, or that no finding stands. */
  verdict: string;
  /** `stopped`: the run did not reach the end, so figures after that place are not known. `none`: no recipe here. */
  state: "followed" | "stopped" | "none";
  sections: PreviewSection[];
  /** The whole recipe's place. */
  range?: PreviewRange;
  /** The sheet as it would be printed now; absent where none can be made of the recipe as it stands. */
  sheet?: PreviewSheetData;
}
