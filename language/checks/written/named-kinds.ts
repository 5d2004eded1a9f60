/**
 * Names that many medicines share, with a word behind them that tells which: `Factor IX` for factor VIII, `Iron dextran` for iron sucrose. The
 * shared word alone is the ordered drug's, so that the name passes for it. Common knowledge of the trade, from memory.
 */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { ofAnother } from "./bare-figures.ts";
import { besides } from "./label-substances.ts";
import { assertions, type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

const irons = "carboxymaltose derisomaltose dextran gluconate polymaltose sucrose";

/** What stands behind the shared word. */
const kinds: Readonly<Record<string, ReadonlySet<string>>> = Object.fromEntries(
  Object.entries({
    calcium: "chloride edetate folinate gluconate glubionate lactate levofolinate",
    factor: "i ii iia iii iv v va vii viia viii viiia ix ixa x xa xi xia xii xiii xiiia",
    ferric: irons,
    hepatitis: "a b",
    interferon: "alfa beta gamma",
    iron: irons,
    protein: "c s",
    vitamin: "a b b1 b2 b6 b12 c d e k",
  }).map(([name, words]) => [name, new Set(words.split(" "))]),
);

/** Other names of the same. */
const others: Readonly<Record<string, string>> = {
  alpha: "alfa",
  d2: "d",
  d3: "d",
  isomaltoside: "derisomaltose",
  k1: "k",
  saccharate: "sucrose",
};
const plain = (word: string) => (Object.hasOwn(others, word) ? others[word]! : word);

const named = new RegExp(`\\b(${Object.keys(kinds).join("|")})[ -]([a-z]+\\d*)\\b`, "gi");
const any = new RegExp(`\\b(?:${Object.keys(kinds).join("|")})\\b`, "i");

interface Pair {
  said: string;
  name: string;
  kind: string;
}

/** Silent where the names of the ordered drug do not tell its own kind, and where the text says that too. */
export function kindContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  if (!any.test(text)) return undefined;
  const drugs = orderedDrugs(recipe).map((drug) => ({
    drug,
    words: new Set(namesOf("drug", drug, lookup).flatMap(wordsOf).map(plain)),
  }));
  const pairs = assertions(text)
    .filter((sentence) => !besides.test(sentence.replace(/\bwith\b/gi, "")) && !ofAnother.test(sentence))
    .flatMap(pairsIn);
  for (const { drug, words } of drugs) {
    const ofName = pairs.filter(({ name }) => words.has(name) && [...kinds[name]!].some((kind) => words.has(kind)));
    if (ofName.some(({ kind }) => words.has(kind))) continue;
    const other = ofName.find(({ name, kind }) =>
      drugs.every((each) => !(each.words.has(name) && each.words.has(kind))),
    );
    if (other) return { said: other.said, ordered: drug };
  }
  return undefined;
}

function pairsIn(sentence: string): Pair[] {
  return [...sentence.matchAll(named)]
    .map(([said, name, kind]) => ({ said, name: name!.toLowerCase(), kind: plain(kind!.toLowerCase()) }))
    .filter(({ name, kind }) => kinds[name]!.has(kind));
}
