/** A word of the language with a slip of the finger in it: one finding, and a fix that gives back the text as it was. Slips invented. */
import { expect, test } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const drawn = "draw 4 g from mag into syringe  = 8 mL";

test.each([
  ["10 times", "10 tmes"],
  ["by inverting", "by inverrting"],
  ["draw 4 g from", "draw 4 g frm"],
  ["attach filter to", "attach filter ot"],
  ["for check", "for chekc"],
  ["peripheral\n", "periferal\n"],
  ["add-to-bag", "add-to-bga"],
  ["4 g per bag", "4 g pre bag"],
  ["24 h at room", "24 h ta room"],
])("%s written as %s", (right, wrong) => {
  const text = standardLibrary.replaceAll(right, wrong);
  const slips = standardLibrary.split(right).length - 1;
  expect(slips).toBeGreaterThan(0);
  const found = findingsOf(text).filter((f) => f.fixes.some((fix) => fix.title === `Write ${meant(right, wrong)}`));
  expect(found).toHaveLength(slips);
  expect(put(text, found)).toBe(standardLibrary);
});

test("a phrase with a slip in it, before a figure that is claimed", () => {
  const right = standardLibrary.replace(drawn, "draw 4 g from mag into syringe at equal pressure  = 8 mL");
  for (const wrong of ["equal pressue", "equla pressure"]) {
    const text = right.replace("equal pressure", wrong);
    const found = findingsOf(text).filter((f) => f.name === "step-not-understood");
    expect(found[0]!.message).toContain("Write `equal pressure`.");
    expect(put(text, found)).toBe(right);
  }
});

test("what is missing before a claimed figure is named, and nothing is to be left out", () => {
  const [found] = findingsOf(standardLibrary.replace(drawn, "draw 4 g from mag into syringe at = 8 mL"));
  expect(found!.name).toBe("step-not-understood");
  expect(found!.message).toContain("The line ends where `equal pressure`, `negative pressure` belongs.");
});

test("a unit behind a number that no word is near to stays one", () => {
  const text = standardLibrary.replace("for            24 h", "for            24 huors");
  expect(findingsOf(text).map((f) => f.name)).toContain("unknown-unit");
});

/** The word in which the two differ, as it is right. */
function meant(right: string, wrong: string): string {
  const words = wrong.trim().split(" ");
  return right
    .trim()
    .split(" ")
    .find((word, i) => word !== words[i])!;
}

function put(text: string, findings: ReturnType<typeof findingsOf>): string {
  const edits = findings.flatMap((f) => f.fixes[0]!.edits).sort((a, b) => b.span.start - a.span.start);
  return edits.reduce((now, e) => now.slice(0, e.span.start) + e.text + now.slice(e.span.end), text);
}
