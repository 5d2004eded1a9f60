/** What the language writes for a word of worksheets and monographs that it does not know itself: `bud`, `bsa`, `wipe`, `lockout`. */
import { meantVerb } from "../checks/meant-verbs.ts";
import { factRows, meantFactIn } from "../checks/structure/meant-facts.ts";

export interface TradeWord {
  /** The block where it would stand. */
  inside: string;
  /** A sentence or more that says what to write there. */
  text: string;
}

/** One for each block that has a row for it, in the order of the blocks; none where nobody wrote one. */
export function tradeWord(word: string): readonly TradeWord[] {
  const plain = word.toLowerCase();
  const blocks = [...new Set(factRows.filter(([, known]) => known === plain).map(([block]) => block))];
  const facts = blocks.map((inside) => ({ inside, text: meantFactIn(inside, plain)!.text }));
  const verb = meantVerb(plain, undefined);
  return verb ? [...facts, { inside: "steps", text: verb.text }] : facts;
}
