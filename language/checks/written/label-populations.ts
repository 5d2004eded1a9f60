/** For whom a title or a line of the label says that it is made, in words: adult, child, newborn; laid against the order and its patient. */
import { inputRanges } from "../../bench/order.ts";
import type { Recipe } from "../../model/declaration.ts";
import { patientBounds } from "../limits/patient-bounds.ts";
import { isWithin } from "../written-bounds.ts";
import { assertions, type Contradiction, wordContradicted, words, wordsSaid } from "./words-against-order.ts";

const patients = words([
  [/\badults?\b/i, "adult"],
  [/\b(?:child|children|paediatrics?|pediatrics?|toddlers?)\b|\bPICU\b/i, "child"],
  [/\b(?:neonates?|neonatal|newborns?|preterm|premature)\b|\bNICU\b/i, "neonate"],
  // A newborn is one, and a child of ten months too.
  [/(?<!\b(?:preterm|premature|newborn) )\b(?:infants?|bab(?:y|ies))\b/i, "infant"],
]);

/** `Keep out of the reach of children` speaks of no patient. */
const keptFrom = /\b(?:(?:reach|sight)(?: and (?:reach|sight))? of|away from) (?:small )?children\b/gi;

export function patientContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const said = text.replace(keptFrom, " ");
  const ordered = recipe.order?.one("population")?.slots.who.choice;
  if (ordered === undefined) return bodyContradicted(said, recipe);
  const isOrdered = (who: string) => who === ordered || (who === "infant" && ordered !== "adult");
  return wordContradicted(said, patients, ordered, isOrdered);
}

/** `Neonatal` on an order for 40 kg to 120 kg, where the order itself does not say for whom it is. */
function bodyContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const ranges = inputRanges(recipe);
  if (ranges.length === 0) return undefined;
  const said = assertions(text).flatMap((sentence) => wordsSaid(sentence, patients));
  let other: Contradiction | undefined;
  for (const { said: word, meaning } of said) {
    const populations = meaning === "infant" ? ["neonate", "child"] : [meaning];
    const outside = ranges.find(({ input, range }) =>
      populations.every((population) => {
        const bounds = patientBounds(input, population);
        return (
          bounds !== undefined &&
          [range.from, range.to].every(({ quantity }) => quantity && isWithin(quantity, bounds) === false)
        );
      }),
    );
    if (!outside) return undefined;
    const { from, to } = outside.range;
    const figure = from.written === to.written ? from.written : `${from.written} to ${to.written}`;
    other ??= { said: word, ordered: `${outside.input.replace("-", " ")} ${figure}` };
  }
  return other;
}

/** The patients that a word names; an infant may be a newborn or a child. */
export function populationsIn(word: string): string[] {
  return wordsSaid(word, patients).flatMap(({ meaning }) => (meaning === "infant" ? ["neonate", "child"] : [meaning]));
}
