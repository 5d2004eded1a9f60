/** Words that end the names of many salts, so that they tell no drug by themselves. */

/** Of acids; `sulphate` is met in print too. A metal may stand before them or be the drug. */
const acids = [
  "acetate",
  "bromide",
  "chloride",
  "citrate",
  "fumarate",
  "gluconate",
  "glycerophosphate",
  "hydrochloride",
  "lactate",
  "maleate",
  "mesilate",
  "nitrate",
  "phosphate",
  "succinate",
  "sulfate",
  "sulphate",
  "tartrate",
];

export const acidWords = `(?:${acids.join("|")})s?`;

const words: ReadonlySet<string> = new Set([...acids, "sodium", "soluble", "injection"]);

export function isSaltWord(word: string): boolean {
  return words.has(word);
}
