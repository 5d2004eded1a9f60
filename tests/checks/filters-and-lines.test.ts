/** Steps about filters and lines that name another thing, or stand at the wrong place. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const inject = "    inject syringe into bag\n";
const told = (text: string) => findingsOf(text).map(({ name, message }) => `${name}: ${message}`);

test.each([
  ["test bubble-point of syringe", "syringe is a syringe; this step needs a filter"],
  ["test bubble-point of needle", "needle is a needle; this step needs a filter"],
  ["clamp mag", "mag is an ampoule; this step needs a line"],
  ["clamp needle", "needle is a needle; this step needs a line"],
])("%s", (step, expected) => {
  const [only, ...more] = told(example([inject, `${inject}    ${step}\n`]));
  expect(more).toEqual([]);
  expect(only).toContain("wrong-kind-of-thing");
  expect(only).toContain(expected);
});

test("a bag hangs on a line, and may be clamped", () => {
  expect(told(example([inject, `${inject}    clamp bag\n`]))).toEqual([]);
});

test("what is started without a label and without a check is told for both", () => {
  const names = told(example(["    inspect bag\n", "    inspect bag\n    start bag\n"]));
  expect(names).toHaveLength(2);
  expect(names.every((each) => each.startsWith("started-unready"))).toBe(true);
});

test("liquid without a drug from a glass ampoule is told as that", () => {
  const text = example(
    ["  drug       magnesium-sulfate\n  container  ampoule", "  fluid      sodium-chloride-0.9\n  container  ampoule"],
    ["  strength   500 mg/mL\n", ""],
    ["draw 4 g from mag", "draw 8 mL from mag"],
    ["    attach filter to syringe\n", "    attach needle to syringe\n"],
    ["    replace filter on syringe with needle\n", ""],
  );
  expect(told(text).find((each) => each.startsWith("glass-not-filtered"))).toContain("brings liquid from a glass");
});
