/**
 * Rows of an order and of a monograph that hold for some patients only, and what is said of a whole range. Each turning point is
 * worked out by hand beside it; the figures of the drug are those of the standard example, which are invented.
 */
import { describe, expect, it } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { bandsExample } from "../../language/checks/units/band-rows.ts";
import { Library } from "../../language/library.ts";

/** 500 mg/mL into 100 mL, no scale on the syringe, so that what is drawn is what is asked for. */
function ordered(order: string, ...changes: [string, string][]): string {
  const device = "\ndevice unmarked {\n  kind        syringe\n  capacity    60 mL\n}\n";
  let text = standardLibrary
    .replace(/ {4}dose {12}4 g per bag\n/, order)
    .replace("draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe")
    .replace("    concentration  37.04 mg/mL\n", "")
    .replace("magnesium-4g {", "magnesium-by-weight {")
    .replace("Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL", "Magnesium sulfate in sodium chloride 0.9 %")
    .replace("  strength   500 mg/mL", "  strength   500 mg/mL\n  one-filter-for  400  source guide")
    .replace("    syringe      syringe-10mL", "    syringe      unmarked");
  for (const [from, to] of changes) {
    if (text.split(from).length !== 2) throw new Error(`not just once: ${from}`);
    text = text.replace(from, to);
  }
  return text + device;
}

function told(text: string): { name: string; message: string; severity: string }[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("range.misce", text);
  return library.findings("range.misce");
}

function messages(text: string, name: string): string[] {
  return told(text)
    .filter((f) => f.name === name)
    .map((f) => f.message);
}

const weight = (range: string) => `    weight          ${range}\n`;
const dose = (text: string) => `    dose            ${text}\n`;
const window = "from 500 mg up to 10 g";
const over = "    infuse-over     4 h\n";
const rate = "up to 9 g/h for route intravenous";

