/** Tests of what titles, notes and label lines of the sample library say; a line of a table each. */
import { expect, it } from "vitest";
import { sayingTold } from "./printed-on-samples.ts";

/** With what is repeated of it, or alone where it is repeated whole; with what stands against it where that is a third. */
export type Saying = string | readonly [saying: string, said: string, against?: string];

/** `title: ...`, `note: ...`, or a line of the label. */
export function areTold(recipe: string, sayings: readonly Saying[]): void {
  for (const each of sayings) {
    const [saying, said, against = ""] = typeof each === "string" ? [each, each] : each;
    it(`${recipe}: ${saying} is told once`, () => {
      const [told, ...more] = sayingTold(recipe, saying);
      expect(told).toContain(`${said}; the ${against}`);
      expect(more).toEqual([]);
    });
  }
}

export function areSilent(recipe: string, sayings: readonly string[]): void {
  it.each(sayings)(`${recipe}: %j is in order`, (saying) => expect(sayingTold(recipe, saying)).toEqual([]));
}
