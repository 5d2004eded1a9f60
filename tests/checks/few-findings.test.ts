/**
 * A line left out, a name misspelt, another size of a product: one slip is one to three findings, whatever follows from it, and what
 * stands beneath another finding is not lost. Slips as authors make them: common practice.
 */
import { expect, test } from "vitest";
import { lost } from "./nothing-lost.ts";
import { type LineSlip, lineSlipsIn } from "./planted-lines.ts";
import { openSamples, type SampleRecipe } from "./planted-slips.ts";

const samples = [...openSamples("library"), ...openSamples("library-containment")];

/** Each slip in every so manieth place, so that all kinds and recipes are met. */
const share = process.env.MISCE_LONG ? 1 : 9;

interface Told {
  slip: LineSlip;
  sample: SampleRecipe;
  count: number;
}

const byKind = new Map<string, Told[]>();
let seen = 0;
for (const sample of samples) {
  for (const slip of lineSlipsIn(sample)) {
    // Slips of which there are few are all met.
    const isOne = !/step|verb|thing|material|product/.test(slip.kind) && sample.file.includes("a");
    if (!isOne && seen++ % share !== 0) continue;
    const { library, file, text } = sample;
    library.change(file, slip.text);
    const count = library.findings(file).filter((f) => f.severity !== "note" && !f.silenced).length;
    const all = byKind.get(slip.kind) ?? [];
    byKind.set(slip.kind, [...all, { slip, sample, count }]);
    library.change(file, text);
  }
}

/** Of several drugs, one that is misspelt stands in the title and in the name too, and its product on the tray; what a weight was for is told each. */
const three: ReadonlySet<string> = new Set(["additive misspelt", "no weight"]);

/** A step left out may break what was done right with several things: each is told. An additive left out is told at its product alone. */
const most: Readonly<Record<string, number>> = { "no step": 4, "no additive": 2 };

test.each([...byKind.keys()])("%s", (kind) => {
  const all = [...byKind.get(kind)!].sort((a, b) => a.count - b.count);
  const worst = all.at(-1)!;
  expect(all[all.length >> 1]!.count).toBeLessThanOrEqual(three.has(kind) ? 3 : 2);
  expect(worst.count, `${worst.sample.file}: ${worst.slip.what}`).toBeLessThanOrEqual(most[kind] ?? 3);
});

test("what stands beneath another finding is told there", () => {
  let folds = 0;
  for (const { slip, sample } of [...byKind.values()].flatMap((all) => all.filter((_, i) => i % 4 === 0))) {
    const { library, file, text } = sample;
    library.change(file, slip.text);
    const found = lost(library, file);
    expect(found.lost, `${file}: ${slip.kind}, ${slip.what}`).toEqual([]);
    if (found.isFolded) folds++;
    library.change(file, text);
  }
  expect(folds).toBeGreaterThan(5);
});

test("without a dose what speaks of it stands beneath the order that lacks it", () => {
  const sample = samples.find(({ file }) => file.endsWith("/vancomycin-loading.misce"))!;
  sample.library.change(sample.file, sample.text.replace(/^ {4}dose .*\n/m, ""));
  const found = sample.library.findings(sample.file);
  expect(found.map((f) => f.name)).toEqual(["order-incomplete"]);
  expect(found[0]!.related[0]!.message).toBe("What is missing here leaves this open:");
  expect(found[0]!.related.length).toBeGreaterThan(5);
  sample.library.change(sample.file, sample.text);
});