describe("a row of the order that holds for some patients only", () => {
  it.each([
    // 50 mg/kg capped at 1 g below 50 kg: from 50 kg on 2.5 g, above the window of 2 g.
    [`${dose("50 mg/kg per bag")}    maximum         dose 1 g  when weight below 50 kg\n`, "weight 50 kg to 80 kg"],
    // A second cap of 3 g from 50 kg on does not bring it down to 2 g.
    [
      dose("50 mg/kg per bag") +
        "    maximum         dose 1 g  when weight below 50 kg\n    maximum         dose 3 g  when weight from 50 kg\n",
      "weight 50 kg to 80 kg",
    ],
    // 20 mg/kg below 50 kg is at most 1 g; 50 mg/kg from 50 kg on is 2.5 g.
    [
      dose("20 mg/kg per bag  when weight below 50 kg") + dose("50 mg/kg per bag  when weight from 50 kg"),
      "weight 50 kg to 80 kg",
    ],
    // To the nearest gram only from 50 kg on; before that 50 mg/kg passes 2 g at 40 kg.
    [
      `${dose("50 mg/kg per bag")}    round           dose to nearest 1 g  when weight from 50 kg\n`,
      "weight above 40 kg up to 80 kg",
    ],
  ])("counts for those alone: %s", (order, where) => {
    const text = ordered(weight("20 kg to 80 kg") + order, [window, "up to 2 g"]);
    expect(messages(text, "dose-outside-window")).toEqual([expect.stringContaining(`so for ${where}, and not for`)]);
  });

  it("sets the time it is given over", () => {
    // Above 2 g (40 kg) it is given in one hour: 2 g/h and more, above 1.4 g/h. Below, in two hours, at most 1 g/h.
    const rows = "    infuse-over     2 h  when dose up to 2 g\n    infuse-over     1 h  when dose above 2 g\n";
    const text = ordered(
      weight("20 kg to 60 kg") + dose("50 mg/kg per bag"),
      [over, rows],
      [rate, rate.replace("9", "1.4")],
    );
    expect(messages(text, "rate-above-limit")).toEqual([
      expect.stringContaining("so for weight above 40 kg up to 60 kg, and not for weight 20 kg to 40 kg"),
    ]);
  });

  it("sets the rate it is given at", () => {
    // 4 g in 108 mL are 37.04 mg/mL: 10 mL/h give 370 mg/h, 50 mL/h give 1.85 g/h.
    const rows =
      "    infuse-at       10 mL/h  when weight up to 40 kg\n    infuse-at       50 mL/h  when weight above 40 kg\n";
    const text = ordered(
      weight("20 kg to 60 kg") + dose("4 g per bag"),
      [over, rows],
      [rate, rate.replace("9", "1.4")],
    );
    expect(messages(text, "rate-above-limit")).toEqual([
      expect.stringContaining("so for weight above 40 kg up to 60 kg, and not for weight 20 kg to 40 kg"),
    ]);
  });

  it("sets the method", () => {
    const rows =
      "    method          add-to-bag  when dose up to 2 g\n    method          withdraw-first  when dose above 2 g\n";
    const text = ordered(weight("20 kg to 60 kg") + dose("50 mg/kg per bag"), [
      "    method          add-to-bag\n",
      rows,
    ]);
    expect(messages(text, "method-not-followed")).toEqual([
      expect.stringContaining("so for weight above 40 kg up to 60 kg, and not for weight 20 kg to 40 kg"),
    ]);
  });

  it("leaves no patient without a dose, and none with two", () => {
    const gap = ordered(weight("20 kg to 60 kg") + dose("2 g per bag  when weight from 40 kg"));
    expect(messages(gap, "order-row-does-not-hold")).toEqual([
      expect.stringContaining("so for weight from 20 kg to below 40 kg, and not for weight 40 kg to 60 kg"),
    ]);
    const caps =
      "    maximum         dose 1 g  when weight up to 40 kg\n    maximum         dose 3 g  when weight from 40 kg\n";
    const twice = ordered(weight("20 kg to 60 kg") + dose("50 mg/kg per bag") + caps);
    expect(messages(twice, "order-row-does-not-hold")).toEqual([
      expect.stringMatching(/2 rows of `maximum` hold.*so for weight 40 kg, and not for/),
    ]);
  });

  it("may not ask for the dose that follows from it", () => {
    const text = ordered(
      `${weight("20 kg to 60 kg") + dose("50 mg/kg per bag")}    maximum         dose 1 g  when dose above 2 g\n`,
    );
    expect(messages(text, "condition-not-followed")).toEqual([expect.stringContaining("cannot ask for the dose")]);
  });
});

