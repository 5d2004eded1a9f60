/** What a printed line claims of how it was made: undiluted, or free of preservative; laid against the order and the products. */
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { preservativeOf, productsGiven } from "../limits/preserved.ts";
import { assertions, type Contradiction, sentencesIn, undilutedBy } from "./words-against-order.ts";

/** What goes in undiluted, and what is undiluted in the vial, is another. */
const another = /\b(?:vials?|ampoules?|concentrate|stock|drug|product|from|or)\b/i;

/** It is done, and nobody is told to do it. */
const diluted = /\b(?:diluted (?:in|with|to)|made up (?:in|with))\b/i;
const later = /\b(?:must|should|may|can|could|to be|before|if|when|further|until|reconstitut\w*)\b/i;

/** `Undiluted` on what is ordered in a diluent, and `diluted in glucose 5 %` on what is ordered undiluted. */
export function dilutionContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  const { order } = recipe;
  const diluents = (order?.all("diluent") ?? []).map(({ slots }) => slots.fluid.name);
  if (diluents.length === 0) return dilutedContradicted(text, recipe, lookup);
  if (order?.one("method")?.slots.method.choice === "undiluted") return undefined;
  const said = assertions(text).find((sentence) => /\bundiluted\b/i.test(sentence) && !another.test(sentence));
  return said === undefined ? undefined : { said: "undiluted", ordered: `diluent ${diluents.join(" and ")}` };
}

function dilutedContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  const ordered = diluted.test(text) ? undilutedBy(recipe, lookup) : undefined;
  if (ordered === undefined) return undefined;
  for (const sentence of assertions(text)) {
    const [said] = diluted.exec(sentence) ?? [];
    if (said !== undefined && !later.test(sentence) && !another.test(sentence)) return { said, ordered };
  }
  return undefined;
}

const free = /\bpreservative[- ]free\b|\b(?:no|without|free (?:of|from)) preservatives?\b/i;

/** `Preservative-free` on what a preserved product went into: it is by this line that it is let into the spine. */
export function preservativeContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const [run] = runs;
  const sentence = sentencesIn(text).find((each) => free.test(each) && !/\b(?:not|only|must|use)\b/i.test(each));
  if (!run || sentence === undefined) return undefined;
  for (const { stock } of productsGiven(recipe, run, lookup)) {
    const preservative = preservativeOf(stock);
    if (preservative !== undefined && preservative !== "none")
      return {
        said: free.exec(sentence)![0],
        ordered: `preservative ${preservative}`,
        whole: `product ${stock.name.name}`,
      };
  }
  return undefined;
}
