/** First paint: the awkward lines of the lexical rules, and every word of the samples that opens a line. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { firstPaint } from "./first-paint.ts";

const root = join(import.meta.dirname, "../..");
const grammar = JSON.parse(readFileSync(join(root, "client/vscode/syntaxes/misce.tmLanguage.json"), "utf8"));

/** The coloured pieces of the last line, scopes without their last part. */
function painted(text: string): Record<string, string> {
  const line = firstPaint(grammar, text).at(-1)!;
  return Object.fromEntries(
    line.filter(([, scope]) => scope).map(([word, scope]) => [word, scope.replace(/\.misce$/, "")]),
  );
}

const fact = "variable.other.property";
const verb = "keyword.control.verb";
const number = "constant.numeric";
const unit = "keyword.other.unit";
const glue = "keyword.other";

describe("a line", () => {
  it.each<[string, string, Record<string, string>]>([
    [
      "head of a recipe",
      "recipe magnesium-4g {",
      { recipe: "storage.type.declaration", "magnesium-4g": "entity.name.type", "{": "punctuation.section.block" },
    ],
    ["fact with a quantity", "  dose  4 g per bag", { dose: fact, "4": number, g: unit, per: glue }],
    [
      "compound unit",
      "  rate  up to 5 mcg/kg/min",
      { rate: fact, up: glue, to: glue, "5": number, "mcg/kg/min": unit },
    ],
    ["percent with its kind", "  strength  0.9 % w/v", { strength: fact, "0.9": number, "% w/v": unit }],
    ["name with a figure in it", "  diluent  sodium-chloride-0.9", { diluent: fact }],
    ["name that begins like a word", "  diluent  per-diem", { diluent: fact }],
    [
      "date and string",
      '  lot "A # 1"  expires 2026-12-15',
      { lot: fact, '"A # 1"': "string.quoted.double", "2026-12-15": "constant.other.date" },
    ],
    [
      "comment after a blank",
      "  fill  2 mL  # as on the pack",
      { fill: fact, "2": number, mL: unit, "# as on the pack": "comment.line.number-sign" },
    ],
    ["no comment without a blank", "  open mag#2", {}],
    [
      "trailing words",
      "  use-within  1 h at fridge  source guide",
      { "use-within": fact, "1": number, h: unit, at: glue, source: "keyword.other.trailing" },
    ],
  ])("%s", (_, line, wanted) => expect(painted(line)).toEqual(wanted));

  it("a step: its verb, glue and claim", () => {
    expect(painted("  steps {\n    draw 4 g from mag into syringe  = 8 mL")).toEqual({
      draw: verb,
      "4": number,
      g: unit,
      from: glue,
      into: glue,
      "=": "keyword.operator.claim",
      "8": number,
      mL: unit,
    });
  });

  it("a verb's word is a name elsewhere", () => {
    expect(painted("  materials {\n    filter  filter-needle-5um")).toEqual({
      filter: "variable.other.constant",
      "filter-needle-5um": "entity.name.type",
    });
  });

  it("an open string ends with its line", () => {
    expect(painted('  title  "Magnesium\n  dose  4 g')).toEqual({ dose: fact, "4": number, g: unit });
  });

  it("after steps, facts are facts again", () => {
    expect(painted("  steps {\n    mix bag\n  }\n  order {\n    dose  4 g")).toEqual({
      dose: fact,
      "4": number,
      g: unit,
    });
  });
});

describe("the sample libraries", () => {
  const files = ["library", "library-containment"].flatMap((folder) =>
    (readdirSync(join(root, "samples", folder), { recursive: true }) as string[])
      .filter((name) => name.endsWith(".misce"))
      .map((name) => `samples/${folder}/${name}`),
  );

  it.each(files)("%s: each line opens with a coloured word", (file) => {
    const text = readFileSync(join(root, file), "utf8");
    const plain = firstPaint(grammar, text).flatMap((line, i) => {
      const first = line.find(([word]) => word.trim() !== "");
      return first && first[1] === "" ? [`line ${i + 1}: ${line.map(([w]) => w).join("")}`] : [];
    });
    expect(plain).toEqual([]);
  });

  it("each verb is coloured as one in steps", () => {
    for (const word of verbsByWord.keys()) expect(painted(`  steps {\n    ${word} x`)).toMatchObject({ [word]: verb });
  });
});
