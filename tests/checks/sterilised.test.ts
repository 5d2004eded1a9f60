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

  const by = (method: string): [string, string] => [sealed, `${sealed}    sterilise bag by ${method}\n`];

  test.each(["steam", "radiation", 'steam "121 C for 15 min"', 'steam "F0 of 8 min at 115 C, load 7"'])(
    "by %s",
    (method) => {
      expect(findingsOf(example(called("terminally-sterilised"), by(method)))).toEqual([]);
    },
  );

  // European Pharmacopoeia 5.1.1, from memory: dry heat is for what holds no water, gas for what it can reach.
  test.each([
    ["dry heat", "which boils a liquid"],
    ["gas", "does not get into the liquid"],
    ['steam "12 C for 15 min"', "with 12 C, and cycles have 105 C to 140 C"],
    ['steam "121 C for 15 s"', "with 15 s, and cycles have 2 min to 3 h"],
  ])("by %s is told", (method, words) => {
    const [found, ...more] = findingsOf(example(called("terminally-sterilised"), by(method)));
    expect(more).toEqual([]);
    expect(found?.name).toBe("sterilising-does-not-fit");
    expect(found?.message).toContain(words);
  });

  test("a protein by steam is told", () => {
    const light = "  light          not-sensitive\n";
    const found = findingsOf(
      example(called("terminally-sterilised"), by("steam"), [light, `${light}  nature         protein\n`]),
    );
    expect(found.map(({ message }) => message)).toEqual([
      "Step 14 sterilises bag by steam, and magnesium-sulfate is a protein, which heat destroys. Filter it and work aseptically.",
    ]);
  });

  test("in the steps and not in the preparation is told", () => {
    for (const sterility of [[], [called("aseptic")]])
      expect(findingsOf(example(...sterility, by("steam"))).map(({ name }) => name)).toEqual([
        "sterilising-does-not-fit",
      ]);
  });

  test("a product as it comes is told", () => {
    const found = findingsOf(example(["    tap mag\n", "    sterilise mag by steam\n    tap mag\n"]));
    expect(found.map(({ message }) => message)).toEqual([
      "Step 2 sterilises mag as it comes from its maker, who has sterilised it. Take the step out.",
    ]);
  });

  test("on the label is laid against the preparation", () => {
    const label = (line: string): [string, string] => [
      "  preparation bag {",
      `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`,
    ];
    const names = (...changes: [string, string][]) => findingsOf(example(...changes)).map(({ name }) => name);
    expect(names(label("Terminally sterilised"))).toEqual(["label-text-contradicts-order"]);
    expect(names(label("Prepared aseptically"))).toEqual([]);
    expect(names(label("Not terminally sterilised"))).toEqual([]);
    expect(names(label("Terminally sterilised"), called("terminally-sterilised"), by("steam"))).toEqual([]);
    expect(names(label("Prepared aseptically"), called("terminally-sterilised"), by("steam"))).toEqual([
      "label-text-contradicts-order",
    ]);
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
