/**
 * What cannot be read or is not declared is told once, at its place: what rests on it is not known, which is neither none nor wrong. What
 * a careful colleague would say of each slip: common practice. That such findings keep their grade: always-told.test.ts.
 */
import { describe, expect, test } from "vitest";
import { example, powderExample, standardLibrary } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string): string[] => findingsOf(text).map((f) => f.name);

/** The findings of the recipe's own file, the declaration `head {` being moved into another. */
function besideAnother(text: string, head: string): { name: string; message: string }[] {
  const start = text.indexOf(`${head} {`);
  const end = text.indexOf("\n}\n", start) + 3;
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text.slice(0, start) + text.slice(end));
  library.open("b.misce", text.slice(start, end));
  return library.findings("a.misce");
}

describe("a material that is not declared, or whose line cannot be read", () => {
  const materials = [
    ...["mag          magnesium-ampoule", "bag          saline-bag-100", "syringe      syringe-10mL"],
    ...["filter       filter-needle-5um", "needle       needle-18-gauge"],
  ];
  const ofPowder = [
    ...["vial         vancomycin-vial-500", "wfi          wfi-vial-20", "sack         saline-bag-100"],
    ...["measure      syringe-10mL", "thin         needle-21-gauge"],
  ];
  const all = [
    ...materials.map((line) => ({ line, of: example })),
    ...ofPowder.map((line) => ({ line, of: powderExample })),
  ];

  test.each(all)("$line: the item", ({ line, of }) => {
    const [name = ""] = line.split(" ");
    expect(names(of([`    ${line}\n`, `    ${name}  not-declared\n`]))).toEqual(["unknown-name"]);
  });

  test.each(all)("$line: the line", ({ line, of }) => {
    expect(names(of([`    ${line}\n`, `    ${line} of the good kind\n`]))).toEqual(["fact-not-understood"]);
  });

  test("a part whose name is spelt wrong where it goes on, and right where it comes off", () => {
    expect(names(example(["    attach filter to syringe", "    attach fliter to syringe"]))).toEqual(["unknown-thing"]);
  });

  test("a part that is not known filters perhaps, and is known to be off once it is taken off", () => {
    const filtered: [string, string] = [
      "  light          not-sensitive\n",
      "  light          not-sensitive\n  filter         required up to 5 micrometre\n",
    ];
    const other: [string, string] = ["    filter       filter-needle-5um\n", "    filter       not-declared\n"];
    expect(names(example(filtered, other))).toEqual(["unknown-name"]);
    const bare: [string, string] = ["    replace filter on syringe with needle\n", "    remove filter from syringe\n"];
    expect(names(example(other, bare))).toContain("no-needle-attached");
  });

  test("a filter that is there and comes too late is told as ever", () => {
    const text = example(
      ["    attach filter to syringe\n", "    attach needle to syringe\n"],
      ["    replace filter on syringe with needle\n", ""],
    );
    expect(names(text)).toContain("glass-not-filtered");
  });
});

describe("a stock whose figures cannot be read", () => {
  const byVolume: [string, string] = ["draw 4 g from mag", "draw 8 mL from mag"];
  const inMoles: [string, string] = [
    "    dose            4 g per bag",
    "    dose            16 mmol of magnesium per bag",
  ];
  const cases: [written: string, name: string][] = [
    ["500 mgg/mL", "unknown-unit"],
    ["500", "unit-missing"],
    ["500 mg", "wrong-dimension"],
    ["500 mL/mg", "wrong-dimension"],
    ["500 %", "strength-percent-without-kind"],
    ["of 500 mg/mL", "fact-not-understood"],
  ];

  test.each(cases)("strength %s: the dose that is drawn is not known, and not none", (written, name) => {
    const strength: [string, string] = ["  strength   500 mg/mL", `  strength   ${written}`];
    expect(names(example(strength, byVolume))).toEqual([name]);
    expect(names(example(strength, byVolume, inMoles))).toEqual([name]);
    expect(names(example(strength, ["draw 4 g from mag", "draw dose from mag"], inMoles))).toEqual([name]);
  });

  test("its fill, and the content of a powder", () => {
    expect(names(example(["  fill       10 mL", "  fill       10 mLL"]))).toEqual(["unknown-unit"]);
    expect(names(example(["  fill       100 mL", "  fill       100 mLL"]))).toEqual(["unknown-unit"]);
    expect(names(powderExample(["  content    500 mg", "  content    500 mgg"]))).toEqual(["unknown-unit"]);
  });

  test("in another file the recipe does not look clean", () => {
    const text = example(["  strength   500 mg/mL", "  strength   500 mgg/mL"], byVolume);
    const own = besideAnother(text, "stock magnesium-ampoule");
    expect(own.map((f) => f.name)).toEqual(["amount-not-computable"]);
    expect(own[0]?.message).toContain("a line of stock magnesium-ampoule cannot be read");
  });

  test("a stock that is never drawn from brings none, read or not", () => {
    const text = example(
      ["  strength   500 mg/mL", "  strength   500 mgg/mL"],
      ["    draw 4 g from mag into syringe  = 8 mL\n", ""],
      ["    inject syringe into bag\n", ""],
    );
    expect(names(text)).toContain("dose-not-delivered");
  });
});

