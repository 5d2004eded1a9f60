/**
 * The standard example with what its parts weigh: 100 mL of saline at 1.005 g/mL and 8 mL of magnesium sulfate at 1.4375 g/mL are
 * 100.5 g and 11.5 g, in a bag of 9 g: 121 g. Figures invented.
 */
import { example } from "../example.ts";

type Change = [from: string, to: string];

export function filledBag(claim: string, ...changes: Change[]): string {
  let text = example(
    ["  strength   500 mg/mL\n", '  strength   500 mg/mL\n  density    1.4375 g/mL  source guide "magnesium"\n'],
    ["  osmolarity  308 mOsm/L\n", "  osmolarity  308 mOsm/L\n  density     1.005 g/mL\n"],
    ["  made-of    polyolefin\n", '  made-of    polyolefin\n  empty-weight  9 g\n  source     guide "bags"\n'],
    ["    appearance ", `${claim}    appearance `],
  );
  for (const [from, to] of changes) {
    if (text.split(from).length !== 2) throw new Error(`an example must change just one place: ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}
