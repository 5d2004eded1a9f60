/**
 * What charts, monographs and worksheets say in one line and a recipe in two or otherwise; each is told with the line that is meant, and a
 * fix that is offered mends it. First tries at recipes of thirty kinds, as they were written: common practice, from memory.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const order = (line: string, instead: string) => example([`    ${line}\n`, `    ${instead}\n`]);
const first = (text: string, name: RegExp) => findingsOf(text).find((f) => name.test(f.name));

/** The text with the first fix of its first finding of that name. */
function mended(text: string, name: RegExp): string {
  return [...(first(text, name)?.fixes[0]?.edits ?? [])]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((t, e) => t.slice(0, e.span.start) + e.text + t.slice(e.span.end), text);
}
const misread = /not-understood|unknown|wrong-place|unit/;
const route = "route           intravenous";
const dose = "dose            4 g per bag";

describe("told, and mended by the fix", () => {
  it.each([
    [route, "route           intravenous infusion"],
    [route, "route           intravenous PCA"],
    ["access          peripheral", "access          peripheral vein"],
    ["access          peripheral", "access          peripheral line"],
    ["method          add-to-bag", "method          add-to-bottle"],
    ["disinfect bag", "disinfect bag with alcohol"],
    ["disinfect bag", "disinfect each bag"],
    ["label bag", "label each of bag"],
    ["mix bag by inverting 10 times", "mix each bag by inverting 10 times"],
    ['appearance     "clear, colourless, free of particles"', "appearance     clear, colourless, free of particles"],
  ])("%s written %s", (from, to) => {
    const text = order(from, to);
    expect(first(text, misread)?.fixes).toHaveLength(1);
    expect(findingsOf(mended(text, misread))).toEqual([]);
  });

  it("a container of a set that is filled is `each of` it", () => {
    const text = order("inject syringe into bag", "inject syringe into each bag");
    expect(first(text, misread)?.fixes[0]?.title).toBe("Write each of bag");
  });
});

describe("told with what to write", () => {
  it.each([
    [dose, "dose            40 mmol magnesium", "An ion that is counted is written `of`"],
    [dose, "dose            4 g in bag", "Write `per` and the name of the container."],
    ["drug            magnesium-sulfate", "drug            magnesium-sulfate 4 g", "each drug more as `additive`"],
    ["access          peripheral", "access          PICC", "write `access central`"],
    ["method          add-to-bag", "method          syringe", "`method build-from-empty`"],
    ["infuse-over     4 h", "infuse-over     4 h\n    max             8 g", "The cap is `maximum dose`"],
    ["infuse-over     4 h", "infuse-over     4 h\n    lockout         5 min", "`use titrated`"],
    ["infuse-over     4 h", "infuse-over     4 h\n    dwell           1 h", "`note` of the recipe"],
    ["infuse-over     4 h", "infuse-over     4 h\n    makes           10 syringes", "`makes 10 x` and the name"],
    ["diluent         sodium-chloride-0.9", "diluent         none", "`method undiluted`"],
    [
      "draw 4 g from mag into syringe  = 8 mL",
      "draw 4 g magnesium from mag into syringe",
      "Leave the name of the drug out",
    ],
    ["check by pharmacist", "second check", "Write `check by` and the role"],
    ["filter       filter-needle-5um", "filter       filter-needle", "Did you mean `filter-needle-5um`?"],
    [
      "use-within     24 h at room-temperature",
      "use-within     24 h at room-temperature protected from light",
      "write `protect`, the container, `from light`",
    ],
    ["use-within     24 h at room-temperature", "use-within     immediately", "such as `1 h at room-temperature`"],
    ["light          not-sensitive", "max-concentration 20 mg/mL", "Limits of strength are `concentration`"],
    ["light          not-sensitive", "in-line-filter 1.2 micrometre", "`in-line-filter required`"],
    ["strength   500 mg/mL", "strength   50 mg/mL of magnesium", "`contains`, the ion"],
  ])("%s written %s", (from, to, words) => {
    const text = example([from, to]);
    expect(first(text, misread)?.message).toContain(words);
  });

  it("no cap is taken for a syringe", () => {
    const text = example([
      "    needle       needle-18-gauge\n",
      "    needle       needle-18-gauge\n    closed       syringe-cap\n",
    ]);
    expect(first(text, /unknown-name/)?.fixes).toEqual([]);
  });

  it("a fluid taken out says how it is thrown away", () => {
    const text = example(["    disinfect bag\n", "    withdraw 8 mL from bag into syringe\n    disinfect bag\n"]);
    expect(first(text, /step-not-understood/)?.message).toContain("Write `using`, the syringe, `and discard`.");
  });
});

it("an ion ordered by `target` beside a drug without a dose is told both ways out", () => {
  const text = example(["    dose            4 g per bag\n", "    target          magnesium 16 mmol per bag\n"]);
  expect(first(text, /order-incomplete/)?.message).toBe(
    "This order lacks `dose` (or `concentration`). Add it. Where `target` alone orders the ion, take the line `drug` out.",
  );
});
