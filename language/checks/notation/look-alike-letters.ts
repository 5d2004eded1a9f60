/**
 * Letters of other alphabets by the Latin letter they look like, a short list of the Unicode table of confusable characters
 * (UTS 39): those that stand on common keyboards.
 */
const alike = new Map<string, string>();
const pairs: readonly [foreign: string, plain: string][] = [
  ["аеорсухіјѕһԁԛԝ", "aeopcyxijshdqw"], // Cyrillic, small
  ["АВЕЗКМНОРСТУХІЈЅ", "ABE3KMHOPCTYXIJS"], // Cyrillic, large
  ["οανρυικχτε", "oavpuikxte"], // Greek, small
  ["ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABEZHIKMNOPTYX"], // Greek, large
  ["ıßøłđ", "isold"],
];
for (const [foreign, plain] of pairs) {
  const letters = [...plain];
  for (const [i, letter] of [...foreign].entries()) alike.set(letter, letters[i]!);
}

/** The text in ASCII letters, figures and hyphens: accents off, wide forms narrow, look-alikes replaced. Undefined where a character has no such form. */
export function plainLetters(text: string): string | undefined {
  const bare = text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[\u2010-\u2015\u2212]/g, "-");
  const plain = Array.from(bare, (letter) => alike.get(letter) ?? letter).join("");
  return /^[\x20-\x7E]+$/.test(plain) ? plain : undefined;
}