describe("a monograph with a line that cannot be read", () => {
  const wrong: [string, string][] = [
    ["  light          not-sensitive", "  light          protect"],
    ["  hazard         not-hazardous", "  hazard         some"],
    ["  high-alert     no", "  high-alert     perhaps"],
    ["  dose           from 500 mg up to 10 g for any route", "  dose           500 mg to 10 g"],
    ["  rate           up to 9 g/h for route intravenous", "  rate           9 g/h"],
  ];

  test.each(wrong)("%s: told there, and once where the recipe stands beside it", (right, written) => {
    expect(names(example([right, written]))).toEqual(["fact-not-understood"]);
  });

  test.each(wrong)("%s: in another file the recipe says it again", (right, written) => {
    const own = besideAnother(example([right, written]), "drug magnesium-sulfate");
    const said = own.find((f) => f.name === "unknown-name");
    expect(said?.message).toContain("cannot be read");
    expect(said?.message).not.toContain("does not state");
  });

  test("one row of several, or what must not be mixed, is missed as much", () => {
    const rows: [string, string][] = [
      [
        "  compatible     sodium-chloride-0.9\n",
        "  compatible     sodium-chloride-0.9\n  incompatible   with glucose\n",
      ],
      [
        "  rate           up to 9 g/h for route intravenous\n",
        "  rate           up to 9 g/h for route intravenous\n  rate           at most 8 g/h\n",
      ],
      ["    at             room-temperature\n", "    at             room\n    at             in a room\n"],
    ];
    for (const row of rows) {
      const own = besideAnother(example(row), "drug magnesium-sulfate");
      expect(own.map((f) => f.name)).toContain("unknown-name");
    }
  });

  test("a monograph that can be read, in another file, is silent", () => {
    expect(besideAnother(standardLibrary, "drug magnesium-sulfate")).toEqual([]);
    expect(besideAnother(standardLibrary, "stock magnesium-ampoule")).toEqual([]);
  });

  test("a fact that nobody wrote is told at the recipe as ever", () => {
    expect(names(example(["  light          not-sensitive\n", ""]))).toEqual(["monograph-incomplete"]);
  });
});

describe("a dose that cannot be known", () => {
  const drawn: [string, string] = ["draw 4 g from mag", "draw dose from mag"];

  test("by a table of bands that nobody declared: the name, and no word on the figure beside the step", () => {
    const banded: [string, string] = ["dose            4 g per bag", "dose            4 g banded by none per bag"];
    expect(names(example(banded, drawn))).toEqual(["unknown-name"]);
    expect(names(example(banded))).toEqual(["unknown-name"]);
  });

  test("by such a table over a range of weights", () => {
    const text = example(
      [
        "    dose            4 g per bag\n",
        "    weight          40 kg to 120 kg in steps of 10 kg\n    dose            50 mg/kg banded by none per bag\n",
      ],
      ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe  = 4 mL to 12 mL"],
      ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
      ["magnesium-4g {", "magnesium-by-weight {"],
    );
    expect(names(text)).toEqual(["unknown-name"]);
  });

  test("by a line or a unit that cannot be read", () => {
    expect(names(example(["dose            4 g per bag", "dose            4 gg per bag"], drawn))).toEqual([
      "unknown-unit",
    ]);
    expect(names(example(["dose            4 g per bag", "dose            about 4 g per bag"], drawn))).toEqual([
      "fact-not-understood",
    ]);
  });

  test("a syringe that is not known for some weights only leaves the figures beside the steps alone", () => {
    const text = example(
      [
        "    dose            4 g per bag\n",
        "    weight          40 kg to 80 kg in steps of 10 kg\n    dose            50 mg/kg per bag\n",
      ],
      ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe  = 4 mL to 8 mL"],
      [
        "    syringe      syringe-10mL\n",
        "    syringe      syringe-10mL when dose up to 3 g\n    syringe      not-declared when dose above 3 g\n",
      ],
    );
    expect(names(text)).toContain("unknown-name");
    expect(names(text)).not.toContain("claim-differs");
  });
});

