/** Steps that can be done as written, and name the wrong thing. Common practice. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const told = (from: string, to: string) =>
  findingsOf(example([from, to])).map(({ name, message }) => `${name}: ${message}`);

test("the finished bag is thrown away in the place of something else", () => {
  expect(told("    label bag\n", "    label bag\n    discard bag\n")).toEqual([
    expect.stringContaining("discards bag, which is what the recipe makes."),
  ]);
});

test("a syringe that was sealed pushes on", () => {
  expect(told("    inject syringe into bag\n", "    seal syringe\n    inject syringe into bag\n")).toEqual([
    expect.stringContaining("touched-after-seal"),
  ]);
});

test("a needle is replaced by itself", () => {
  const inject = "    inject syringe into bag\n";
  expect(told(inject, `    replace needle on syringe with needle\n${inject}`)).toEqual([
    expect.stringContaining("needle is a needle; this step needs another than the one that is taken off."),
  ]);
});

test("of two needles of one name the other is put on", () => {
  const inject = "    inject syringe into bag\n";
  const text = example(
    ["    needle       needle-18-gauge", "    needle       2 x needle-18-gauge"],
    [inject, `    replace needle on syringe with needle\n${inject}`],
  );
  expect(findingsOf(text)).toEqual([]);
});
