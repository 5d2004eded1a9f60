/**
 * Titles, label lines and orders that say one thing twice: every reading of a figure is laid against what is made. What a careful
 * colleague would say of each: common practice. Molar masses from the formulas.
 */
import { describe, expect, it, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { sheetFrom } from "../sheet/sample-sheets.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string) => findingsOf(text).map((f) => f.name);
const told = (text: string, name: string) =>
  findingsOf(text)
    .filter((f) => f.name === name)
    .map((f) => f.message);

const titled = (title: string) => example(["Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL", title]);

describe("an amount of a title in another unit than the order", () => {
  // 4 g ÷ 246.47 g/mol = 16.23 mmol = 32.46 mEq; 394.5 mg of magnesium.
  it.each([
    "Magnesium sulfate 16.2 mmol in sodium chloride 0.9 %",
    "Magnesium sulfate 32.5 mEq in sodium chloride 0.9 %",
    "Magnesium sulfate, 394 mg of magnesium, in sodium chloride 0.9 %",
    "Magnesium sulfate 50 %, 4 g in sodium chloride 0.9 %",
    "4 g of magnesium sulfate in sodium chloride 0.9 %",
    "Magnesium sulfate 4 g in sodium chloride 0.9 % for patients of 40 kg to 60 kg",
  ])("%s is right", (title) => expect(names(titled(title))).toEqual([]));

  it.each([
    ["Magnesium sulfate 4 mmol in sodium chloride 0.9 %", "comes to 16.23 mmol"],
    ["Magnesium sulfate 16.2 mEq in sodium chloride 0.9 %", "comes to 32.46 mEq"],
    ["Magnesium sulfate, 4 g of magnesium, in sodium chloride 0.9 %", "4 g of magnesium; the order comes to 394.5 mg"],
    ["Magnesium sulfate 5 %, in sodium chloride 0.9 %", "comes to 3.704 % w/v"],
  ])("%s is told", (title, words) => {
    const [message, ...others] = told(titled(title), "title-contradicts-order");
    expect(message).toContain(words);
    expect(others).toEqual([]);
  });
});

describe("the whole volume of the container in a title, 4 g in 100 mL and the 8 mL that bring it", () => {
  it.each([
    "Magnesium sulfate 4 g in 108 mL",
    "Magnesium sulfate 4 g/108 mL for peripheral use",
    "Magnesium sulfate 4 g, 108 mL",
  ])("%s is right", (title) => expect(names(titled(title))).toEqual([]));

  it.each([
    "Magnesium sulfate 4 g in 108 mL sodium chloride 0.9 %",
    "Magnesium sulfate 4 g in sodium chloride 0.9 % 108 mL",
    "Magnesium sulfate 4 g in 10.8 mL",
  ])("%s is told", (title) => expect(names(titled(title))).toEqual(["title-contradicts-order"]));
});

describe("figures and drugs of a title", () => {
  const two = example(
    [
      "    drug            magnesium-sulfate\n    dose            4 g per bag\n",
      "    additive        magnesium-sulfate 4 g per bag\n    additive        bromol 2 g per bag\n",
    ],
    ["drug magnesium-sulfate {", 'drug bromol {\n  name  "bromol"\n}\n\ndrug magnesium-sulfate {'],
  );
  it("belongs to the drug that is named before it", () => {
    const swap = (title: string) => told(two.replace(/title {2}".*"/, `title  "${title}"`), "title-contradicts-order");
    expect(swap("Magnesium sulfate 4 g and bromol 2 g in sodium chloride 0.9 %")).toEqual([]);
    expect(swap("Magnesium sulfate 2 g and bromol 4 g in sodium chloride 0.9 %")).toHaveLength(2);
  });

  it("counts millions", () => {
    const million = (title: string) =>
      told(
        example(
          ["    dose            4 g per bag", "    dose            2.4 million units per bag"],
          ["Magnesium sulfate 4 g in", `Magnesium sulfate ${title} in`],
        ),
        "title-contradicts-order",
      );
    expect(million("2.4 million units")).toEqual([]);
    expect(million("2,400,000 units")).toEqual([]);
    expect(million("24 million units")[0]).toContain("24 million units");
  });

  it("a name that only ends like the drug's, or shares a word with the drug and one with the fluid, is another drug", () => {
    expect(names(titled("Paramagnesium 4 g in sodium chloride 0.9 % 100 mL"))).toEqual(["title-without-drug"]);
    const chloride = titled("Magnesium chloride 4 g in sodium chloride 0.9 % 100 mL").replace(
      "drug magnesium-sulfate {",
      'drug magnesium-chloride {\n  name  "magnesium chloride"\n}\n\ndrug magnesium-sulfate {',
    );
    expect(told(chloride, "title-contradicts-order")[0]).toContain("magnesium-chloride");
  });
});

describe("a dose counted as another form than the drug", () => {
  // 1.27 g of the salt hold 1 g of the base, as aminophylline holds theophylline (invented figures).
  const inSalt = (title: string) =>
    example(
      [
        "  ion            magnesium charge 2\n",
        '  counted-as     magnesium-sulfate\n  salt           thin-form 1 g for 1.25 g  source guide "x"\n',
      ],
      ["    dose            4 g per bag", "    dose            3.2 g as thin-form per bag"],
      ["magnesium-4g {", "magnesium-thin {"],
      ["  strength   500 mg/mL", "  strength   500 mg/mL as magnesium-sulfate"],
      ["draw 4 g from", "draw dose from"],
      ["Magnesium sulfate 4 g in", `${title} in`],
    );
  it("is right in either form, named", () => {
    expect(names(inSalt("Magnesium sulfate 4 g"))).toEqual([]);
    expect(names(inSalt("Magnesium sulfate, 3.2 g of thin form,"))).toEqual([]);
  });
  it("is told where the title leaves the form out, or gives one the other's figure", () => {
    expect(told(inSalt("Magnesium sulfate 3.2 g"), "title-contradicts-order")[0]).toContain('"3.2 g as thin-form"');
    expect(told(inSalt("Magnesium sulfate, 4 g of thin form,"), "title-contradicts-order")).toHaveLength(1);
  });
  it("stands on the label in both, each with its strength", () => {
    const library = new Library({ asOf: "2026-11-25" });
    library.open("example.misce", inSalt("Magnesium sulfate 4 g"));
    const texts = sheetFrom(library, "magnesium-thin").labels[0]!.lines.map((l) => l.value.text);
    expect(texts).toContain("4 g as magnesium sulfate (37.04 mg/mL) = 3.2 g as thin form (29.63 mg/mL)");
  });
});

describe("a line of the label", () => {
  const label = (line: string) =>
    told(
      example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]),
      "label-text-contradicts-order",
    );
  it.each([
    ["For intrathecal use only. Fatal by any other route.", "intrathecal"],
    ["For epidural use only - never give it otherwise.", "epidural"],
    ["Magnesium sulfate 50 mg/mL", "50 mg/mL"],
    ["Use within 72 h.", "72 h"],
    ["Store in a refrigerator.", "refrigerator"],
  ])("%s is told", (line, words) => expect(label(line)[0]).toContain(words));
  it.each([
    "For intravenous use only. Fatal by any other route.",
    "Magnesium sulfate 37 mg/mL",
    "Dilute magnesium sulfate to 10 mg/mL.",
    "Use within 24 h.",
    "Discard after 12 h.",
    "Do not refrigerate.",
  ])("%s is right", (line) => expect(label(line)).toEqual([]));
});

