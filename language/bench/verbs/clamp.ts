/** `clamp set`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

/** What is a line, has one of its own, or hangs on one. */
const hasLine: ReadonlySet<string> = new Set([
  "tubing",
  "infusor",
  "cassette",
  "bag",
  "empty-bag",
  "bottle",
  "empty-bottle",
]);

export const clamp = verb({
  word: "clamp",
  form: "<things:names>",
  about: "Closes the clamp of a line.",
  act(bench, slots) {
    for (const name of slots.things) {
      const other = bench.things([name]).find((thing) => !hasLine.has(thing.kind));
      if (other) bench.note("wrong-kind-of-thing", name, { thing: other, needed: "a line, or a container with one" });
    }
  },
  sentence: (slots) => `Clamp ${spoken(slots.things)}.`,
});
