/** The way in that a title or a line of the label names, held against the order: the wrong one may kill by itself. */
import type { Recipe } from "../../model/declaration.ts";
import { spaceOf } from "../limits/guarded-routes.ts";
import { wayIn } from "../limits/ways-in.ts";
import { type Contradiction, type Meant, wordContradicted, words, wordsSaid } from "./words-against-order.ts";

/** Words of routes that are said of nothing else; what is only beside a needle (`subcutaneous port`) is none. */
const named: readonly Meant[] = [
  ["intra-?venous", "intravenous"],
  ["intra-?thecal|intra-?spinal|subarachnoid", "intrathecal"],
  ["epidural|peridural|extradural", "epidural"],
  ["intra-?ventricular|intracerebroventricular", "intraventricular"],
  ["intra-?vitreal", "intravitreal"],
  ["intracameral", "intracameral"],
  ["sub-?cutaneous", "subcutaneous"],
  ["intra-?muscular", "intramuscular"],
  ["intra-?osseous", "intraosseous"],
  ["intra-?dermal", "intradermal"],
  ["intra-?arterial", "intraarterial"],
  ["intra-?articular", "intraarticular"],
  ["intra-?peritoneal", "intraperitoneal"],
  ["intra-?pleural", "intrapleural"],
  ["intra-?vesical", "irrigation"],
  ["intra-?nasal", "nose"],
].map(([words, meaning]) => [
  new RegExp(`\\b(?:${words})(?:ly)?\\b(?! (?:ports?|tissues?|reservoirs?)\\b)`, "i"),
  meaning!,
  words!,
]);

const uses = "use|USE|only|ONLY|route|infusion|injection|bolus|push|pump|PCA";
/**
 * Behind a figure, at the end of a line or alone in it, capital letters are a route; small ones only beside their use.
 * @param words of which small letters say the same
 */
const short = (letters: string, words: string, meaning: string): Meant => [
  new RegExp(
    `\\b(?:[Ff]or )?(?:[Ss]low )?(?:${letters}|${words})(?: (?:slow|SLOW))? (?:${uses})\\b` +
      `|(?<=^|[,;(] ?|\\d ?(?:m?g|mcg|m?L|mmol|mEq|units) )(?:${letters})(?=\\s*(?:$|[,;.)]| in\\b))`,
  ),
  meaning,
  `\\b(?:${letters}|${words})`,
];

/** Each of these says a route only where its use is spoken of: `it` is a word, IV a number too, and a nurse may have oral care to do. */
const spoken = (words: string, meaning: string): Meant => [
  new RegExp(
    `\\bfor (?:[a-z]+ )?(?:${words})(?: (?:use|injection|infusion|administration|instillation|irrigation))?(?: only)?\\b(?! [a-z])` +
      `|\\b(?:${words}) (?:use|route|only|administration|instillation)\\b`,
    "i",
  ),
  meaning,
  words,
];

const routes = words([
  ...named,
  short("IV", "iv|[Ii]\\.[Vv]\\.", "intravenous"),
  [
    /\b(?:into|by|through|via)(?: an?| the)? (?:(?:central|peripheral) (?:venous )?)?(?:vein|line|PICC|CVC)\b/i,
    "intravenous",
  ],
  short("IM", "im|[Ii]\\.[Mm]\\.", "intramuscular"),
  short("SC|SUBCUT|S/C", "sc|s/c|[Ss]\\.[Cc]\\.|[Ss]ubcut", "subcutaneous"),
  // `IT` and `IO` alone are words and places.
  [/\b(?:[Ff]or )?IT (?:use|only|route|injection|infusion)\b/, "intrathecal"],
  [/\b(?:[Ff]or )?IO (?:use|only|route|injection|infusion)\b/, "intraosseous"],
  spoken("spinal|lumbar", "intrathecal"),
  [/^\s*spinal\s*[.!]?\s*$/i, "intrathecal"],
  spoken("caudal", "epidural"),
  // Whatever way an order calls it by.
  [/\b(?:enteral|oral)(?:ly)?\b|\b(?:by mouth|per os|nasogastric|gastrostomy|sublingual|buccal)\b/i, "swallowed"],
  short("PO|NG|PEG", "p\\.o\\.", "swallowed"),
  [/\b[Vv]ia (?:an? |the )?(?:NG|PEG)\b/, "swallowed"],
  spoken("inhalation|nebuli[sz]ation|nebuli[sz]er", "breathed"),
  [/\bnebuli[sz](?:e|ed|er solution)\b/i, "breathed"],
  spoken("topical|cutaneous|transdermal|external", "skin"),
  [/\bnerve block\b|\bperineural\b/i, "perineural"],
  [/\b(?:for|wound) infiltration\b/i, "infiltration"],
  [
    /\bfor (?:ha?emo|peritoneal )?(?:dialysis|filtration)\b|\b(?:dialysis|ha?emofiltration) (?:fluid|solution|use)\b/i,
    "dialysis",
  ],
  spoken("rectal", "rectum"),
  spoken("nasal", "nose"),
  [/\b(?:eye|ophthalmic) drops\b/i, "eye"],
  spoken("ophthalmic|ocular", "eye"),
  [/\bear drops\b/i, "ear"],
  spoken("otic", "ear"),
  spoken("irrigation|(?:bladder|wound) (?:irrigation|instillation)", "irrigation"),
  [/\birrigation (?:solution|fluid)\b|\bbladder wash-?out\b/i, "irrigation"],
]);

