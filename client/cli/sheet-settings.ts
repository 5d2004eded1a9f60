/** The flags of `misce sheet`, understood: what was typed becomes values, or a clear refusal. */
import { CannotRun } from "./cannot-run.ts";
import { inputsOf, type OrderFlags } from "./order-flags.ts";

/** As the argument parser hands them over. */
export interface SheetFlags extends OrderFlags {
  bags?: string;
  at?: string;
  timeZone?: string;
  lot?: string[];
  number?: string;
  gtin?: string;
  fingerprint?: string;
  revision?: string;
  recipe?: string;
  library?: string;
  inventory?: string[];
  out?: string;
  paper?: string;
  label?: boolean;
  batch?: boolean;
}

export interface SheetSettings {
  /** Order input → what was typed. */
  inputs: Map<string, string>;
  lots: Map<string, string[]>;
  form: "html" | "pdf" | "json";
  paper: "A4" | "LETTER";
}

/** @throws CannotRun for a value that cannot be meant. */
export function sheetSettings(flags: SheetFlags): SheetSettings {
  return {
    inputs: inputsOf(flags),
    lots: lotsOf(flags.lot ?? []),
    form: formOf(flags.out),
    paper: paperOf(flags.paper),
  };
}

/** Material or stock → lots. @throws CannotRun for what names no lot, or one twice. */
export function lotsOf(words: readonly string[]): Map<string, string[]> {
  const lots = new Map<string, string[]>();
  for (const word of words) {
    const at = word.indexOf("=");
    const [name, lot] = [word.slice(0, at), word.slice(at + 1)];
    if (at < 1 || lot === "") {
      throw new CannotRun(`--lot is "${word}". Write the material and its lot, such as --lot mag=KQ-2291.`);
    }
    const known = lots.get(name) ?? [];
    if (known.includes(lot)) throw new CannotRun(`--lot names lot ${lot} of ${name} twice. Leave one of them out.`);
    lots.set(name, [...known, lot]);
  }
  return lots;
}

function formOf(out: string | undefined): "html" | "pdf" | "json" {
  if (out === undefined || /\.html?$/i.test(out)) return "html";
  if (/\.pdf$/i.test(out)) return "pdf";
  if (/\.json$/i.test(out)) return "json";
  throw new CannotRun(`--out is "${out}". Let the file end in .html, .pdf or .json, which says what is written.`);
}

function paperOf(paper: string | undefined): "A4" | "LETTER" {
  const word = (paper ?? "A4").toUpperCase();
  if (word === "A4" || word === "LETTER") return word;
  throw new CannotRun(`--paper is "${paper}". It can be A4 or Letter.`);
}
