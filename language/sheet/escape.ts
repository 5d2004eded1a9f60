/** Text into HTML. Everything that a sheet prints goes through here; names and titles may hold anything. */
import type { Said } from "./said.ts";

const signs: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

/** Control characters and signs that turn the writing direction would change what a reader sees; they are left out. */
const unseen = /(?![\t\n])[\p{Cc}\p{Bidi_Control}\ufeff]/gu;

/** A figure and its unit stay on one line: `100` above `mL` has been read as two figures. */
const beforeUnit = /(\d) (?=[%A-Za-zµ°])/g;
/** `% w/v` is one unit. */
const percentOf = /% (?=[wv]\/[wv]\b)/g;

export function plain(text: string): string {
  return text.replace(unseen, "").replace(beforeUnit, "$1\u00a0").replace(percentOf, "%\u00a0");
}

/** A date, a lot such as `KQ-4692`, or a unit with its figure; a blank is not the only place at which a line may be broken: so may it behind `/` and `-`. */
const oneWord =
  /\d{4}-\d{2}-\d{2}|(?<![\w-])[A-Z]{1,6}-\d[A-Z\d-]{0,20}(?![\w-])|(?:\d[\d.,]*\u00a0)?(?:%\u00a0)?[A-Za-zµ°%][A-Za-zµ°\d%]{0,14}(?:\/[A-Za-z][A-Za-z\d]{0,9})+/g;

/** A text in pieces; those that stand on one line are told from the rest. Together they are `plain(text)`. */
export function pieces(text: string): { text: string; isOneWord: boolean }[] {
  const whole = plain(text);
  const found: { text: string; isOneWord: boolean }[] = [];
  let last = 0;
  for (const match of whole.matchAll(oneWord)) {
    if (match.index > last) found.push({ text: whole.slice(last, match.index), isOneWord: false });
    found.push({ text: match[0], isOneWord: true });
    last = match.index + match[0].length;
  }
  if (last < whole.length || found.length === 0) found.push({ text: whole.slice(last), isOneWord: false });
  return found;
}

/** For an attribute or a title; where a line may be broken, `say` keeps units whole as well. */
export function escaped(text: string): string {
  return plain(text).replace(/[&<>"']/g, (sign) => signs[sign]!);
}

export function say(said: Said): string {
  return pieces(said.text)
    .map(({ text, isOneWord }) => (isOneWord ? `<bdi class="unit">${escaped(text)}</bdi>` : escaped(text)))
    .join("");
}
