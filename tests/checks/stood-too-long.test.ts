/**
 * An opened or dissolved product that is kept or stands for longer than its label or its monograph lets it: in the stock's own limit after
 * opening, and in what the steps say of waiting and dissolving. Common practice but for what each check names.
 */
import { describe, expect, test } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { solutionRow } from "../../language/checks/stability/once-opened.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string): string[] => findingsOf(text).map((f) => f.name);
const vial = "  content    500 mg\n  doses      single\n";
const opened = (doses: string, time: string): [string, string] => [
  vial,
  `  content    500 mg\n  doses      ${doses}\n  in-use     ${time}  source guide "vancomycin"\n`,
];
const swirled = "    swirl vial until dissolved\n";

describe("a single-dose container with a limit after opening", () => {
  test.each(["28 days", "7 days", "25 h"])("%s is told", (time) => {
    const [found, ...more] = findingsOf(powderExample(opened("single", time)));
    expect(more).toEqual([]);
    expect(found?.name).toBe("opened-container-limit");
    expect(found?.message).toContain(`single-dose container with an in-use limit of ${time}`);
  });

  test.each(["24 h", "6 h"])("%s is not", (time) => {
    expect(names(powderExample(opened("single", time)))).toEqual([]);
  });

  test("a multiple-dose container keeps its 28 days, and a bag that leaves its wrap opens nothing", () => {
    expect(names(powderExample(opened("multiple", "28 days")))).toEqual([]);
    const bag = "  capacity   150 mL\n";
    expect(names(example([bag, `${bag}  in-use     30 days  source guide "fluids"\n`]))).toEqual([]);
  });
});

describe("a limit after opening beside the row of the dissolved powder", () => {
  test("longer than the row is told, and the row's own time is not", () => {
    const at = (time: string) => names(powderExample(solutionRow("24 h"), opened("multiple", time)));
    expect(at("36 h at refrigerator")).toEqual(["in-use-longer-than-stability"]);
    expect(at("36 h")).toEqual(["in-use-longer-than-stability"]);
    expect(at("24 h at refrigerator")).toEqual([]);
  });

  test("a row for another place or fluid says nothing of it", () => {
    const row = ([from, to]: [string, string], word: string, other: string): [string, string] => [
      from,
      to.replace(word, other),
    ];
    const limit = opened("multiple", "36 h at refrigerator");
    const place = row(solutionRow("24 h"), "at             any", "at             room-temperature");
    expect(names(powderExample(place, limit))).toEqual([]);
    const fluid = row(solutionRow("24 h"), "in             water", "in             sodium-chloride-0.9 #");
    expect(names(powderExample(fluid, limit))).toEqual([]);
  });
});

describe("what the steps let stand", () => {
  const steps = [
    `${swirled}    wait 36 h\n`,
    "    dissolve vial up to 36 h\n",
    "    swirl vial until dissolved up to 36 h\n",
    `${swirled}    wait 20 h\n    wait 16 h\n`,
  ];

  test.each(steps)("longer than the dissolved powder keeps: %j", (step) => {
    const [found, ...more] = findingsOf(powderExample(solutionRow("24 h"), [swirled, step]));
    expect(more).toEqual([]);
    expect(found?.name).toBe("stood-longer-than-stable");
    expect(found?.message).toContain("dissolved in step 4 and then stands for 36 h");
  });

  test("longer than any study of the drug, where none is of the dissolved powder or none was dissolved", () => {
    expect(names(powderExample([swirled, steps[0]!]))).toEqual(["stood-longer-than-stable"]);
    const air = "    expel air from syringe\n";
    expect(names(example([air, `${air}    wait 36 h\n`]))).toEqual(["stood-longer-than-stable"]);
  });

  test("minutes, and hours that a row allows, are not told", () => {
    expect(names(powderExample(solutionRow("48 h"), [swirled, steps[0]!]))).toEqual([]);
    expect(names(powderExample(solutionRow("24 h"), [swirled, "    dissolve vial up to 20 min\n"]))).toEqual([]);
    expect(names(powderExample(solutionRow("24 h"), [swirled, `    wait 2 min\n${swirled}`]))).toEqual([]);
  });

  test("waiting that the finished container's own row counts is told there alone", () => {
    const fromPowder: [string, string] = [
      "    counted-from   mixing\n    for            24 h\n  }\n}\n\nfluid water",
      "    counted-from   reconstitution\n    for            24 h\n  }\n}\n\nfluid water",
    ];
    const [found, ...more] = findingsOf(powderExample(fromPowder, [swirled, steps[0]!]));
    expect(more).toEqual([]);
    expect(found?.name).toBe("use-within-longer-than-stability");
    expect(found?.message).toContain("Shorten the waiting");
  });
});

