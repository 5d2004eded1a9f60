/**
 * A powder that is dissolved in two steps, water drawn and then pushed onto it, is the powder that `reconstitute` gives. Drawn through a
 * filter needle and pushed through a plain one is how water from a glass ampoule reaches a vial: common practice, from memory. The figures
 * are those of the label in `powderExample`: 500 mg, 10 mL of water, 50 mg/mL.
 */
import { expect, it } from "vitest";
import { explainFigures } from "../../language/answers/explain.ts";
import { powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { findingsOf } from "../checks/findings-of.ts";

const reconstitute = "    reconstitute vial with 10 mL from wfi using measure at equal pressure\n";
const inTwoSteps = (draw: string, push: string) =>
  powderExample([reconstitute, `    draw ${draw}\n    expel air from measure\n    ${push}\n`]);
const names = (text: string) => findingsOf(text).map((f) => f.name);

it("is as good as in one", () => {
  expect(names(powderExample())).toEqual([]);
  const drawn = "10 mL from wfi into measure at equal pressure";
  expect(names(inTwoSteps(drawn, "inject measure into vial at equal pressure"))).toEqual([]);
  expect(names(inTwoSteps(drawn, "inject 10 mL from measure into vial at equal pressure"))).toEqual([]);
  expect(
    names(powderExample([reconstitute, "    add 10 mL from wfi to vial using measure at equal pressure\n"])),
  ).toEqual([]);
});

it("is worked out with the room that the powder takes up", () => {
  // 500 mg at 50 mg/mL are 10 mL, 0.4 mL more than the 9.6 mL that go in.
  const draw = "9.6 mL from wfi into measure at equal pressure";
  const text = inTwoSteps(draw, "inject measure into vial at equal pressure").replace(
    "with          10 mL of water",
    "with          9.6 mL of water",
  );
  expect(names(text)).toEqual([]);
  const library = new Library({ asOf: "2026-11-25" });
  library.open("powder.misce", text);
  const figures = explainFigures(library, { recipe: "vancomycin-500mg", inputs: new Map(), figure: "after-step-6" });
  expect(JSON.stringify(figures)).toContain("vial: 0 mL + 9.6 mL + 0.4 mL taken up by the powder = 10 mL");
});

it("is told where it is done otherwise than the label says", () => {
  const less = inTwoSteps("8 mL from wfi into measure at equal pressure", "inject measure into vial at equal pressure");
  expect(names(less)).toContain("reconstituted-otherwise");
  const saline = inTwoSteps("10 mL from sack into measure", "inject measure into vial at equal pressure");
  expect(names(saline)).toContain("reconstituted-with-other-fluid");
});

it("leaves the vial under pressure where no air gets out", () => {
  const closed = inTwoSteps("10 mL from wfi into measure at equal pressure", "inject measure into vial");
  expect(names(closed)).toEqual(["vial-under-pressure"]);
});

it("is drawn from only once it is dissolved", () => {
  const undissolved = inTwoSteps(
    "10 mL from wfi into measure at equal pressure",
    "inject measure into vial at equal pressure",
  ).replace("    swirl vial until dissolved\n", "");
  expect(names(undissolved)).toContain("drawn-before-dissolved");
});
