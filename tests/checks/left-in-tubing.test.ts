/** What stays in the tubing of a transfer counts in the worst case. The figures are worked out by hand. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

/** The standard bag, whose 108 mL then go over into another bag through tubing. */
function movedOver(holds: string, more: { before?: string; after?: string } = {}) {
  const text = example(
    ["  tolerance      dose 5 %\n", "  tolerance      dose 5 %\n  tolerance      worst-case 8 %\n"],
    [
      "stock magnesium-ampoule {",
      `device moving-set {\n  kind  tubing\n${holds}}\n\nstock empty-sack {\n  container  empty-bag\n  capacity   150 mL\n  made-of    polyolefin\n  storage    room-temperature\n}\n\nlots empty-sack {\n  lot "KQ-1"  expires 2028-01\n}\n\nstock magnesium-ampoule {`,
    ],
    ["    dose            4 g per bag", "    dose            4 g per sack"],
    [
      "    bag          saline-bag-100\n",
      "    bag          saline-bag-100\n    rinse        saline-bag-100\n    sack         empty-sack\n    set          moving-set\n",
    ],
    ["    method          add-to-bag", "    method          build-from-empty"],
    [
      "    inspect bag\n    seal bag\n    label bag\n",
      `${more.before ?? ""}    disinfect bag, sack, rinse\n    transfer all from bag to sack using set\n${more.after ?? ""}    inspect sack\n    seal sack\n    label sack\n`,
    ],
    ["  preparation bag {", "  preparation sack {"],
  );
  return findingsOf(text).filter(({ name }) => name === "dose-can-miss");
}

const sixMillilitres = '  priming-volume  6 mL  source guide "sets"\n';

test("6 mL of 108 mL are 5.56 % of the dose, named with the tubing and the step", () => {
  const [found, ...more] = movedOver(sixMillilitres);
  expect(more).toEqual([]);
  expect(found?.message).toContain("the 6 mL that stay in set in step 13: 5.56 %");
});

test.each([
  ["of which nobody says what it holds", movedOver("")],
  ["that was primed from the same bag", movedOver(sixMillilitres, { before: "    prime set with 6 mL from bag\n" })],
  ["that is rinsed through", movedOver(sixMillilitres, { after: "    transfer 6 mL from rinse to sack using set\n" })],
])("tubing %s adds nothing", (_, found) => {
  expect(found).toEqual([]);
});

test("tubing rinsed with less than it holds keeps its share", () => {
  expect(movedOver(sixMillilitres, { after: "    transfer 3 mL from rinse to sack using set\n" })).toHaveLength(1);
});
