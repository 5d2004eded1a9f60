/** The way in that a title or a line of the label names, held against the order: the wrong one may kill by itself. */
import type { Recipe } from "../../model/declaration.ts";
import { wayIn } from "../limits/ways-in.ts";
import { type Contradiction, wordContradicted, words } from "./words-against-order.ts";

/** Two words for much the same way. */
const swallowed = ["enteral", "oral"];

const routes = words(
  [
    "intravenous",
    "intrathecal",
    "epidural",
    "intraventricular",
    "intravitreal",
    "intracameral",
    "subcutaneous",
    "intramuscular",
    "intraosseous",
    "intradermal",
    ...swallowed,
  ]
    .map((route): [RegExp, string] => [new RegExp(`\\b${route}(?:ly)?\\b`, "i"), route])
    // In capital letters and beside its use: `it` is a word, and IV a number too.
    .concat([[/\b(?:[Ff]or )?(?:IV|I\.V\.) (?:use|only|route|infusion|injection|bolus)\b/, "intravenous"]]),
);

/** `For intravenous or intrathecal use`: one container goes in one way. */
const eitherWay =
  /\bfor ([a-z]+)(?: use)?(?:,? (?:or|and) | ?\/ ?)([a-z]+) (?:use|injection|infusion|administration)\b/gi;
const otherWays = /\b(?:other|any|unless|not|except)\b/i;

export function routeContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const ordered = recipe.order?.one("route")?.slots.route.name;
  if (ordered === undefined) return undefined;
  const isSwallowed = wayIn(ordered) === "swallowed";
  const told = wordContradicted(text, routes, isSwallowed ? swallowed.find((word) => text.includes(word)) : ordered);
  return told ?? alternativeWay(text, ordered) ?? fatalWay(text, ordered);
}

function alternativeWay(text: string, ordered: string): Contradiction | undefined {
  for (const [said, first = "", second = ""] of text.matchAll(eitherWay)) {
    const ways = [first, second].flatMap(waysIn);
    if (ways.length > 1 && ways.some((way) => way !== ordered)) return { said, ordered };
  }
  return undefined;
}

/** `Fatal if given intravenously` on what is given so. `Fatal if given by any other route` names none. */
function fatalWay(text: string, ordered: string): Contradiction | undefined {
  for (const sentence of text.split(/[.;!]/)) {
    if (!/\bfatal\b/i.test(sentence) || otherWays.test(sentence)) continue;
    const ways = waysIn(sentence);
    if (ways.length === 1 && ways[0] === ordered) return { said: sentence.trim(), ordered };
  }
  return undefined;
}

function waysIn(text: string): string[] {
  return routes.each.flatMap(([pattern, way]) => (pattern.test(text) ? [way] : []));
}
