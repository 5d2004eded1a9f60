/** The words by which the syntax knows a line are those that the model and the bench read. */
import { expect, test } from "vitest";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { factTables } from "../../language/model/read-chunk.ts";
import { factsByBlock, verbs } from "../../language/syntax/words.ts";

test.each(Object.keys(factTables))("the words of %s", (block) => {
  expect([...(factsByBlock[block] ?? [])].sort()).toEqual(Object.keys(factTables[block]!).sort());
});

test("the verbs, and `only`", () => {
  expect([...verbs].sort()).toEqual([...verbsByWord.keys(), "only"].sort());
});
