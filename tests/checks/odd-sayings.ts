/** Tables of titles or label lines of the sample library: those that are told, with what is said of them, and those that are in order. */
import { describe, expect, it } from "vitest";
import { sayingTold } from "./printed-on-samples.ts";

const names = ["title-without-drug", "drug-name-not-known", "title-contradicts-order", "label-text-contradicts-order"];

export type Odd = readonly [
  recipe: string,
  told: readonly (readonly [saying: string, said: string])[],
  inOrder: readonly string[],
];

/** @param where `title: `, or nothing for a line of the label */
export function areJudged(where: string, table: readonly Odd[]): void {
  for (const [recipe, wrong, right] of table) {
    describe(recipe, () => {
      const told = (saying: string) => sayingTold(recipe, `${where}${saying}`, (name) => names.includes(name));
      for (const [saying, said] of wrong)
        it(`${saying} is told`, () => {
          expect(told(saying)[0]).toContain(said);
        });
      for (const saying of right)
        it(`${saying} is in order`, () => {
          expect(told(saying)).toEqual([]);
        });
    });
  }
}
