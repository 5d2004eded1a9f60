import { expect, test } from "vitest";
import { changedLines } from "../../client/cli/changed-lines.ts";
import { doseNotDelivered } from "../../language/checks/volumes/dose-not-delivered.ts";

const before = `
site {
  name  "Kestrel Quay Infirmary"
}

recipe a {
  one
  two
  three
  four
  five
  six
}
`;

test("a line that is wrong stands beside the right one, under the head of its declaration", () => {
  expect(changedLines(before, before.replace("five", "5"))).toBe(
    [
      "      recipe a {",
      "        ...",
      "        two",
      "        three",
      "        four",
      "    -   five",
      "    +   5",
      "        six",
      "      }",
    ].join("\n"),
  );
});

test("a line that is missing is shown where it belongs, and the head is not said twice", () => {
  expect(changedLines(before, before.replace("  one\n", "  nought\n  one\n"))).toBe(
    ["      }", "", "      recipe a {", "    +   nought", "        one", "        two", "        three"].join("\n"),
  );
});

test("what is shown of an example are the lines that differ, and few others", () => {
  const { bad, good } = doseNotDelivered;
  const shown = changedLines(bad, good);
  const of = (sign: string) =>
    shown
      .split("\n")
      .filter((line) => line.startsWith(`    ${sign} `))
      .map((line) => line.slice(6));
  expect(of("-").every((line) => bad.includes(line) && !good.includes(line))).toBe(true);
  expect(of("+").every((line) => good.includes(line) && !bad.includes(line))).toBe(true);
  expect(of("-").join("\n")).toContain("dose            5 g per bag");
  expect(shown.split("\n").length).toBeLessThan(30);
});
