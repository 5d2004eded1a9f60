/**
 * One text for words, units and figures that stand in hundreds of places: a library says `bag` and `mL` ten thousand times, and each
 * would else be a text of its own. Longer words and later ones are left as they are.
 */
const longest = 20;
const most = 4096;
const texts = new Map<string, string>();

export function shared(text: string): string {
  if (text.length > longest) return text;
  const known = texts.get(text);
  if (known !== undefined) return known;
  if (texts.size < most) texts.set(text, text);
  return text;
}
