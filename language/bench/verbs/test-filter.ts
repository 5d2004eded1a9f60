/** `test bubble-point of filter`. */
import { verb } from "../verb.ts";

export const testFilter = verb({
  word: "test",
  form: "bubble-point of <filter:name>",
  about: "Tests that a sterilising filter was whole, after use.",
  act(bench, slots) {
    const part = bench.setup.groups.get(slots.filter.name)?.things[0];
    if (!part) bench.group(slots.filter);
  },
  sentence: (slots) => `Test the bubble point of ${slots.filter.name}; record the pressure.`,
});
