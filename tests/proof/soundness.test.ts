/**
 * What the pieces of a range say is what the ordinary bench says at every point of them: random points of 200 recipes made by
 * chance and of every ranged sample are run and judged by themselves. `MISCE_LONG=1` tries a million points, `MISCE_POINTS` any number.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { rangeWork } from "../../language/checks/judge-recipe.ts";
import { foundIn, type JudgedPiece, judgeRange } from "../../language/checks/over-range.ts";
import { checkNames } from "../../language/checks/registry.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import type { Interval } from "../../language/proof/interval.ts";
import { axesOf, isOrdered, type OrderAxis, pointOf } from "../../language/proof/order-axes.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { chance, rangedRecipe } from "./ranged-recipes.ts";

const points = Number(process.env.MISCE_POINTS ?? (process.env.MISCE_LONG ? 1_000_000 : 4_000));
const recipes = 200;

function subjects(): { title: string; library: Library; file: string }[] {
  const made = Array.from({ length: recipes }, (_, seed) => {
    const library = new Library({ asOf: "2026-11-25" });
    library.open("made.misce", rangedRecipe(seed));
    return { title: `made by chance, seed ${seed}`, library, file: "made.misce" };
  });
  return [...made, ...samples("library"), ...samples("library-containment")];
}

function samples(name: string) {
  const root = join(import.meta.dirname, "../../samples", name);
  const library = new Library({ asOf: "2026-11-25" });
  const files = (readdirSync(root, { recursive: true }) as string[]).filter((f) => f.endsWith(".misce"));
  for (const file of files) library.open(file, readFileSync(join(root, file), "utf8"));
  return files
    .filter((f) => recipeIn(library, f) && axesOf(recipeIn(library, f)!).length > 0)
    .map((file) => ({ title: `samples/${name}/${relative(root, join(root, file))}`, library, file }));
}

function recipeIn(library: Library, file: string): Recipe | undefined {
  return library
    .chunks(file)
    .flatMap((c) => c.reading.declarations)
    .find((d): d is Recipe => d.kind === "recipe");
}

/** A value of the axis by chance, on its steps where it has them; now and then an end. */
function valueOn({ range, step }: OrderAxis, next: () => number): Exact {
  const share = next() < 0.05 ? (next() < 0.5 ? 0 : 1) : next();
  const width = range.high.minus(range.low);
  const part = Exact.ratio(Math.round(share * 1e9), 1e9);
  if (!step) return range.low.plus(width.times(part));
  const steps = width.over(step).floor();
  return range.low.plus(steps.times(part).toNearest(Exact.one).times(step));
}

function holds({ low, high, lowIn, highIn }: Interval, value: Exact): boolean {
  const a = value.compare(low);
  const b = value.compare(high);
  return (a > 0 || (a === 0 && lowIn)) && (b < 0 || (b === 0 && highIn));
}

describe("a range judged by pieces", () => {
  const all = subjects();
  const each = Math.ceil(points / all.length);
  let judged = 0;
  it.each(all)("says what the bench says at any point: $title", ({ library, file }) => {
    const recipe = recipeIn(library, file)!;
    const around = library.surroundings();
    const chunk = library.chunks(file).find((c) => c.reading.declarations.includes(recipe))!;
    const context = {
      chunk,
      reading: chunk.reading,
      policy: around.policy,
      declaration: recipe,
      lookup: around.lookup,
      asOf: around.asOf,
      checkNames,
    };
    const work = rangeWork(recipe, context, around);
    const judgement = judgeRange(work)!;
    const { axes, pieces, undecided } = judgement;
    const next = chance(judged + 7);
    for (let n = 0; n < each; n++) {
      const values = axes.map((axis) => valueOn(axis, next));
      const at: JudgedPiece[] = pieces.filter((p) => p.box.every((interval, k) => holds(interval, values[k]!)));
      if (at.length === 0) {
        // What no piece holds is said to be undecided, nothing is passed over.
        expect(undecided.some((u) => u.box.every((interval, k) => holds(interval, values[k]!)))).toBe(true);
        continue;
      }
      expect(at.length, "no point lies in two pieces").toBe(1);
      const point = pointOf(recipe, axes, values);
      const ordered = isOrdered(recipe, axes, point);
      expect(at[0]!.result.ordered).toBe(ordered);
      if (!ordered) continue;
      const found = foundIn(work, work.contextOf(work.runsAt(point)));
      expect([...at[0]!.result.found].sort(), `at ${values.map((v) => v.toText()).join(", ")}`).toEqual(
        [...found].sort(),
      );
      judged++;
    }
  });
  it("has judged points", () => {
    expect(judged).toBeGreaterThan(points / 2);
  });
});
