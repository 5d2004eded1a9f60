/** What a preparation says of its sterility beside what the steps show. Common practice. */
import { describe, expect, test } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const appearance = "    appearance ";
const called = (sterility: string): [string, string] => [appearance, `    sterility      ${sterility}\n${appearance}`];
const sealed = "    seal bag\n";
const step = "    sterilise bag by steam\n";

describe("terminally sterilised", () => {
  test("without a step is told, with the step that says it", () => {
    const [found, ...more] = findingsOf(example(called("terminally-sterilised")));
    expect(more).toEqual([]);
    expect(found?.name).toBe("sterilising-not-shown");
    expect(found?.message).toContain("Add `sterilise bag by steam`");
  });

  test.each(["steam", "dry heat", "gas", "radiation", 'steam "121 C for 15 min"'])("by %s", (method) => {
    const steps: [string, string] = [sealed, `${sealed}    sterilise bag by ${method}\n`];
    expect(findingsOf(example(called("terminally-sterilised"), steps))).toEqual([]);
  });

  test("before it is filled or sealed is no terminal sterilising", () => {
    const before: [string, string] = ["    disinfect bag\n", `${step}    disinfect bag\n`];
    const [filled] = findingsOf(example(called("terminally-sterilised"), before));
    expect(filled?.message).toMatch(/^Step 9 sterilises bag, and step 11 puts more into it only afterwards\./);
    const open: [string, string] = [sealed, `${step}${sealed}`];
    const [closed] = findingsOf(example(called("terminally-sterilised"), open));
    expect(closed?.message).toContain("and step 14 closes it only afterwards");
  });
});

describe("aseptic", () => {
  test("from sterile products needs no step", () => {
    expect(findingsOf(example(called("aseptic")))).toEqual([]);
  });

  test("from nonsterile components is told where nothing is filtered", () => {
    const found = findingsOf(
      powderExample([
        "    form           solution-for-infusion\n    concentration  4.55",
        "    form           solution-for-infusion\n    sterility      aseptic untested nonsterile-components\n    concentration  4.55",
      ]),
    );
    expect(found.map((f) => f.name)).toContain("sterilising-not-shown");
    expect(found.find((f) => f.name === "sterilising-not-shown")?.message).toContain(
      "a filter of 0.22 micrometre or finer",
    );
  });
});
