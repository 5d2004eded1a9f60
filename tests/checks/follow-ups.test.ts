/** One wrong figure is at most three findings, what follows from it stands beneath them, and no place of a second slip is lost. */
import { expect, test } from "vitest";
import type { Finding } from "../../shared/finding.ts";
import { chance } from "./chance.ts";
import { lost } from "./nothing-lost.ts";
import { openSamples, type SampleRecipe, slipsIn, withSlips } from "./planted-slips.ts";

const samples = [...openSamples("library"), ...openSamples("library-containment")];

function sample(name: string): SampleRecipe {
  return samples.find(({ file }) => file.endsWith(`/${name}.misce`))!;
}

/** Of the recipe with these words changed, without notes. */
function told(name: string, ...changes: [was: string, now: string][]): Finding[] {
  const { library, file, text } = sample(name);
  let changed = text;
  for (const [was, now] of changes) {
    if (!changed.includes(was)) throw new Error(`${name} has no ${was}`);
    changed = changed.replace(was, now);
  }
  library.change(file, changed);
  const found = library.findings(file).filter((f) => f.severity !== "note");
  library.change(file, text);
  return found;
}

const names = (found: readonly Finding[]) => found.map((f) => f.name);
const beneath = (found: readonly Finding[]) => found.flatMap((f) => f.related.map((r) => r.message));

const one: [name: string, was: string, now: string, first: string][] = [
  ["ceftriaxone-1g-batch", "with 9.6 mL", "with 96 mL", "reconstituted-otherwise"],
  ["ceftriaxone-1g-batch", "with 9.6 mL", "with 0.96 mL", "reconstituted-otherwise"],
  ["ceftriaxone-1g-batch", "4 x saline-bag-50", "5 x saline-bag-50", "batch-count-differs"],
  ["ceftriaxone-1g-batch", "inject 10 mL from", "inject 100 mL from", "push-beyond-content"],
  ["ceftriaxone-1g-batch", "withdraw 10 mL from", "withdraw 100 mL from", "method-not-followed"],
  ["ceftriaxone-1g-batch", "draw 4 g from", "draw 0.4 g from", "claim-differs"],
  ["magnesium-2g-batch", "inject 4 mL from", "inject 40 mL from", "push-beyond-content"],
  ["pantoprazole-40mg", "draw 40 mg from", "draw 400 mg from", "draw-beyond-syringe"],
  ["ceftriaxone-300mg-syringe", "draw 300 mg from", "draw 3,000 mg from", "draw-beyond-syringe"],
  ["ceftriaxone-500mg", "draw 500 mg from", "draw 5 g from", "draw-beyond-syringe"],
  ["noradrenaline-8mg-syringe", "draw 42 mL from", "draw 420 mL from", "final-volume-differs"],
  ["digoxin-40mcg", "draw 2 mL from", "draw 20 mL from", "claim-differs"],
  ["ceftriaxone-1g-batch", "use-within      2 days", "use-within      20 days", "use-within-longer-than-stability"],
];

test.each(one)("%s, `%s` as `%s`: at most three findings, one of them an error", (name, was, now, first) => {
  const found = told(name, [was, now]);
  expect(found.length).toBeLessThanOrEqual(3);
  expect(names(found)).toContain(first);
  expect(found.some((f) => f.severity === "error")).toBe(true);
});

test("what follows stands beneath with its place and its facts, under the figure that would leave none of it", () => {
  const { text } = sample("ceftriaxone-1g-batch");
  const found = told("ceftriaxone-1g-batch", ["4 x saline-bag-50", "5 x saline-bag-50"]);
  expect(names(found)).toEqual(["dose-not-delivered", "batch-count-differs"]);
  const [figure, ...others] = found[1]!.related;
  expect(figure!.message).toBe("4 here would leave none of these:");
  expect(text.slice(figure!.span.start, figure!.span.end)).toBe("4");
  expect(others.map((r) => r.message).join()).toContain("which is empty");
});

test("a second slip stays a finding of its own", () => {
  const found = told(
    "ceftriaxone-1g-batch",
    ["with 9.6 mL", "with 96 mL"],
    ["mix bags by inverting", "mix waste by inverting"],
  );
  expect(names(found)).toContain("left-unmixed");
  expect(beneath(found).length).toBeGreaterThan(1);
});

test("where the site lets the figure stand, what comes of it is told", () => {
  const { library } = sample("ceftriaxone-1g-batch");
  const site = library.files().find((file) => file.endsWith("/site.misce"))!;
  const text = library.text(site)!;
  const graded = `  severity       claim-differs note  because "measured"\n  severity       dose-not-delivered note  because "measured"\n`;
  library.change(site, text.replace(/^ {2}role /m, `${graded}  role `));
  const found = told("pantoprazole-40mg", ["draw 40 mg from", "draw 400 mg from"]);
  library.change(site, text);
  expect(found.length).toBeGreaterThan(3);
  expect(beneath(found)).not.toContain("40 mg here would leave none of these:");
});

test("of two slips in one recipe no place is lost", () => {
  const next = chance(20261125);
  let folds = 0;
  for (const { library, file, text } of samples) {
    const slips = slipsIn(text);
    for (let k = 0; k < 8; k++) {
      const pair = [0, 1].map(() => slips[Math.floor(next() * slips.length)]!);
      if (pair[0]!.start === pair[1]!.start) continue;
      library.change(file, withSlips(text, pair));
      const found = lost(library, file);
      expect(found.lost, `${file}: ${pair.map((s) => s.text).join(", ")}`).toEqual([]);
      if (found.isFolded) folds++;
    }
    library.change(file, text);
  }
  expect(folds).toBeGreaterThan(30);
});