/** The ordered way by the meanings above: into the eye is for the eye, wherever in it. */
function waysOfOrder(ordered: string): readonly string[] {
  const way = wayIn(ordered);
  const own = spaceOf(ordered).replaceAll("-", "");
  if (way === "instilled") return [own, "irrigation"];
  if (way !== undefined && way !== "injected") return [way];
  if (/dialysis|filtration|peritoneal/.test(own)) return [own, "dialysis"];
  return own === "intravitreal" || own === "intracameral" ? [own, "eye"] : [own];
}

/** `For intravenous or intrathecal use`: one container goes in one way. */
const eitherWay =
  /\bfor ([a-z]+)(?: use)?(?:,? (?:or|and) | ?\/ ?)([a-z]+) (?:use|injection|infusion|administration)\b/gi;
const otherWays = /\b(?:other|any|unless|not|except)\b/i;

export function routeContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const ordered = recipe.order?.one("route")?.slots.route.name;
  if (ordered === undefined) return undefined;
  const ways = waysOfOrder(ordered);
  const said =
    wordContradicted(text, routes, ordered, (way) => ways.includes(way))?.said ??
    alternativeWay(text, ways) ??
    fatalWay(text, ways) ??
    injectedInstead(text, ordered);
  return said === undefined ? undefined : { said, ordered };
}

/** Whether one word (`IV`, `intravenously`) names the ordered way. */
export function isOrderedWay(word: string, ordered: string): boolean {
  const ways = waysOfOrder(ordered);
  return waysIn(word.replace(/^I\.V\.?$/i, "IV")).some((way) => ways.includes(way));
}

/** `for injection` as the whole of how it is given; `water for injection` and `powder for injection` are names. */
const forInjection =
  /(?<!\b(?:water|waters|fluid|diluent|solution|concentrate|powder|emulsion|suspension|\d ?%(?: [mvw]\/[mvw])?) )\bfor (?:slow )?(?:injection|infusion)(?: only| use)?\b(?! (?:into|in|by|of|through|via)\b)/i;

/** `For injection` on what is swallowed, breathed in, put on the skin or left in the bladder. */
function injectedInstead(text: string, ordered: string): string | undefined {
  const way = wayIn(ordered);
  if (way === undefined || way === "injected") return undefined;
  const said = forInjection.exec(text);
  return said && !refused.test(text.slice(0, said.index)) ? said[0] : undefined;
}

/** `not for injection`. */
const refused = /\b(?:not|never|no)(?: to be used)? $/i;

function alternativeWay(text: string, ordered: readonly string[]): string | undefined {
  for (const [said, first = "", second = ""] of text.matchAll(eitherWay)) {
    const ways = [first, second].flatMap(waysIn);
    if (ways.length > 1 && ways.some((way) => !ordered.includes(way))) return said;
  }
  return undefined;
}

/** `Fatal if given intravenously` on what is given so. `Fatal if given by any other route` names none. */
function fatalWay(text: string, ordered: readonly string[]): string | undefined {
  for (const sentence of text.split(/[.;!]/)) {
    if (!/\bfatal\b/i.test(sentence) || otherWays.test(sentence)) continue;
    const ways = waysIn(sentence);
    if (ways.length === 1 && ordered.includes(ways[0]!)) return sentence.trim();
  }
  return undefined;
}

function waysIn(text: string): string[] {
  return wordsSaid(text, routes).map(({ meaning }) => meaning);
}
