/** How many containers a printed text says that are made, laid against the order: `batch of 10 syringes`, `two syringes of 75 mg`. */
import type { Recipe } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { assertions, type Contradiction } from "./words-against-order.ts";

const numbers = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
const container = "(?:syringes?|bags?|bottles?|infusors?|pumps?|cassettes?)";
const count = new RegExp(
  `\\b(?:batch of (\\w+)|(\\w+) (?:x )?(?:identical |prefilled |filled )?${container})\\b`,
  "gi",
);

/** Silent where the order makes one container: a line may then count what it goes with. */
export function batchContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const makes = recipe.order?.one("makes")?.slots;
  const made = makes?.count.value;
  if (!makes || !made) return undefined;
  for (const sentence of assertions(text)) {
    for (const [said, batch, each] of sentence.matchAll(count)) {
      const number = numberOf(batch ?? each ?? "");
      // `1 syringe` is the one that the label sticks to.
      if (!number || number.equals(made) || (batch === undefined && number.equals(Exact.one))) continue;
      return { said: said.toLowerCase(), ordered: `makes ${made.toText()} x ${makes.what.name}` };
    }
  }
  return undefined;
}

function numberOf(word: string): Exact | undefined {
  if (/^\d+$/.test(word)) return Exact.of(word);
  const at = numbers.indexOf(word.toLowerCase());
  return at < 0 ? undefined : Exact.of(String(at + 1));
}
