/** `test bubble-point of filter`. */
import { isFilter } from "../things.ts";
import { verb } from "../verb.ts";

export const testFilter = verb({
  word: "test",
  form: "bubble-point of <filter:name>",
  about: "Tests that a sterilising filter was whole, after use.",
  act(bench, slots) {
    const things = bench.things([slots.filter]);
    const other = things.find((thing) => thing.is !== "part" || !isFilter(thing));
    if (other) {
      bench.note("wrong-kind-of-thing", slots.filter, { thing: other, needed: "a filter" });
      return;
    }
    for (const filter of things)
      if (filter.is === "part" && !filter.passed) bench.note("filter-tested-before-use", slots.filter, { filter });
  },
  sentence: (slots) => `Test the bubble point of ${slots.filter.name}; record the pressure.`,
});
