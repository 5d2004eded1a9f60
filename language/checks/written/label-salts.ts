/**
 * Another salt of the ordered substance in a title or on a label, `Calcium chloride 1 g` where calcium gluconate is ordered, or another of
 * those that share its name.
 */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { ofAnother } from "./bare-figures.ts";
import { besides } from "./label-substances.ts";
import { kindContradicted } from "./named-kinds.ts";
import { acidWords } from "./salt-words.ts";
import { assertions, type Contradiction, fluidsOf, namesOf, wordsOf } from "./words-against-order.ts";

const salt = new RegExp(`\\b${acidWords}\\b`, "i");
const salts = new RegExp(`\\b([a-z]+)[ -](?:((?:di)?(?:sodium|potassium|calcium))[ -])?(${acidWords})\\b`, "gi");

/** One spelling for each. */
const plain = (word: string) => word.replace("sulphate", "sulfate").replace(/s$/, "");

/**
 * Silent where the library does not say which salt the drug is (it may be the very one), and where a fluid, another drug or a declared form
 * of it is called so.
 */
export function saltContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  return otherSalt(text, recipe, lookup) ?? kindContradicted(text, recipe, lookup);
}

function otherSalt(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  if (!salt.test(text)) return undefined;
  for (const sentence of assertions(text)) {
    if (besides.test(sentence.replace(/\bwith\b/gi, "")) || ofAnother.test(sentence)) continue;
    for (const { said, first, second } of saltsIn(sentence)) {
      const drugs = orderedDrugs(recipe);
      const own = [
        ...drugs.map((name) => ["drug", name] as const),
        ...fluidsOf(recipe, lookup).map((name) => ["fluid", name] as const),
      ];
      const names = own.map(([kind, name]) => ({ name, kind, words: wordsIn(kind, name, lookup) }));
      const [one, other] = [plain(first.toLowerCase()), plain(second.toLowerCase())];
      // A line may speak of the commonest fluid of all.
      if (one === "sodium" && other === "chloride") continue;
      if (names.some(({ words }) => words.includes(one) && words.includes(other))) continue;
      const meant = names.find(
        ({ kind, words }) => kind === "drug" && words.includes(one) && words.some((word) => salt.test(word)),
      );
      if (meant) return { said: said.toLowerCase(), ordered: withSalt(meant.name, lookup) };
    }
  }
  return undefined;
}

/** Of `methylprednisolone sodium succinate` the succinate of the drug, and of `in sodium phosphate` that of the metal. */
function saltsIn(sentence: string): { said: string; first: string; second: string }[] {
  return [...sentence.matchAll(salts)].flatMap(([said, first, metal, acid]) => {
    const whole = { said, first: first!, second: acid! };
    return metal === undefined ? [whole] : [whole, { said: `${metal} ${acid}`, first: metal, second: acid! }];
  });
}

/** The name of a drug that tells its salt. */
function withSalt(name: string, lookup: Lookup): string {
  return namesOf("drug", name, lookup).find((each) => salt.test(each.replaceAll("-", " "))) ?? name;
}

/** Of all its names together: the salt stands in one, the substance in another. */
function wordsIn(kind: "drug" | "fluid", name: string, lookup: Lookup): string[] {
  return namesOf(kind, name, lookup).flatMap(wordsOf).map(plain);
}