describe("what is ordered and stated for some patients only", () => {
  const alone = weight("20 kg to 60 kg") + dose("50 mg/kg per bag");
  const stated = "    use-within     24 h at room-temperature\n";

  it("an additive, whose steps reach further than its line", () => {
    const text = ordered(
      `${weight("20 kg to 60 kg")}    additive        magnesium-sulfate 50 mg/kg per bag  when weight from 30 kg\n`,
    ).replace("    drug            magnesium-sulfate\n", "");
    // No dose is drawn where none is ordered, which is told at the step.
    expect(messages(text.replace("draw dose", "draw 2 g"), "additive-not-ordered-here")).toEqual([
      expect.stringContaining("so for weight from 20 kg to below 30 kg, and not for weight 30 kg to 60 kg"),
    ]);
  });

  it("two additives of a drug that both hold", () => {
    const rows =
      "    additive        magnesium-sulfate 2 g per bag  when weight up to 40 kg\n    additive        magnesium-sulfate 3 g per bag  when weight from 40 kg\n";
    const text = ordered(weight("20 kg to 60 kg") + rows).replace("    drug            magnesium-sulfate\n", "");
    expect(messages(text, "order-row-does-not-hold")).toEqual([
      expect.stringMatching(/2 rows of `additive` hold.*so for weight 40 kg, and not for/),
    ]);
  });

  it("an additive may not ask for the dose", () => {
    const row = "    additive        magnesium-sulfate 2 g per bag  when dose up to 2 g\n";
    const text = ordered(row).replace("    drug            magnesium-sulfate\n", "");
    expect(messages(text, "condition-not-followed")).toEqual([expect.stringContaining("cannot ask for the dose")]);
  });

  it("the vein, and the limit that goes by it", () => {
    // c = 50w / (100 + 0.1w): 12 mg/mL at 1200/48.8 = 24.590…; from 30 kg on it goes into a central vein.
    const text = ordered(
      alone,
      [
        "    access          peripheral\n",
        "    access          peripheral  when weight below 30 kg\n    access          central     when weight from 30 kg\n",
      ],
      [
        "up to 200 mg/mL for route intravenous\n",
        "up to 12 mg/mL for route intravenous access peripheral\n  concentration  up to 200 mg/mL for route intravenous access central\n",
      ],
    );
    expect(messages(text, "concentration-above-limit")).toEqual([
      expect.stringContaining("so for weight above 24.590163 kg to below 30 kg, and not for"),
    ]);
  });

  it("a vein that nobody states for some", () => {
    const text = ordered(alone, [
      "    access          peripheral\n",
      "    access          peripheral  when weight below 30 kg\n",
    ]);
    expect(messages(text, "order-row-does-not-hold")).toEqual([
      expect.stringMatching(/no row of `access` holds.*so for weight 30 kg to 60 kg, and not for/),
    ]);
  });

  it("the volume that a preparation states", () => {
    // 100 mL and 0.1 mL for each kg: 102 mL at 20 kg, 106 mL at 60 kg; whole mL from 101.5 mL to below 102.5 mL and so on.
    const text = ordered(alone, [
      stated,
      `${stated}    volume         102 mL  when weight below 25 kg\n    volume         106 mL  when weight from 25 kg\n`,
    ]);
    expect(messages(text, "stated-volume-differs")).toEqual([
      expect.stringContaining(
        "so for weight from 25 kg to below 55 kg, and not for weight from 20 kg to below 25 kg and 55 kg to 60 kg",
      ),
    ]);
  });

  it("a limit of use that some lack", () => {
    const text = ordered(alone, [stated, stated.replace("\n", "  when weight below 40 kg\n")]);
    expect(messages(text, "use-within-missing")).toEqual([
      expect.stringMatching(/no row of `use-within` holds here.*so for weight 40 kg to 60 kg, and not for/),
    ]);
  });

  it("a strength that holds for some alone", () => {
    // 1 g in 102 mL at 20 kg, which is not what 60 kg get.
    const steps = weight("20 kg to 60 kg in steps of 1 kg") + dose("50 mg/kg per bag");
    const row = (when: string) => `${stated}    concentration  9.804 mg/mL  when weight ${when}\n`;
    expect(messages(ordered(steps, [stated, row("up to 20 kg")]), "concentration-differs")).toEqual([]);
    expect(messages(ordered(steps, [stated, row("from 50 kg")]), "concentration-differs")).toEqual([
      expect.stringContaining("so for weight 50 kg to 60 kg, and not for weight 20 kg to 49 kg"),
    ]);
  });
});

describe("a dose by AUC", () => {
  const formula: [string, string] = [
    "  rate           up to 9 g/h",
    "  dose-by-auc    calvert\n  rate           up to 9 g/h",
  ];
  const clearance = (range: string) => `    clearance       ${range}\n`;

  it("is decided for every clearance", () => {
    // 10 × (GFR + 25) mg: 1.2 g at 95 mL/min.
    const text = ordered(clearance("30 mL/min to 125 mL/min") + dose("10 AUC per bag"), formula, [
      "  dose           from 500 mg up to 10 g for any route",
      "  dose           from 500 mg up to 1.2 g for any route",
    ]);
    expect(messages(text, "dose-outside-window")).toEqual([
      expect.stringContaining(
        "so for clearance above 95 mL/min up to 125 mL/min, and not for clearance 30 mL/min to 95 mL/min",
      ),
    ]);
  });

  it("is told once where the clearance is lacking, or the formula", () => {
    expect(messages(ordered(dose("10 AUC per bag"), formula), "per-kg-without-weight")).toHaveLength(1);
    const noFormula = told(ordered(dose("10 AUC per bag"))).map((f) => f.name);
    expect(noFormula).toContain("auc-formula-not-declared");
    expect(noFormula).not.toContain("per-kg-without-weight");
  });

  it("is never made from a clearance in another dimension", () => {
    const text = ordered(clearance("90 mL") + dose("10 AUC per bag"), formula);
    expect(messages(text, "wrong-dimension")).toHaveLength(1);
    expect(told(text).some((f) => f.name === "dose-outside-window")).toBe(false);
  });

  it("is told where the cap hides it for everybody", () => {
    const capped = (auc: string) =>
      ordered(
        `${clearance("30 mL/min to 125 mL/min")}${dose(`${auc} AUC per bag`)}    maximum         dose 1 g\n`,
        formula,
      );
    expect(messages(capped("10"), "bound-always-reached")).toEqual([]);
    expect(messages(capped("100"), "bound-always-reached")).toEqual([expect.stringContaining("5.5 g at the least")]);
  });
});

