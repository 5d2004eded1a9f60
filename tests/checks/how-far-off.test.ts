/** How a finding says that two figures differ: plain arithmetic, in words that nobody reads as another size. */
import { expect, it } from "vitest";
import { howFarOff } from "../../language/checks/factor-between.ts";
import { Exact } from "../../language/quantities/exact.ts";

it.each([
  ["10", "100", ", 10 times as much"],
  ["1000", "1", ", a 1,000th of it"],
  ["4", "5", " (25 % too much)"],
  ["5", "4", " (20 % too little)"],
  ["1", "1030", " (1,030 times as much)"],
  // 0.25 of 600 is 99.96 % too little, which rounds to all of it.
  ["600", "0.25", " (about a 2,400th of it)"],
])("%s wanted and %s found is%s", (wanted, found, words) => {
  expect(howFarOff(Exact.of(wanted), Exact.of(found))).toBe(words);
});
