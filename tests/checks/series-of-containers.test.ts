/** A recipe that finishes several containers of different strength: the lines of its label stand on each of them. Common practice. */
import { expect, test } from "vitest";
import { Library } from "../../language/library.ts";
import { readPages } from "../spec/pages.ts";

const page = readPages().find((each) => each.name.startsWith("kinds-of-preparation"))!;
const series = page.cases.find(({ text }) => text.includes("recipe penicillin-series {"))!;
const strong = "  preparation strong {";

function findingsOf(...changes: [string | RegExp, string][]) {
  const text = changes.reduce((now, [from, to]) => now.replace(from, to), series.given + series.text);
  const library = new Library({ asOf: "2026-11-25" });
  library.open("case.misce", text);
  return library.findings("case.misce").filter((f) => f.severity !== "note");
}

const line = (text: string): [string, string] => [strong, `  label-text {\n    line "${text}"\n  }\n\n${strong}`];

test("a strength that fits one of them alone is told", () => {
  const found = findingsOf(line("Benzylpenicillin 10,000 units/mL"));
  expect(found.map((f) => f.name)).toEqual(["label-text-contradicts-order"]);
  expect(found[0]?.message).toContain(
    "says 10,000 units/mL; the recipe says 1,000 units/mL in weak, whose label bears",
  );
});

test.each(["Strong 10,000 units/mL", "10,000 units/mL and 1,000 units/mL", "For test doses only"])(
  "%s is not",
  (text) => {
    expect(findingsOf(line(text))).toEqual([]);
  },
);

test("a container whose preparation is missing is told once, however often it is ordered", () => {
  const found = findingsOf([/\n {2}preparation weak \{[\s\S]*?\n {2}\}\n/, "\n"]);
  expect(found.filter((f) => f.name === "ordered-container-not-finished")).toHaveLength(1);
});
