/** A comparison in parts, answered by whomever in any order, is the comparison in one; what is left out of it would have said nothing. */
import { describe, expect, test } from "vitest";
import { rangeWork } from "../../language/checks/judge-recipe.ts";
import { judgeRange, type RangeJudgement } from "../../language/checks/over-range.ts";
import { checkNames } from "../../language/checks/registry.ts";
import { Asked } from "../../language/compare/asked.ts";
import { sameName } from "../../language/compare/canonical.ts";
import { Comparing, compareLibraries, type PartAnswer } from "../../language/compare/compare.ts";
import { consequences, sameFigures } from "../../language/compare/consequences.ts";
import { meaningOf, readingOf, type StepMeaning } from "../../language/compare/meaning.ts";
import type { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { edited, libraryOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const about = { names: { before: "A", after: "B" }, version: "test", notOpened: [] };
const site = (line: string) => edited(texts, "site.misce", /(?=\n\})/, `\n  ${line}`);
const recipesOf = (library: Library) => library.ofKind("recipe") as readonly Recipe[];

/** Edits that reach few recipes, many, all; that add, take out and move declarations. */
const states: [name: string, after: Map<string, string>][] = [
  ["a dose", edited(texts, "recipes/magnesium-4g.misce", "dose            4 g", "dose            5 g")],
  ["a stock", edited(texts, "stock/vials.misce", /(strength +)(\d)/, "$12$2")],
  ["the tolerance of the site", edited(texts, "site.misce", /(?<=tolerance +)dose +\d+/, "dose 9")],
  ["a recipe less", new Map([...texts].filter(([file]) => file !== "recipes/magnesium-2g.misce"))],
  ["a file under another name", new Map([...texts].map(([file, text]) => [file.replace("magnesium", "mg"), text]))],
  ["a brace", edited(texts, "recipes/magnesium-4g.misce", /\}\s*$/, "")],
];

describe("answered by two in turn and put together", () => {
  test.each(states)("%s", (_, after) => {
    const two = [0, 1].map(() => new Comparing(libraryOf(texts), libraryOf(after)));
    expect(two[1]!.parts).toEqual(two[0]!.parts);
    const answers: PartAnswer[] = [];
    for (const part of [...two[0]!.parts.keys()].reverse()) {
      const one = two[part % 2]!;
      // As it comes from another thread.
      answers[part] = structuredClone(one.answer(part));
      one.release(part);
    }
    const whole = compareLibraries({ before: libraryOf(texts), after: libraryOf(after), ...about });
    expect(two[0]!.whole(answers, about)).toEqual(whole);
    expect(whole.declarations.length).toBeGreaterThan(0);
  });
});

describe("figures that need no second working out", () => {
  const before = libraryOf(texts);
  const shelf = [...texts].find(([, text]) => /^lots /m.test(text))![0];
  /** What no figure rests on leaves all of them the same; of the others, some may. */
  test.each<[string, "all" | "some" | "any", Map<string, string>]>([
    ["small-dose", "some", site("small-dose 5 mL")],
    ["pump-step", "any", site("pump-step 1 mL/h")],
    ["smallest-share", "any", site("smallest-share 50 %")],
    ["needle-punctures", "any", site("needle-punctures 1")],
    ["time-zone", "all", site("time-zone Europe/Lisbon")],
    ["role", "all", site("role night-pharmacist")],
    ["tolerance", "all", states[2]![1]],
    ["another category", "any", edited(texts, "site.misce", /category \d/, "category 1")],
    ["the shelf", "any", edited(texts, shelf, /20\d\d/g, "2031")],
  ])("after a change of %s: %s", (_, expected, texts) => {
    const after = libraryOf(texts);
    let same = 0;
    for (const recipe of recipesOf(before)) {
      const twin = recipesOf(after).find((r) => r.name.name === recipe.name.name)!;
      const sides = [before, after].map((library, k) => {
        const own = k === 0 ? recipe : twin;
        return { recipe: own, library, range: library.judgement(own) };
      });
      const found = sameFigures(sides[0]!, after);
      if (!found) continue;
      same++;
      const { steps } = meaningOf(twin);
      const pairs = steps.map((s): [StepMeaning, StepMeaning] => [s, s]);
      const none = { changed: [], moved: [], removed: [], added: [] };
      expect(consequences(sides[0]!, sides[1]!, { same: pairs, ...none }, sameName)).toEqual(found);
    }
    const all = recipesOf(before).filter((recipe) => !before.judgement(recipe)).length;
    if (expected === "all") expect(same).toBe(all);
    if (expected === "some") expect(same).toBeGreaterThan(0);
  });

  test("are those of a recipe whose products and site say the same", () => {
    const recipe = recipesOf(before).find((r) => r.name.name === "magnesium-4g")!;
    const side = { recipe, library: before, range: undefined };
    expect(sameFigures(side, libraryOf(site("role night-pharmacist")))).toBeDefined();
    expect(sameFigures(side, libraryOf(states[1]![1]))).toBeDefined();
    const [file, text] = [...texts].find(([, t]) => /^stock mag/m.test(t))!;
    const stronger = new Map([...texts, [file, text.replace(/(^stock mag[^}]*?strength +)(\d)/m, "$19$2")]]);
    expect(stronger.get(file)).not.toBe(text);
    expect(sameFigures(side, libraryOf(stronger))).toBeUndefined();
  });

  test("every part of a policy is noted when it is read", () => {
    for (const field of Object.keys(defaultPolicy()) as (keyof ReturnType<typeof defaultPolicy>)[]) {
      const around = before.surroundings();
      const asked = new Asked(around);
      expect(asked.around.policy[field]).toBe(around.policy[field]);
      const other = { ...around, policy: { ...around.policy, [field]: "otherwise" as never } };
      expect([asked.isAnsweredAlike(around), asked.isAnsweredAlike(other)]).toEqual([true, false]);
    }
  });
});

/** Numbers as text: the same number may be kept in other terms. */
function plain({ axes, pieces, undecided }: RangeJudgement): unknown {
  const ends = (box: RangeJudgement["pieces"][number]["box"]) =>
    box.map(({ low, high, lowIn, highIn }) => [low.key(), high.key(), lowIn, highIn]);
  return {
    inputs: axes.map((axis) => axis.input),
    undecided: undecided.map(({ box, reason }) => [ends(box), reason]),
    pieces: pieces.map(({ box, point, result }) => [
      ends(box),
      point.map((value) => value.key()),
      result.ordered,
      [...result.found],
    ]),
  };
}

test("the judgement of a range that a library keeps is that of a fresh one", () => {
  const library = libraryOf(texts);
  const ranged = recipesOf(library).filter((recipe) => library.judgement(recipe));
  expect(ranged.length).toBeGreaterThan(0);
  for (const recipe of ranged) {
    const around = library.surroundings();
    const { chunk } = recipe;
    const context = { chunk, reading: readingOf(chunk), declaration: recipe, checkNames, ...around };
    const fresh = judgeRange(rangeWork(recipe, context, around))!;
    const kept = library.judgement(recipe)!;
    expect(plain(kept)).toEqual(plain(fresh));
  }
});