describe("one filter for several containers", () => {
  const ampoules = (count: string, dose: string, volume: string, strength: string): string =>
    example(
      ["    mag          magnesium-ampoule", `    mag          ${count}magnesium-ampoule`],
      ["4 g per bag", `${dose} g per bag`],
      ["    draw 4 g from mag into syringe  = 8 mL", `    draw ${dose} g from mag into syringe  = ${volume} mL`],
      ["    syringe      syringe-10mL", "    syringe      syringe-30mL"],
      ["concentration  37.04 mg/mL", `concentration  ${strength} mg/mL`],
      ["magnesium-4g {", `magnesium-${dose}g {`],
      ["Magnesium sulfate 4 g", `Magnesium sulfate ${dose} g`],
    );
  const shared = (text: string) => findingsOf(text).filter((f) => f.name === "filter-shared");

  test.each([
    ["2 x ", "10", "20", "83.33", "serves 2 containers"],
    ["3 x ", "14", "28", "109.4", "serves 3 containers"],
    ["", "14", "28", "109.4", "serves 3 containers"],
  ])("%smagnesium-ampoule: all that it serves, told once", (count, dose, volume, strength, words) => {
    const told = shared(ampoules(count, dose, volume, strength));
    expect(told).toHaveLength(1);
    expect(told[0]?.message).toContain(words);
  });
});

describe("hd-cstd: closed transfer devices are recommended while preparing and fit no ampoule (USP <800>, from memory)", () => {
  const hazardous: [string, string][] = [
    [
      '  name           "vancomycin"\n  high-alert     no\n  hazard         not-',
      '  name           "vancomycin"\n  high-alert     no\n  hazard         ',
    ],
    ["  cabinet        horizontal-laminar-flow", "  cabinet        containment-cabinet"],
    ["from vial into measure at equal", "from vial into measure at negative"],
  ];

  test("a vial: one finding for one needle, with all its steps", () => {
    const told = findingsOf(powderExample(...hazardous));
    expect(told.map((f) => f.name)).toEqual(["hazardous-not-closed"]);
    expect(told[0]?.message).toContain("Step 4");
    expect(told[0]?.message).toContain("steps 6 and 9");
  });

  test("the device taken off before the bag is entered", () => {
    const text = powderExample(
      ...hazardous,
      [
        "    thin         needle-21-gauge\n",
        "    thin         needle-21-gauge\n    closed       closed-transfer-device\n",
      ],
      ["    attach thin to measure", "    attach closed to measure"],
      ["    disinfect sack\n", "    replace closed on measure with thin\n    disinfect sack\n"],
      ["    keep vial, wfi, thin,", "    keep vial, wfi, closed, thin,"],
    );
    expect(names(text)).toEqual(["hazardous-not-closed"]);
  });

  test("an ampoule, on which none fits", () => {
    const text = example(
      ["  hazard         not-hazardous", "  hazard         hazardous"],
      ["  cabinet        horizontal-laminar-flow", "  cabinet        containment-cabinet"],
    );
    expect(names(text)).toEqual([]);
  });

  test("air let in through the same needle is told alone, and both where the site keeps that quiet", () => {
    const air = hazardous.slice(0, 2);
    expect(names(powderExample(...air))).toEqual(["hazardous-equal-air"]);
    const graded: [string, string] = [
      "  role           pharmacist\n",
      '  role           pharmacist\n  severity       hazardous-equal-air note\n    because "told on paper"\n',
    ];
    expect(names(powderExample(...air, graded))).toContain("hazardous-not-closed");
  });
});

describe("a filled product that does not say how much it holds, or what", () => {
  test("is not taken for an empty one: nothing is worked out from it, and the recipe says so", () => {
    const found = findingsOf(example(["  fill       100 mL\n  capacity   150 mL", "  capacity   150 mL"]));
    expect(found.map((f) => f.name)).toEqual(["stock-incomplete", "amount-not-computable"]);
    expect(found[1]!.message).toContain("stock saline-bag-100 states no `fill`");
    expect(found[1]!.severity).toBe("error");
  });

  test("nor is one that names neither drug nor fluid", () => {
    const found = findingsOf(example(["  fluid      sodium-chloride-0.9\n", ""]));
    expect(found.map((f) => f.name)).toEqual(["stock-incomplete", "amount-not-computable"]);
    expect(found[1]!.message).toContain("states no `drug` and no `fluid`");
  });
});
