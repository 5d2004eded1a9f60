/** Characters that a reader cannot see, or that turn the order of what is seen. Kept in one place for the lexer's faults and the check. */

/** Zero-width marks, soft hyphen, controls, separators that are no newline, private tags. */
const unseen =
  "\\u0000-\\u0008\\u000B\\u000C\\u000E-\\u001F\\u007F-\\u009F\\u00AD\\u180E\\u200B-\\u200D\\u2028\\u2029\\u2060-\\u2064\\uFEFF\\u{E0000}-\\u{E007F}";
/** Marks, embeddings, overrides and isolates of the direction of writing. */
const turning = "\\u061C\\u200E\\u200F\\u202A-\\u202E\\u2066-\\u2069";
/** What is left where a file was read in another encoding than it was written in: halves of pairs, and the sign that stands for a lost character. */
const lost = "\\uFFFD\\p{Cs}";

const any = new RegExp(`[${unseen}${turning}${lost}]`, "u");
/** A run of them, for walking a text. */
const runs = new RegExp(`[${unseen}${turning}${lost}]+`, "gu");
const turns = new RegExp(`[${turning}]`, "u");
const isLost = new RegExp(`[${lost}]`, "u");
/** Next line, vertical tab, form feed, line and paragraph separator: something stood apart there. */
const wordParting = "\u0085\v\f\u2028\u2029";

export interface Unseen {
  start: number;
  end: number;
  kind: "turns" | "lost" | "hidden";
  /** As `U+202E`, each once, at most three. */
  codes: string;
  /** What to put there: nothing, or a blank where it parted words. Undefined where something was lost. */
  instead: string | undefined;
}

export function hidesSomething(text: string): boolean {
  return any.test(text);
}

/** In order. Joiners between letters or emoji beyond ASCII belong to those and are left alone; so is a byte order mark in front of a line. */
export function unseenIn(text: string): Unseen[] {
  if (!any.test(text)) return [];
  return [...text.matchAll(runs)].flatMap((match) => {
    const [run] = match;
    const start = match.index;
    const end = start + run.length;
    const before = text.charCodeAt(start - 1);
    const after = text.charCodeAt(end);
    if (/^\uFEFF+$/.test(run) && (start === 0 || /[\s\uFEFF]/.test(text[start - 1]!))) return [];
    if (/^[\u200C\u200D]$/.test(run) && before > 127 && after > 127) return [];
    const kind = turns.test(run) ? "turns" : isLost.test(run) ? "lost" : "hidden";
    const codes = [...new Set(Array.from(run, code))].slice(0, 3).join(", ");
    return [
      {
        start,
        end,
        kind,
        codes,
        instead: kind === "lost" ? undefined : Array.from(run).some((c) => wordParting.includes(c)) ? " " : "",
      } as const,
    ];
  });
}

function code(character: string): string {
  return `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
}
