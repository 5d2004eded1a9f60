/** Names that stand next to an amount in running text: `Epinephrine 8 mg`, `250 mg + sufentanil 500 mcg`, `contains 8 mg of epinephrine`. */
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { drugAmounts } from "./drug-rates.ts";
import { figuresIn } from "./figures-in-text.ts";

export interface NamedAmount {
  /** The figure as it stands there. */
  written: string;
  /** All that stands between the figure and the one before it, or the part of the sentence that it is in. */
  portion: string;
  /** What stands behind it, up to the next mark or figure. */
  behind: string;
  /** What stands in front of the bracket that the figure is in. */
  outside: string | undefined;
}

const percent = /(?<![\w.,])\d+(?:\.\d+)? ?%(?: w\/v)?/g;
/** What ends the words of one figure and begins those of the next. */
const boundary = /[,;:+=]|\.(?=\s|$)|\s[-–—]\s|\b(?:and|plus|with|in|of|from|for|contains?|containing|each|to|per)\b/gi;
/** `Epinephrine: 8 mg`, `Epinephrine = 8 mg`. */
const atTheFigure = /[\s:=,–-]+$/;
/** `250 mg`, `0.9 %`, `1,000 units/mL`: nothing before it is said of the next figure. */
const anotherFigure = /\d[\d.,]*\s*(?:%|(?:million |thousand )?[A-Za-z]+(?:\/[A-Za-z0-9]+)*)/g;

export const namedAmounts = remembered((sentence: string): readonly NamedAmount[] => {
  const amounts = figuresIn(sentence)
    .filter(({ quantity }) => drugAmounts.has(quantity.unit.dimension.key.split("/")[0]!))
    .map(({ written, before, after }) => ({ written, before, after }));
  for (const match of sentence.matchAll(percent)) {
    const end = match.index + match[0].length;
    amounts.push({ written: match[0], before: sentence.slice(0, match.index), after: sentence.slice(end) });
  }
  return amounts.map(({ written, before, after }) => {
    const open = /\(([^()]*)$/.exec(before);
    const inside = (open?.[1] ?? before).replace(atTheFigure, "");
    return {
      written,
      portion: behindLast(boundary, behindLast(anotherFigure, inside)),
      behind: /^ (?:of )?((?:[a-z]+ ?){1,3})(?![a-z\d])/i.exec(after)?.[1] ?? "",
      outside: open ? before.slice(0, open.index) : undefined,
    };
  });
}, mostSentences);

function behindLast(pattern: RegExp, text: string): string {
  let end = 0;
  for (const match of text.matchAll(pattern)) end = match.index + match[0].length;
  return text.slice(end);
}
