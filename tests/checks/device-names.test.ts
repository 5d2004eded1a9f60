/** A device named without its size is answered with the one that there is; of many sizes none is guessed. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

test.each([
  ["filter       filter-needle-5um", "filter       filter-needle", "Did you mean `filter-needle-5um`?"],
  ["filter       filter-needle-5um", "filter       filter-straw", "Did you mean `filter-straw-5um`?"],
  ["syringe      syringe-10mL", "syringe      syringe", undefined],
])("%s: `%s`", (right, wrong, meant) => {
  const told = findingsOf(example([right, wrong])).filter((f) => f.name === "unknown-name");
  expect(told).toHaveLength(1);
  if (meant === undefined) expect(told[0]!.message).not.toContain("Did you mean");
  else expect(told[0]!.message).toContain(meant);
});
