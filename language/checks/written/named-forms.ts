/** Forms of a drug that a printed text names beside a figure: the ion, the salt or the base that the figure counts. */
import type { Drug } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { isSaltWord } from "./salt-words.ts";
import { namesOf, wordsOf } from "./words-against-order.ts";

/** The ion or the form that the word behind a figure names: `250 mg of theophylline`, `4.5 mmol of calcium`. */
export function counterOf(behind: readonly string[], drug: Drug, lookup: Lookup): string | undefined {
  const [word, second] = behind[0] === "elemental" ? behind.slice(1) : behind;
  if (word === undefined) return undefined;
  // `4 g of magnesium sulfate` is the drug.
  const salts = drug.substance.salts.map(({ name }) => name);
  const own = namesOf("drug", drug.name.name, lookup)
    .filter((name) => !salts.includes(name))
    .map(wordsOf);
  if (second !== undefined && own.some((name) => name.includes(word) && name.includes(second))) return undefined;
  // `20 g magnesium chloride` is another drug, and no magnesium.
  if (second !== undefined && isSaltWord(second)) return undefined;
  const ion = drug.substance.ions.find(({ name }) => name === word);
  if (ion) return ion.name;
  return drug.substance.salts.find(({ name }) => tellingWords(name, drug, lookup).includes(word))?.name;
}

/** `Noradrenaline tartrate 8 mg`: the salt that stands right before the figure, unless the text says that it counts the base. */
export function saltBefore({ before }: TextFigure, title: string, drug: Drug, lookup: Lookup): string | undefined {
  const { salts, base } = drug.substance;
  const [word, first] = salts.length === 0 ? [] : [...wordsOf(before)].reverse();
  if (word === undefined || first === undefined) return undefined;
  const salt = salts.find(
    ({ name }) => wordsOf(name).includes(first) && tellingWords(name, drug, lookup).includes(word),
  )?.name;
  // Of a drug that is counted as its salt the base is the other form, and named as that: `Caffeine base 20 mg`.
  if (salt !== undefined && word === "base") return salt;
  if (salt === undefined || /\bbase\b/i.test(title)) return undefined;
  const form = base?.replaceAll("-", " ");
  const saysBase = form !== undefined && new RegExp(`\\bas (?:the )?${form}\\b|\\b${form}\\)`, "i").test(title);
  return saysBase ? undefined : salt;
}

/** `Calcium 1 g`, `elemental calcium: 93 mg`: the ion that stands before the figure, where it is no end of a longer name of the drug. */
export function ionBefore({ before }: TextFigure, drug: Drug, lookup: Lookup): string | undefined {
  if (drug.substance.ions.length === 0) return undefined;
  const [last, first] = [...wordsOf(before)].reverse();
  const ion = drug.substance.ions.find(({ name }) => name === last)?.name;
  if (ion === undefined || first === undefined) return ion;
  const isOwn = namesOf("drug", drug.name.name, lookup).some((name) => {
    const words = wordsOf(name);
    return words.includes(first) && words.includes(ion);
  });
  return isOwn ? undefined : ion;
}

export function namesForm(said: ReadonlySet<string>, form: string, drug: Drug, lookup: Lookup): boolean {
  const telling = tellingWords(form, drug, lookup);
  return telling.length === 0 || telling.some((word) => said.has(word));
}

/** `theophylline`, or the `hydrate` of remedy-hydrate: words of the form that the drug's own name has not. */
export function tellingWords(form: string, drug: Drug, lookup: Lookup): string[] {
  const { base } = drug.substance;
  if (!namesOf("drug", drug.name.name, lookup).includes(form)) return [];
  const full = drug.facts.one("name")?.slots.text.text ?? "";
  const own = new Set([...wordsOf(drug.name.name), ...wordsOf(full), ...(base ? wordsOf(base) : [])]);
  return wordsOf(form).filter((word) => !own.has(word));
}
