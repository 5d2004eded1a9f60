/** The way in that a title or a line of the label names, held against the order: the wrong one may kill by itself. */
import type { Recipe } from "../../model/declaration.ts";
import { wayIn } from "../limits/ways-in.ts";
import { type Contradiction, wordContradicted, words } from "./words-against-order.ts";

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
  ]
    .map((route): [RegExp, string] => [new RegExp(`\\b${route}(?:ly)?\\b`, "i"), route])
    // In capital letters and beside its use: `it` is a word, and IV a number too.
    .concat([
      [/\b(?:[Ff]or )?(?:IV|I\.V\.) (?:use|only|route|infusion|injection|bolus)\b/, "intravenous"],
      // Whatever way an order calls it by.
      [/\b(?:enteral|oral)(?:ly)?\b/i, "swallowed"],
    ]),
);

/** `For intravenous or intrathecal use`: one container goes in one way. */
const eitherWay =
  /\bfor ([a-z]+)(?: use)?(?:,? (?:or|and) | ?\/ ?)([a-z]+) (?:use|injection|infusion|administration)\b/gi;
const otherWays = /\b(?:other|any|unless|not|except)\b/i;

export function routeContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const ordered = recipe.order?.one("route")?.slots.route.name;
  if (ordered === undefined) return undefined;
  const way = wayIn(ordered) === "swallowed" ? "swallowed" : ordered;
  const said = wordContradicted(text, routes, way)?.said ?? alternativeWay(text, way) ?? fatalWay(text, way);
  return said === undefined ? undefined : { said, ordered };
}

function alternativeWay(text: string, ordered: string): string | undefined {
  for (const [said, first = "", second = ""] of text.matchAll(eitherWay)) {
    const ways = [first, second].flatMap(waysIn);
    if (ways.length > 1 && ways.some((way) => way !== ordered)) return said;
  }
  return undefined;
}

/** `Fatal if given intravenously` on what is given so. `Fatal if given by any other route` names none. */
function fatalWay(text: string, ordered: string): string | undefined {
  for (const sentence of text.split(/[.;!]/)) {
    if (!/\bfatal\b/i.test(sentence) || otherWays.test(sentence)) continue;
    const ways = waysIn(sentence);
    if (ways.length === 1 && ways[0] === ordered) return sentence.trim();
  }
  return undefined;
}

function waysIn(text: string): string[] {
  return routes.each.flatMap(([pattern, way]) => (pattern.test(text) ? [way] : []));
}