test("a powder that takes hours to dissolve is told as a slip of the time", () => {
  const longer = (time: string) =>
    names(powderExample(solutionRow("48 h"), [swirled, `    swirl vial until dissolved up to ${time}\n`]));
  expect(longer("10 h")).toEqual(["mixing-times-unlikely"]);
  expect(longer("1 h")).toEqual([]);
});

test("a line of the label that lets a solution keep for longer than the preparation", () => {
  const line = (text: string): [string, string] => [
    "  preparation sack {",
    `  label-text {\n    line "${text}"\n  }\n\n  preparation sack {`,
  ];
  expect(names(powderExample(line("The solution keeps 3 days")))).toEqual(["label-text-contradicts-order"]);
  expect(names(powderExample(line("Stable for 36 h")))).toEqual(["label-text-contradicts-order"]);
  expect(names(powderExample(line("Stable for 24 h")))).toEqual([]);
});

describe("a product that is entered again", () => {
  const draw = "    draw 500 mg from vial into measure at equal pressure  = 10 mL\n";
  const later = (time: string): [string, string] => [draw, `    wait ${time}\n    disinfect vial\n${draw}`];
  const about = (text: string) => findingsOf(text).filter(({ name }) => name === "opened-too-long");

  test("is laid against its own limit", () => {
    const [found, ...more] = about(powderExample(opened("multiple", "6 h"), later("8 h")));
    expect(more).toEqual([]);
    expect(found?.message).toContain(
      "which step 4 opened. The steps wait 8 h between, and once opened it serves for 6 h",
    );
    expect(about(powderExample(opened("multiple", "6 h"), later("6 h")))).toEqual([]);
  });

  // USP <797> 2023, single-dose containers in air of ISO class 5: 12 h, from memory (beyond-use-dates.json, usp23-sdv-iso5).
  test("is laid against the site's table where it says nothing", () => {
    expect(about(powderExample(later("13 h")))).toHaveLength(1);
    expect(about(powderExample(later("12 h")))).toEqual([]);
  });

  test("an ampoule is not kept, and its own work may take a while", () => {
    const drawn = "    draw 4 g from mag into syringe  = 8 mL\n";
    const second = (time: string): [string, string] => [
      drawn,
      `    draw 2 g from mag into syringe  = 4 mL\n    wait ${time}\n    draw 2 g from mag into syringe  = 4 mL\n`,
    ];
    expect(about(example(second("2 h")))[0]?.message).toContain("what is left in an opened ampoule is not kept");
    expect(about(example(second("10 min")))).toEqual([]);
  });
});

describe("a multiple-dose container without preservative", () => {
  const unpreserved = (time: string): [string, string] => [
    vial,
    `  content    500 mg\n  doses      multiple\n  preservative none\n  in-use     ${time}  source guide "vancomycin"\n`,
  ];

  test("keeps no longer than a single-dose one", () => {
    const [found, ...more] = findingsOf(powderExample(unpreserved("28 days")));
    expect(more).toEqual([]);
    expect(found?.message).toContain("holds no preservative and has an in-use limit of 28 days");
    expect(names(powderExample(unpreserved("24 h")))).toEqual([]);
  });
});