test("a note among the steps or of the recipe is printed too", () => {
  const noted = (words: string) => [
    told(example(["    seal bag\n", `    note "${words}"\n    seal bag\n`]), "label-text-contradicts-order"),
    told(example(["  order {", `  note  "${words}"\n\n  order {`]), "label-text-contradicts-order"),
  ];
  expect(noted("For intrathecal use.").flat()).toHaveLength(2);
  expect(noted("Give over 20 min.").flat()).toHaveLength(2);
  expect(noted("Give over 4 h. Epidural sets do not fit. Wait over 20 min.").flat()).toEqual([]);
});

test("a forbidden route is forbidden by its other names", () => {
  const dose = "  dose           from 500 mg up to 10 g for any route\n";
  const by = (route: string) =>
    names(
      example(
        [
          "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
          `    route           ${route}\n`,
        ],
        [dose, `${dose}  never          intrathecal\n`],
      ),
    );
  for (const route of ["intrathecal", "spinal", "intra-thecal", "subarachnoid"])
    expect(by(route)).toContain("route-forbidden");
  expect(by("epidural")).not.toContain("route-forbidden");
  expect(by("epidural")).toContain("guarded-route-not-in-monograph");
});

test("what a syringe holds for one push is a dose, also where its strength is ordered", () => {
  const pushed = (strength: string) =>
    example(
      ["    dose            4 g per bag\n", `    concentration   ${strength}\n`],
      ["    diluent-volume  100 mL\n", "    final-volume    108 mL\n"],
      ["    infuse-over     4 h\n", "    use             bolus\n"],
    );
  // 108 mL of 500 mg/mL are 54 g, the window ends at 10 g.
  expect(names(pushed("500 mg/mL"))).toContain("dose-outside-window");
  expect(names(pushed("37.04 mg/mL"))).not.toContain("dose-outside-window");
});

test("the rate that a titrated infusion is started at is laid against the limit", () => {
  const started = (rate: string) =>
    names(example(["    infuse-over     4 h\n", `    use             titrated\n    infuse-at       ${rate}\n`]));
  // 37.04 mg/mL at 300 mL/h are 11.1 g/h; allowed are 9 g/h.
  expect(started("300 mL/h")).toContain("rate-above-limit");
  expect(started("30 mL/h")).not.toContain("rate-above-limit");
});

test("two rows of a material that both hold are told", () => {
  const rows = (condition: string) =>
    names(
      example([
        "    bag          saline-bag-100\n",
        `    bag          saline-bag-100  when dose up to 4 g\n    bag          saline-bag-100  when dose ${condition}\n`,
      ]),
    );
  expect(rows("from 4 g")).toEqual(["order-row-does-not-hold"]);
  expect(rows("above 4 g")).not.toContain("order-row-does-not-hold");
});
