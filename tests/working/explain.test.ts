/** Workings as they are asked for by name, with figures from outside. */
import { describe, expect, test } from "vitest";
import { type ExplainedFigure, explainFigures } from "../../language/answers/explain.ts";
import { Library } from "../../language/library.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { ampoule, asOf, wardLibrary } from "../planning/ward-library.ts";
import { libraryOf, textsOf } from "../sheet/sample-sheets.ts";

const samples = libraryOf(textsOf("library"));

function ask(library: Library, recipe: string, figure: string | undefined, inputs: [string, string][] = []) {
  const found = explainFigures(library, { recipe, inputs: new Map(inputs), figure });
  if (isSheetRefusal(found)) throw new Error(found.refusal);
  return found;
}

function refusal(recipe: string, figure: string, inputs: [string, string][] = []): string {
  const found = explainFigures(samples, { recipe, inputs: new Map(inputs), figure });
  return isSheetRefusal(found) ? found.refusal : "(it was explained)";
}

function texts(figure: ExplainedFigure | undefined): string[] {
  return figure!.lines.map((l) => l.text);
}

describe("a dose", () => {
  // Worked example WE-07-011 (Essential drugs: artesunate injectable, Medecins Sans Frontieres, web edition read 2025): 2.4 mg/kg at
  // 28 kg from 10 mg/mL, in steps of 1 mL upward: 7 mL.
  test("WE-07-011: from weight, rounded up, to the volume", () => {
    const library = wardLibrary({
      stocks: { one: ampoule("10 mg/mL", "20 mL") },
      uses: "one",
      dose: "2.4 mg/kg per flask",
      order: "weight 5 kg to 100 kg\n    round dose upward to 10 mg",
    });
    const [order] = ask(library, "ward-dose", undefined, [["weight", "28kg"]]).orders;
    const figure = (name: string) => order!.figures.find((f) => f.name === name);
    expect(texts(figure("dose"))).toEqual(["2.4 mg/kg × 28 kg = 67.2 mg", "rounded up to the next 10 mg: 70 mg"]);
    expect(figure("dose")!.lines.map((l) => l.origin)).toEqual(["computed", "rounded"]);
    expect(texts(figure("step-1"))).toEqual(["70 mg ÷ 10 mg/mL = 7 mL"]);
    expect(figure("step-1")!.value).toEqual({ number: "7", unit: "mL" });
  });

  test("rounded half up and capped, at the weight asked for", () => {
    const at = (weight: string) =>
      texts(ask(samples, "vancomycin-loading", "dose", [["weight", weight]]).orders[0]!.figures[0]);
    // 25 mg/kg at 65 kg is 1,625 mg, just half way between 1.5 g and 1.75 g.
    expect(at("65kg")).toEqual(["25 mg/kg × 65 kg = 1,625 mg", "rounded half up to the nearest 250 mg: 1,750 mg"]);
    expect(at("95kg").at(-1)).toBe("capped at 2 g");
  });

  test("of a ranged order without a weight: both ends", () => {
    const { orders } = ask(samples, "vancomycin-loading", "dose");
    expect(orders.map((o) => [o.at, o.figures[0]!.text])).toEqual([
      ["weight 40 kg", "1,000 mg"],
      ["weight 120 kg", "2,000 mg"],
    ]);
  });
});

describe("a volume read on a scale", () => {
  test("names the marks and the rounding", () => {
    const text = textsOf("library");
    const file = Object.keys(text).find((f) => f.endsWith("magnesium-4g.misce"))!;
    // 3.83 g of 500 mg/mL is 7.66 mL; a 10 mL syringe is marked every 0.2 mL: 7.6 mL is the nearest mark.
    const library = libraryOf({
      ...text,
      [file]: text[file]!.replace("draw 4 g from mag into syringe", "draw 3.83 g from mag into syringe"),
    });
    const [order] = ask(library, "magnesium-4g", "step-4").orders;
    expect(texts(order!.figures[0])).toEqual([
      "3.83 g = 3,830 mg",
      "3,830 mg ÷ 500 mg/mL = 7.66 mL",
      "rounded half up to the nearest 0.2 mL mark of syringe: 7.6 mL",
    ]);
  });
});

describe("a container", () => {
  const [order] = ask(samples, "magnesium-4g", undefined).orders;
  const figure = (name: string) => order!.figures.find((f) => f.name === name);

  test("after a step, by sum and by quotient", () => {
    expect(texts(figure("after-step-8"))).toContain("bag: 100 mL + 8 mL = 108 mL");
    expect(texts(figure("after-step-8"))).toContain(
      "bag, magnesium-sulfate: 4 g = 4,000 mg; 4,000 mg ÷ 108 mL = 37.04 mg/mL (to four figures)",
    );
  });

  // Worked example WE-05-037 (Sample osmolarity calculations): 1 g of magnesium sulfate heptahydrate, molar mass 246.47 g/mol, valence 2:
  // 8.12 mEq printed (rounded on the way; exact 8.115). Of 4 g: 16.23 mmol, 32.46 mEq.
  test("in mmol and mEq, by molar mass and charge", () => {
    const ion = figure("ion-magnesium")!;
    expect(ion.text).toBe("16.23 mmol, 32.46 mEq");
    expect(texts(ion)[0]).toMatch(/^magnesium-sulfate: 4 g ÷ 246\.4\d* g\/mol = 16\.23 mmol/);
    expect(ion.value).toMatchObject({ number: "16.23", unit: "mmol", exact: expect.stringMatching(/^\d+\/\d+$/) });
  });

  test("its worst case says what moves the dose most", () => {
    const worst = texts(figure("worst-case"));
    // ISO 7886-1:2017, table 1 restated in the reference: 10 mL syringe, at half capacity and above 4 % of the expelled volume: 0.32 mL.
    expect(worst.join("\n")).toMatch(/8 mL on syringe: the syringe may deliver 0\.32 mL more or less \(ISO 7886-1\)/);
    expect(worst.at(-3)).toMatch(/^at least .* below\)$/);
  });
});

describe("refusals", () => {
  test("name what is near, and what the recipe wants", () => {
    expect(refusal("magnesium-4g", "doze")).toMatch(/no figure called "doze"\. Did you mean dose\?/);
    expect(refusal("magnesium-4q", "dose")).toMatch(/No recipe is called "magnesium-4q" here\. Did you mean/);
    expect(refusal("vancomycin-loading", "dose", [["weight", "30kg"]])).toMatch(/lies outside 40 kg to 120 kg/);
    expect(refusal("magnesium-4g", "dose", [["weight", "30kg"]])).toMatch(/does not depend on body weight/);
  });

  test("a recipe whose steps cannot be read says so and tells no content", () => {
    const library = new Library({ asOf });
    library.open("a.misce", "recipe broken {\n  steps {\n    juggle bag\n  }\n}\n");
    const found = ask(library, "broken", undefined);
    expect(found.orders).toEqual([{ at: "", figures: [], isIncomplete: true }]);
  });
});

// Propofol and its emulsion state neither formula nor osmolarity: only the most that its mass can bring is known.
test("where nothing in a container could be counted, no sum of nought is shown", () => {
  const [order] = ask(samples, "propofol-500mg-syringe", "osmolarity").orders;
  const [figure] = order!.figures;
  expect(figure!.text).toMatch(/^at most \d/);
  expect(texts(figure).filter((line) => line.startsWith("0 mOsm"))).toEqual([]);
});
