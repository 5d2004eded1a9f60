/** The weights of which a finding says that it is so, read from its own words. */
import { Fraction } from "../oracle/fraction.ts";

/** Undefined where the words name no weights: `some orders`, or more stretches than are told. */
export function saidOf(words: string): ((weight: Fraction) => boolean) | undefined {
  if (words === "every order") return () => true;
  if (words === "") return () => false;
  if (words.includes("orders") || words.includes("gaps") || words.includes("about")) return undefined;
  const stretches = words.split(" and ").map(stretch);
  return (weight) => stretches.some((isIn) => isIn(weight));
}

const weight = "([\\d,.]+) kg";
const forms: readonly (readonly [RegExp, lowIn: boolean, highIn: boolean])[] = [
  [new RegExp(`^${weight} to ${weight}$`), true, true],
  [new RegExp(`^from ${weight} to below ${weight}$`), true, false],
  [new RegExp(`^above ${weight} up to ${weight}$`), false, true],
  [new RegExp(`^above ${weight} to below ${weight}$`), false, false],
];

function stretch(words: string): (weight: Fraction) => boolean {
  const value = (text: string) => Fraction.of(text.replaceAll(",", ""));
  const one = new RegExp(`^${weight}$`).exec(words);
  if (one) return (each) => each.is(value(one[1]!));
  for (const [form, lowIn, highIn] of forms) {
    const [, from, to] = form.exec(words) ?? [];
    if (from === undefined || to === undefined) continue;
    const [low, high] = [value(from), value(to)];
    return (each) => each.against(low) >= (lowIn ? 0 : 1) && each.against(high) <= (highIn ? 0 : -1);
  }
  throw new RangeError(`which weights are ${words}`);
}