describe("a condition that cannot be laid against the order", () => {
  const weighed = weight("20 kg to 60 kg");

  it.each([
    [
      "a figure that nobody states",
      dose("50 mg/kg per bag  when age up to 3 years"),
      "asks for the age, and the order states none",
    ],
  ])("is told once: %s", (_, line, words) => {
    expect(messages(ordered(weighed + line), "condition-not-judged")).toEqual([
      expect.stringMatching(new RegExp(`${words}.*So for every order`)),
    ]);
  });

  it("is told where it asks for what no order states, in order and monograph", () => {
    const text = ordered(weighed + dose("50 mg/kg per bag  when wieght up to 60 kg"), [
      "up to 200 mg/mL for route intravenous\n",
      "up to 200 mg/mL for route intravenous  when hieght up to 2 m\n",
    ]);
    expect(messages(text, "condition-word-unknown")).toEqual([
      expect.stringContaining("`hieght`. A condition asks for weight"),
      expect.stringContaining("`wieght`. A condition asks for weight"),
    ]);
  });

  it("is told at a material, and where units differ", () => {
    const laidOut = ordered(weighed + dose("50 mg/kg per bag"), [
      "saline-bag-100\n",
      "saline-bag-100  when dose up to 3 L\n",
    ]);
    expect(messages(laidOut, "condition-not-judged")).toEqual([
      expect.stringContaining("against 3 L: the two measure"),
    ]);
  });
});

describe("a row of the monograph that holds for some patients only", () => {
  it("limits the concentration for those", () => {
    // c = 50w / (100 + 0.1w): 12 mg/mL at 1200/48.8 = 24.590…, 20 mg/mL at 2000/48 = 41.666….
    const rows =
      "up to 12 mg/mL for route intravenous  when weight below 40 kg\n  concentration  up to 20 mg/mL for route intravenous  when weight from 40 kg";
    const text = ordered(weight("20 kg to 60 kg") + dose("50 mg/kg per bag"), [
      "up to 200 mg/mL for route intravenous",
      rows,
    ]);
    expect(messages(text, "concentration-above-limit")).toEqual([
      expect.stringContaining("so for weight above 24.590163 kg to below 40 kg and above 41.666666 kg up to 60 kg"),
    ]);
  });

  it("limits the rate for those", () => {
    // 50 mg/kg over 4 h pass 400 mg/h at 32 kg; from 40 kg on 9 g/h are allowed.
    const rows = `${rate.replace("9 g/h", "400 mg/h")}  when weight below 40 kg\n  rate           ${rate}  when weight from 40 kg`;
    const text = ordered(weight("20 kg to 60 kg") + dose("50 mg/kg per bag"), [rate, rows]);
    expect(messages(text, "rate-above-limit")).toEqual([
      expect.stringContaining("so for weight above 32 kg to below 40 kg, and not for"),
    ]);
  });
});

it.each([
  ["    route           intravenous\n", "    route           intravenous  when dose up to 2 g\n"],
  ["    form           solution-for-infusion\n", "    form           solution-for-infusion  when weight below 40 kg\n"],
  ["  strength   500 mg/mL\n", "  strength   500 mg/mL  when weight below 40 kg\n"],
  ["    for            24 h\n", "    for            24 h  when weight below 40 kg\n"],
])("a condition where none is followed is told: %s", (from, to) => {
  const text = ordered(weight("20 kg to 60 kg") + dose("50 mg/kg per bag"), [from, to]);
  expect(messages(text, "condition-not-followed")).toHaveLength(1);
});

