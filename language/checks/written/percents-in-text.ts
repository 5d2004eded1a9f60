/** Percentages in running text, each with the words that name what it is of: `glucose 5 %`, `5 % glucose`. */
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { wordsOf } from "./words-against-order.ts";

export interface Percent {
  /** `5 %`, with `w/v` or `v/v` where that stands behind it. */
  written: string;
  percent: string;
  /** One or two words next to it, in the order of the text. */
  words: readonly string[];
  /** The figure stands before its name. */
  isFirst: boolean;
  /** `in glucose 5 %`: what something is in, and not what is spoken of beside it. */
  isIn: boolean;
}

/** So far back or ahead a name of two words and a figure may begin or end. */
const reach = 60;

const figure = /(\d+(?:\.\d+)?) ?$/;
const nameBefore = /(?:([A-Za-z]+) )?([A-Za-z]+) $/;
const nameBehind = /^(?: [wv]\/v)? (?:of )?([A-Za-z]+)(?: ([A-Za-z]+))?/;
/** Behind another name the figure would be that one's: `sodium chloride 0.9 % glucose`. */
const opening = /(?:^|\b(in|with|of|and|plus|to|ml|l|g|mg) |[,;:(]\s*)$/i;

/** `in glucose 5 %`, `in 100 mL of glucose 5 %`, `diluent: glucose 5 %`. */
const isInIt =
  /\b(?:contains? |containing |in (?:(?:a )?(?:bag of )?\d+(?:\.\d+)? ?(?:mL|L) (?:of )?)?|(?:diluent|fluid|vehicle|base solution): ?)(?:[A-Za-z]+ ){1,2}$/i;

/** ` w/v` or ` v/v` behind the sign, or nothing. */
function kindIn(behind: string): string {
  return /^ ?[wv]\/v\b/.exec(behind)?.[0] ?? "";
}

const fillers: ReadonlySet<string> = new Set(["in", "with", "of", "from", "and", "plus", "to", "w", "v"]);

export const percentsIn = remembered((text: string): readonly Percent[] => {
  const found: Percent[] = [];
  for (let at = text.indexOf("%"); at >= 0; at = text.indexOf("%", at + 1)) {
    const before = text.slice(Math.max(0, at - reach), at);
    const [digits, percent] = figure.exec(before) ?? [];
    if (digits === undefined || percent === undefined) continue;
    const start = before.slice(0, before.length - digits.length);
    const behind = text.slice(at + 1, at + 1 + reach);
    const written = `${digits}%${kindIn(behind)}`;
    const put = (names: readonly (string | undefined)[], isFirst: boolean, isIn: boolean) => {
      const words = names.flatMap((name) => wordsOf(name ?? "")).filter((word) => !fillers.has(word));
      if (words.length > 0) found.push({ written, percent, words, isFirst, isIn });
    };
    const [, one, two] = nameBefore.exec(start) ?? [];
    put([one, two], false, isInIt.test(start));
    const open = opening.exec(start);
    const [, first, second] = open ? (nameBehind.exec(behind) ?? []) : [];
    put([first, second], true, open?.[1]?.toLowerCase() === "in");
  }
  return found;
}, mostSentences);

/** A percentage beside which no name stands: `Calcium gluconate 3 g in 100 mL (3 % w/v)`. */
export interface NamelessPercent {
  written: string;
  percent: string;
  /** All that stands before the figure. */
  before: string;
}

export const namelessPercentsIn = remembered((text: string): readonly NamelessPercent[] => {
  const found: NamelessPercent[] = [];
  for (let at = text.indexOf("%"); at >= 0; at = text.indexOf("%", at + 1)) {
    const [digits, percent] = figure.exec(text.slice(Math.max(0, at - reach), at)) ?? [];
    if (digits === undefined || percent === undefined) continue;
    const before = text.slice(0, at - digits.length);
    const behind = text.slice(at + 1, at + 1 + reach);
    if (/[A-Za-z] $/.test(before) || nameBehind.test(behind.replace(/^ [wv]\/v/, ""))) continue;
    found.push({ written: `${digits}%${kindIn(behind)}`, percent, before });
  }
  return found;
}, mostSentences);
