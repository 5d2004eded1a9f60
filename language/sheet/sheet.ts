/** The sheet as plain data: what a technician needs at the bench and a pharmacist for the check. HTML and PDF print the same data. */
import type { Said, SaidLine } from "./said.ts";

export interface Sheet {
  /** Name of the recipe. */
  recipe: string;
  title: Said;
  site: Said | undefined;
  /** `patient`: for one named patient, written in by hand. `batch`: for stock, with a batch number. */
  variant: "patient" | "batch";
  /** Identification number of this preparation; undefined leaves a line to write on. */
  number: Said | undefined;
  prepared: Said;
  timeZone: Said;
  /** Of the meaning that this sheet was made from, by compare/fingerprint.ts. */
  fingerprint: Said;
  revision: Said | undefined;
  /** Who approved this meaning; and approvals that are of another one, said to be so. */
  approvals: Said[];
  /** Why it must not be used; empty where nothing stands against it. */
  notForUse: Said[];
  silenced: SilencedRow[];
  order: SaidLine[];
  /** How often all steps are done, and how many finished containers come of it. */
  runs: number;
  made: Said;
  materials: MaterialRow[];
  figures: FigureRow[];
  steps: StepRow[];
  keep: KeepRow[];
  preparation: SaidLine[];
  beyondUse: BeyondUseRow[];
  rates: RateTable | undefined;
  labels: Label[];
  notes: Said[];
  /** Supports, does not replace. On every page. */
  safety: string;
}

export interface SilencedRow {
  message: Said;
  because: Said;
  by: Said;
  until: Said;
}

export interface MaterialRow {
  /** Name in the steps; of single devices of one kind all names, `needle, needle-2`. */
  name: string;
  product: Said;
  /** `2 ampoules`, for all runs. */
  count: Said;
  /** Lots are recorded of what holds drug or fluid, not of devices. */
  recordsLot: boolean;
  /** Chosen with the command; empty leaves lines to write on. */
  chosen: { lot: Said; expires: Said }[];
  /** In date on the shelf, first to expire first. */
  onShelf: Said[];
  /** How many lines to leave for lots. */
  lines: number;
  cautions: Said[];
}

/** What stays beside the preparation, with the volumes that were drawn into it. */
export interface KeepRow {
  name: string;
  product: Said;
  drawn: Said[];
  /** What must be found in it; undefined for what held no drug or fluid of its own, or is used up. */
  left: Said | undefined;
}

export interface FigureRow {
  label: Said;
  value: Said;
  /** Worked out again by a second person; a worst case is read, not worked out again. */
  isChecked: boolean;
  working: Said[];
}

export interface StepRow {
  number: Said;
  sentence: Said;
  /** Things named in the sentence that need a word on what they are. */
  things: { name: string; product: Said }[];
  /** The volume to see on the scale; undefined where nothing moves. */
  figure: Said | undefined;
  /** More to the figure: how it is shared out, on which scale it is read. */
  detail: Said[];
  cautions: Said[];
  /** `check`: work stops until signed. `note`: words only, nothing to tick. `skipped`: not for this order. */
  kind: "do" | "check" | "note" | "skipped";
}

export interface BeyondUseRow {
  place: Said;
  limit: Said;
  /** Undefined where it cannot be worked out; `binds` then says why. */
  end: Said | undefined;
  /** What sets it. */
  binds: Said;
  /** When giving must be finished, where that is more than to begin in time. */
  finish?: Said | undefined;
  /** Every limit known for this container at this place, the shortest first, and what could not be brought in. */
  known: { said: Said; binds: boolean }[];
}

export interface RateTable {
  caption: Said;
  head: string[];
  rows: Said[][];
  working: Said[];
}

export interface Label {
  /** One line of the label; `rows`: elements of the published lists that it answers. */
  lines: LabelLine[];
  /** GS1 element string with brackets, and what each part means. Undefined on a preparation that is not for use. */
  barcode: { text: Said; meaning: Said[] } | undefined;
  notForUse: boolean;
  safety: string;
}

export interface LabelLine {
  kind: "name" | "strong" | "plain" | "warning" | "blank";
  label: string;
  value: Said;
  rows: readonly string[];
}

/** What is asked for. */
export interface SheetRequest {
  recipe: string;
  /** Input of the order → what was typed: `weight` → `60kg`. */
  inputs: ReadonlyMap<string, string>;
  /** Finished containers; undefined for what one run makes. */
  bags: string | undefined;
  /** `2026-11-25T09:30`. */
  at: string;
  /** Overrides the site's. */
  timeZone: string | undefined;
  /** Material or stock → lots. */
  lots: ReadonlyMap<string, readonly string[]>;
  batch: boolean;
  number: string | undefined;
  gtin: string | undefined;
  /** Overrides the one taken here; the command refuses one that is not the recipe's. */
  fingerprint: string | undefined;
  revision: string | undefined;
  /** From the record beside the recipe; left out where nobody looked. */
  approvals?: readonly SheetApproval[];
}

export interface SheetApproval {
  role: string;
  /** ISO date. */
  date: string;
  /** Of the approved meaning. */
  fingerprint: string;
}

/** Why no sheet can be made; a plain sentence and what to do. */
export interface SheetRefusal {
  refusal: string;
}

export function isSheetRefusal(value: object): value is SheetRefusal {
  return "refusal" in value;
}
