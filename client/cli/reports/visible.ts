/**
 * Text made safe to show. What would move the cursor or turn the writing direction is replaced by a visible sign: a file may hold
 * anything, and what is shown must be what is there.
 */

// Marks and overrides of direction (Unicode annex 9) and other signs without a shape of their own.
const shapeless = /[\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/u;
export const emoji = /\p{Emoji_Presentation}|\p{Emoji}\ufe0f|\p{Regional_Indicator}{2}/u;
/** Printable ASCII: nothing to look after. */
export const plain = /^[\x20-\x7e]*$/;

/**
 * Text with control characters, overrides of direction and halves of surrogate pairs written out as U+…; all else is kept.
 * A joiner between emoji stays, as it has no effect beyond its own character.
 */
export function visible(text: string): string {
  if (plain.test(text)) return text;
  let result = "";
  for (const c of text) {
    const code = c.codePointAt(0)!;
    const isJoiner = code === 0x200d && text.length > 1 && emoji.test(text);
    const isHidden =
      code < 0x20 || (code >= 0x7f && code < 0xa0) || (code >= 0xd800 && code < 0xe000) || shapeless.test(c);
    result += isHidden && !isJoiner ? `<U+${code.toString(16).toUpperCase().padStart(4, "0")}>` : c;
  }
  return result;
}
