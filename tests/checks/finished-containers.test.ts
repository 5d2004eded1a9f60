/** What is seen of a finished container: its needle, its labels, its form; and a lot whose year is mistyped. Common practice, from memory. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { needleLeftOnSyringe } from "../../language/checks/technique/needle-left-on-syringe.ts";
import { findingsOf } from "./findings-of.ts";

const told = (name: string, text: string, asOf?: string) =>
  findingsOf(text, asOf)
    .filter((f) => f.name === name)
    .map((f) => f.message);

describe("a syringe that is issued", () => {
  const { bad, good } = needleLeftOnSyringe;
  const left = (text: string) => told("needle-left-on-syringe", text);
  it("is closed with a cap, and no needle", () => {
    expect(left(bad)).toEqual([
      "dose-syringe is finished with needle-2 on it. Close it with a cap: `replace needle-2 on dose-syringe with` and a cap from the materials.",
    ]);
    expect(left(good)).toEqual([]);
  });
  it("is not judged where a step that may take the needle off cannot be read", () => {
    expect(
      left(bad.replace("    inspect dose-syringe\n", "    replace needle-2 by something\n    inspect dose-syringe\n")),
    ).toEqual([]);
  });
  it("is another than the one that only fills the bag", () => {
    expect(left(example())).toEqual([]);
  });
});

describe("a label", () => {
  const twice = (steps: string) => told("labelled-twice", example(["    label bag\n", steps]));
  it("is put on once", () => {
    expect(twice("    label bag\n    inspect bag\n    label bag\n")).toEqual([
      "Step 16 labels bag, which carries the label of step 14 already. Label it once, when it is finished.",
    ]);
    expect(twice("    label bag\n")).toEqual([]);
  });
  it("stands again on the cover that hides it", () => {
    expect(twice("    label bag\n    protect bag from light\n    label bag\n")).toEqual([]);
    expect(twice("    protect bag from light\n    label bag\n    label bag\n")).toHaveLength(1);
  });
  it("that came too early is told as that, and the right one is no second", () => {
    const early = example(["    disinfect bag\n", "    label bag\n    disinfect bag\n"]);
    expect(findingsOf(early).map((f) => f.name)).toEqual(["labelled-before-filled"]);
  });
});

describe("a form", () => {
  const form = (nature: string, name: string) =>
    told(
      "form-contradicts-nature",
      example(
        [
          "  light          not-sensitive\n",
          `  light          not-sensitive\n${nature ? `  nature         ${nature}\n` : ""}`,
        ],
        ["form           solution-for-infusion", `form           ${name}`],
      ),
    );
  it.each([
    ["emulsion", "solution-for-infusion", "Write emulsion-for-infusion"],
    ["suspension", "solution-for-injection", "Write suspension-for-injection"],
    ["suspension", "emulsion-for-infusion", "Write suspension-for-infusion"],
    ["lipid-complex", "emulsion-for-infusion", "Write the form that its label states"],
    ["solution", "emulsion-for-infusion", "Write solution-for-infusion"],
    ["protein", "suspension-for-injection", "Write solution-for-injection"],
  ])("of %s is no %s", (nature, name, remedy) => {
    expect(form(nature, name).join()).toContain(remedy);
  });
  it.each([
    ["emulsion", "emulsion-for-infusion"],
    ["protein", "solution-for-infusion"],
    ["lipid-complex", "suspension-for-infusion"],
    ["lipid-complex", "solution-for-infusion"],
    ["emulsion", "reservoir-for-pump"],
    // What the monograph does not say is not known.
    ["", "emulsion-for-infusion"],
  ])("of %s may be %s", (nature, name) => {
    expect(form(nature, name)).toEqual([]);
  });
});

describe("the year of a lot", () => {
  const lot = (expires: string, asOf: string) =>
    told("lot-expiry-unlikely", example(["expires 2027-04\n", `expires ${expires}\n`]), asOf);
  it("is a slip more than ten years ahead", () => {
    expect(lot("2036-11-25", "2026-11-25")).toEqual([]);
    expect(lot("2036-11-26", "2026-11-25")).toEqual([
      "Lot KQ-2291 of magnesium-ampoule is said to expire 2036-11-26, more than 10 years after 2026-11-25. Read the date on the pack again and correct the year.",
    ]);
    expect(lot("2072-04", "2026-11-25")).toHaveLength(1);
    expect(lot("2034-02", "2024-02-29")).toEqual([]);
  });
});
