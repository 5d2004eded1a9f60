/** A comparison in parts, answered by whomever in any order, is the comparison in one; what is left out of it would have said nothing. */
import { describe, expect, test } from "vitest";
import { evaluateChunk } from "../../language/checks/evaluate.ts";
import { rangeWork } from "../../language/checks/judge-recipe.ts";
import { judgeRange, type RangeJudgement } from "../../language/checks/over-range.ts";
import { checkNames } from "../../language/checks/registry.ts";
import { Asked, decidedWords } from "../../language/compare/asked.ts";
import type { RecipeSide } from "../../language/compare/bench-figures.ts";
import { sameName } from "../../language/compare/canonical.ts";
import { Comparing, compareLibraries, type PartAnswer } from "../../language/compare/compare.ts";
import { consequences, figuresIfAlike } from "../../language/compare/consequences.ts";
import { meaningOf, readingOf, type StepMeaning } from "../../language/compare/meaning.ts";
import type { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { edited, libraryOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const about = { names: { before: "A", after: "B" }, version: "test", notOpened: [] };
const site = (line: string) => edited(texts, "site.misce", /(?=\n\})/, `\n  ${line}`);
const recipesOf = (library: Library) => library.ofKind("recipe") as readonly Recipe[];

/** Undefined where the other library may come to other figures. */
function sameFigures(before: RecipeSide, after: Library) {
  if (before.range) return undefined;
  const other = after.surroundings();
  const asked = new Asked(before.library.surroundings(), other);
  const found = figuresIfAlike(before, asked);
  return asked.isAnsweredAlike(other) ? found : undefined;
}

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

describe("a recipe that nothing but the site's decisions reaches is told with the verdicts that it has", () => {
  const before = libraryOf(texts);
  const messages = (library: Library, file: string, name: string) =>
    library
      .findings(file)
      .filter((f) => f.subject === `recipe ${name}`)
      .map((f) => `${f.severity} ${f.name} ${f.silenced ? "silenced " : ""}${f.message}`)
      .sort();

  test.each([
    ["tolerance of the dose, a little", /(?<=tolerance +dose )5/, "6"],
    ["tolerance of the dose, far below every error", /(?<=tolerance +dose )5/, "0.01"],
    ["a share that most keep", /(?=\n\})/, "\n  additive-share up to 9 %"],
    ["a share that few keep", /(?=\n\})/, "\n  smallest-share 60 %"],
    ["a share of the syringe", /(?=\n\})/, "\n  largest-share 70 %"],
    ["a limit of osmolarity", /(?=\n\})/, "\n  peripheral-osmolarity up to 500 mOsm/L"],
    ["steps of the pump", /(?=\n\})/, "\n  pump-step 5 mL/h"],
    ["the worst case", /(?=\n\})/, "\n  tolerance worst-case 2 %"],
    ["air", /(?=\n\})/, "\n  equal-air-above 30 mL"],
    ["small doses", /(?=\n\})/, "\n  small-dose 6 mL"],
    ["punctures", /(?=\n\})/, "\n  needle-punctures up to 2"],
    ["category", /category 2/, "category 1"],
    ["a grade", /(?=\n\})/, '\n  severity dose-not-delivered note because "test"'],
    ["a line that cannot be read", /(?=\n\})/, "\n  pump-step fast"],
    ["a role", /\n +role +pharmacist/, ""],
    ["the name", /Kestrel Quay/, "Kestrel Bay"],
  ])("%s", (_, was, is) => {
    const after = libraryOf(edited(texts, "site.misce", was, is));
    const { declarations } = compareLibraries({ before, after, ...about });
    for (const { name, chunk } of before.headsOf("recipe")) {
      const { file } = before.spanOf({ chunk, start: 0, end: 0 })!;
      const isOther = messages(before, file, name.name).join("\n") !== messages(after, file, name.name).join("\n");
      const told = declarations.find((d) => d.kind === "recipe" && d.name === name.name);
      expect(
        (told?.verdicts ?? []).some((v) => v.name !== ""),
        name.name,
      ).toBe(isOther);
    }
  });

  test("whatever is asked of the site's own lines, no decision is", () => {
    const { around } = new Asked(before.surroundings());
    const found = around.lookup.site()!;
    const asked = new Set<string>();
    const facts = new Proxy(found.facts, {
      get(target, key) {
        const value = Reflect.get(target, key);
        if (key !== "one" && key !== "all") return typeof value === "function" ? value.bind(target) : value;
        return (word: string) => {
          asked.add(word);
          return value.call(target, word);
        };
      },
    });
    const lookup = { ...around.lookup, site: () => ({ ...found, facts }) };
    for (const recipe of recipesOf(before)) {
      evaluateChunk(recipe.chunk, readingOf(recipe.chunk), { ...around, lookup });
    }
    expect([...asked].filter((word) => decidedWords.has(word))).toEqual([]);
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
