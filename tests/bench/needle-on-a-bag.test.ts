/** A needle is put on a syringe; a stopper may take one to let air in, a bag or an ampoule takes none (common practice). */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "../checks/findings-of.ts";

const told = (on: string) =>
  findingsOf(
    example([
      "    replace filter on syringe with needle\n",
      `    remove filter from syringe\n    attach needle to ${on}\n`,
    ]),
  ).filter(({ name }) => name === "wrong-kind-of-thing");

test.each([
  ["syringe", []],
  ["bag", ["bag is a bag; this step needs a syringe for needle. Name the right thing."]],
  ["mag", ["mag is an ampoule; this step needs a syringe for needle. Name the right thing."]],
])("a needle on %s", (on, messages) => {
  expect(told(on).map(({ message }) => message)).toEqual(messages);
});
