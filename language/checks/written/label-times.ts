/** How long a preparation is given, as a line of the label says it: `over 4 h`, `run for 4 h`, `4-hour infusion`, `4 g, 100 mL, 4 h`. */
import type { Recipe } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { figuresIn } from "./figures-in-text.ts";
import { assertions, type Contradiction } from "./words-against-order.ts";

/** A figure and its unit, each a group; `2 h to 6 h` is no time of giving (label-limits.ts). */
export const timeInText = "(\\d+(?:\\.\\d+)?)[ -]?(h|hours?|hrs?|min|minutes?)\\b";
const time = `${timeInText}(?!\\s*(?:(?:to|or|-|–)\\s*\\d|or (?:more|longer)\\b|minimum\\b))`;
const given = "give|given|run|runs|infuse|infused|infusion|administer|administered";
const spoken = [
  `\\bover:? ${time}`,
  `\\b(?:${given}) (?:for|in|within) ${time}(?! (?:of|after|from) )`,
  `\\b(?:duration|infusion time|infusion period|run time):? (?:of )?${time}`,
  `(?<![\\w.,-])${time}[ -](?:long )?infusion\\b`,
].map((pattern) => new RegExp(pattern, "gi"));

/** Behind an amount and a volume in one list a time is how long it runs; `500 mg, 6 h` may be how often. */
const listed = new RegExp(`(?:,|;| [/·|]| in) ?${time}(?=\\s*(?:$|[,;]| [/·|]))`, "gi");

interface SaidTime {
  /** As a message repeats it. */
  said: string;
  quantity: Quantity;
}

export const timesIn = remembered((sentence: string): readonly SaidTime[] => {
  const found = spoken.flatMap((pattern) => [...sentence.matchAll(pattern)]);
  const list = [...sentence.matchAll(listed)].filter(({ index }) => isAmountInVolume(sentence.slice(0, index)));
  return [...found, ...list].flatMap((match) => {
    const [whole, number = "", word = ""] = match;
    const unit = findUnit(word.toLowerCase()).unit;
    return unit?.dimension.key === "time"
      ? [{ said: whole.replace(/^(?:[,;/·| ]+|in )+/, ""), quantity: { value: Exact.of(number), unit } }]
      : [];
  });
}, mostSentences);

function isAmountInVolume(text: string): boolean {
  const figures = figuresIn(text);
  return figures.length > 1 && figures.some(({ quantity }) => quantity.unit.dimension.key === "volume");
}

export function timeContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const stated = recipe.order?.all("infuse-over") ?? [];
  if (stated.length === 0) return undefined;
  const known = stated.flatMap(({ slots }) => (slots.time.quantity ? [slots.time] : []));
  const isOrdered = ({ value, unit }: Quantity) =>
    known.some(
      ({ quantity }) =>
        quantity!.unit.dimension !== unit.dimension || inBase(quantity!).equals(inBase({ value, unit })),
    );
  if (known.length === 0) return undefined;
  const other = assertions(text)
    .flatMap(timesIn)
    .find(({ quantity }) => !isOrdered(quantity));
  return other && { said: other.said, ordered: `infuse-over ${known.map((t) => t.written).join(" and ")}` };
}