it.each([
  ["    additive        magnesium-sulfate 50 mg/kg per bag\n", "an additive"],
  ["    concentration   20 mg/mL\n    final-volume    100 mL\n", "a strength"],
])("a cap of the dose beside %s is told, since nothing is capped", (order) => {
  let text = ordered(`${weight("20 kg to 80 kg")}${order}    maximum         dose 1 g\n`);
  if (order.includes("additive")) text = text.replace("    drug            magnesium-sulfate\n", "");
  expect(messages(text, "dose-rule-not-applied")).toEqual([expect.stringContaining("which states none")]);
});

describe("what is said of a whole range", () => {
  it("is safe only where it was decided", () => {
    // 0.1 mL/kg on marks of 0.015 mL: almost each 0.1 kg is a piece of its own, more than are judged.
    const text = ordered(
      weight("20 kg to 80 kg in steps of 0.1 kg") + dose("50 mg/kg per bag"),
      ["    syringe      unmarked", "    syringe      fine"],
      ["up to 200 mg/mL", "up to 16 mg/mL"],
    );
    const fine = `${text}\ndevice fine {\n  kind        syringe\n  capacity    10 mL\n  graduation  0.015 mL\n}\n`;
    const library = new Library({ asOf: "2026-11-25" });
    library.open("range.misce", fine);
    const findings = library.findings("range.misce");
    const open = /Not decided for weight (.*?): it falls/.exec(
      findings.find((f) => f.name === "range-not-decided")!.message,
    )![1]!;
    // 16 mg/mL is passed at 1600/48.4 = 33.06 kg: no message may call any undecided weight safe or wrong.
    const { overRange } = findings.find((f) => f.name === "concentration-above-limit")!;
    const inside = (words: string) =>
      [...words.matchAll(/([\d.]+) kg(?: to ([\d.]+) kg)?/g)].map((m) => [Number(m[1]), Number(m[2] ?? m[1])] as const);
    const apart = (a: readonly [number, number], b: readonly [number, number]) => a[1] < b[0] || b[1] < a[0];
    for (const stretch of inside(open)) {
      for (const other of [...inside(overRange!.fails), ...inside(overRange!.holds)]) {
        expect(apart(stretch, other), `${stretch} and ${other}`).toBe(true);
      }
    }
    expect(overRange!.fails).not.toBe("every order");
  });

  it("rounds no end towards the unsafe side", () => {
    // From 20 mg/mL on: 50w / (100 + 0.1w) = 20 at 2000/48 = 41.666…; 41.666666 kg still fails, 41.666667 kg holds.
    const text = ordered(weight("40 kg to 80 kg") + dose("50 mg/kg per bag"), [
      "up to 200 mg/mL",
      "from 20 mg/mL up to 200 mg/mL",
    ]);
    expect(messages(text, "concentration-below-limit")).toEqual([
      expect.stringContaining(
        "so for weight from 40 kg to below 41.666667 kg, and not for weight 41.666667 kg to 80 kg",
      ),
    ]);
    const at = (value: string) =>
      messages(
        ordered(weight(value) + dose("50 mg/kg per bag"), ["up to 200 mg/mL", "from 20 mg/mL up to 200 mg/mL"]),
        "concentration-below-limit",
      ).length;
    expect([at("41.666666 kg"), at("41.666667 kg")]).toEqual([1, 0]);
  });

  it("takes the least and the most of a step from the corners of several inputs", () => {
    const inputs = `${weight("40 kg to 80 kg")}    age             2 years to 10 years\n`;
    const draw = (claim: string) =>
      ordered(inputs + dose("50 mg/kg per bag"), [
        "draw dose from mag into syringe",
        `draw dose from mag into syringe  = ${claim}`,
      ]);
    // 0.1 mL/kg: 4 mL at 40 kg, 8 mL at 80 kg.
    expect(messages(draw("4 mL to 8 mL"), "claim-differs")).toEqual([]);
    expect(messages(draw("4 mL to 7.9 mL"), "claim-differs")).toEqual([
      expect.stringContaining("the step moves 4 mL to 8 mL"),
    ]);
  });

  it("takes the most of a step also where no patient reaches it", () => {
    // Below 60 kg less than 6 mL, as near to it as one likes.
    const steps = [
      "only when weight below 60 kg {",
      "      draw dose from mag into syringe  = 4 mL to 6 mL",
      "    }",
      "    only when weight from 60 kg {",
      "      draw dose from mag into syringe  = 6 mL to 8 mL",
      "    }",
    ].join("\n");
    const text = ordered(weight("40 kg to 80 kg") + dose("50 mg/kg per bag"), [
      "draw dose from mag into syringe",
      steps,
    ]);
    expect(messages(text, "claim-differs")).toEqual([]);
    expect(messages(text.replace("= 4 mL to 6 mL", "= 4 mL to 5.9 mL"), "claim-differs")).toHaveLength(1);
  });

  it("counts the overfill of a bag against what it can hold", () => {
    // 100 mL and at most 9 mL of overfill and 0.1 mL/kg pass 115 mL at 60 kg; by the label alone 150 kg would.
    const text = ordered(weight("40 kg to 80 kg") + dose("50 mg/kg per bag"), [
      "  capacity   150 mL",
      '  capacity   115 mL\n  overfill   5 mL to 9 mL  source guide "bags"',
    ]);
    expect(messages(text, "container-overfilled")).toEqual([
      expect.stringMatching(
        /with its overfill.*so for weight above 60 kg up to 80 kg, and not for weight 40 kg to 60 kg/,
      ),
    ]);
  });

  it("tells once at which order a dose can miss most", () => {
    // The tolerance of the syringe weighs most in the smallest draw, 1 mL at 10 kg.
    const text = ordered(
      weight("10 kg to 100 kg in steps of 10 kg") + dose("50 mg/kg per bag"),
      ["    syringe      unmarked", "    syringe      syringe-10mL"],
      ["  tolerance      dose 5 %\n", "  tolerance      dose 5 %\n  tolerance      worst-case 8 %\n"],
    );
    expect(messages(text, "dose-can-miss")).toEqual([expect.stringContaining("Worst for weight 10 kg")]);
  });

  it("says of a dose between the bands what the bands are", () => {
    const text = bandsExample(
      [
        "    dose            4 g per bag",
        "    weight          40 kg to 120 kg\n    dose            50 mg/kg banded by magnesium-bands per bag",
      ],
      ["draw 4 g from mag", "draw dose from mag"],
      ["  from  3 g below 4 g gives 3.5 g\n", ""],
    );
    // Without the band of 3 g: 60 kg to below 80 kg, and from 100 kg on (5 g) above the last.
    expect(messages(text, "dose-outside-bands")).toEqual([
      expect.stringContaining("so for weight from 60 kg to below 80 kg and 100 kg to 120 kg"),
    ]);
    expect(messages(text, "figure-not-known")).toEqual([]);
  });

  it("needs no piece for each mark of a syringe that the steps are in tune with", () => {
    const pieces = (perKilogram: string) => {
      const library = new Library({ asOf: "2026-11-25" });
      const order = weight("40 kg to 80 kg in steps of 2 kg") + dose(`${perKilogram} per bag`);
      library.open("range.misce", ordered(order, ["    syringe      unmarked", "    syringe      syringe-10mL"]));
      library.findings("range.misce");
      return library.ranges("range.misce")[0]!.pieces;
    };
    // On marks of 0.2 mL: 50 mg/kg of 500 mg/mL are 0.2 mL for each 2 kg, all on a mark; 60 mg/kg are 0.24 mL, on a mark now and then.
    expect(pieces("50 mg/kg")).toBeLessThan(5);
    expect(pieces("60 mg/kg")).toBeGreaterThan(15);
  });

  it("needs no piece for each step of a pump that is fine enough", () => {
    // 108 mL over 4 h are 27 mL/h: half a step of 0.1 mL/h is 0.2 %, and every rounding of it was a piece.
    const library = new Library({ asOf: "2026-11-25" });
    library.open("range.misce", ordered(weight("40 kg to 80 kg") + dose("50 mg/kg per bag")));
    library.findings("range.misce");
    expect(library.ranges("range.misce")[0]!.pieces).toBeLessThan(5);
  });
});
