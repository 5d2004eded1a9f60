/** The fix that states what a step moves is not offered where nothing there can hold it: common practice. */
import { expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const titles = (...edits: [string, string][]) =>
  findingsOf(example(...edits))
    .filter(({ name }) => name === "claim-differs")
    .map(({ fixes }) => fixes.map((fix) => fix.title));

it("a volume that the syringe holds is offered, one that it does not hold is not", () => {
  // 4 g of 500 mg/mL is 8 mL in a syringe of 10 mL; of 100 mg/mL it would be 40 mL.
  expect(titles(["= 8 mL", "= 0.8 mL"])).toEqual([["State 8 mL"]]);
  expect(titles(["  strength   500 mg/mL", "  strength   100 mg/mL"]).flat()).toEqual([]);
});
