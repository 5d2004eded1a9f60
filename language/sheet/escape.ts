/** Text into HTML. Everything that a sheet prints goes through here; names and titles may hold anything. */
import type { Said } from "./said.ts";

const signs: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

/** Control characters and signs that turn the writing direction would change what a reader sees; they are left out. */
const unseen = /(?![\t\n])[\p{Cc}\p{Bidi_Control}\ufeff]/gu;

/** A figure and its unit stay on one line: `100` above `mL` has been read as two figures. */
const beforeUnit = /(\d) (?=[%A-Za-zµ°])/g;

export function plain(text: string): string {
  return text.replace(unseen, "").replace(beforeUnit, "$1\u00a0");
}

export function escaped(text: string): string {
  return plain(text).replace(/[&<>"']/g, (sign) => signs[sign]!);
}

export function say(said: Said): string {
  return escaped(said.text);
}
