/** What an author states and the tool must hold against what it derives. Outside figures name their source beside them. */
import { afterEach, describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { checkByName } from "../../language/checks/registry.ts";
import { dilutionExample } from "../../language/checks/technique/intermediates.ts";
import { Library } from "../../language/library.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string, asOf?: string) => findingsOf(text, asOf).map((f) => (f.silenced ? `(${f.name})` : f.name));
const said = (text: string) => findingsOf(text).map((f) => f.message);

const dose = "    dose            4 g per bag\n";
const title: [string, string] = ['"Magnesium sulfate 4 g in', '"Magnesium sulfate in'];
const before = "  preparation bag {";

describe("an order by concentration and final volume", () => {
  const ordered = (strength: string) =>
    example([dose, `    concentration   ${strength}\n    final-volume    108 mL\n`], title);

  it("is silent where the steps deliver it", () => {
    expect(names(ordered("37 mg/mL"))).toEqual([]);
  });
  it("is told where they do not: 50 mg/mL in 108 mL is 5.4 g, and 4 g is drawn", () => {
    expect(said(ordered("50 mg/mL"))[0]).toMatch(/asks for 5\.4 g of magnesium-sulfate; the steps bring 4 g/);
    expect(names(ordered("50 mg/mL"))).toEqual(["dose-not-delivered"]);
  });
  it("gives a dose that a step may draw", () => {
    const text = example(
      [dose, "    concentration   37.5 mg/mL\n    final-volume    108 mL\n"],
      title,
      ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe  = 8.2 mL"],
      ["concentration  37.04 mg/mL", "concentration  37.89 mg/mL"],
    );
    // 37.5 mg/mL × 108 mL = 4.05 g = 8.1 mL, which no mark of a 10 mL syringe shows: read at 8.2 mL.
    expect(names(text)).toContain("not-on-graduation");
    expect(names(text)).not.toContain("claim-differs");
  });
});

describe("a dose per time", () => {
  const perTime = (text: string) => example(["dose            4 g per bag", `dose            ${text}`]);

  it("is held against the time that the bag is given over: 24 g per 24 h is 4 g in a bag of 4 h", () => {
    expect(names(perTime("24 g per 24 h"))).not.toContain("dose-not-delivered");
    expect(said(perTime("12 g per 24 h")).join()).toMatch(/which is 2 g of .* bring 4 g/);
  });
});

describe("salt and base", () => {
  // Ketamine: 115.33 mg of the hydrochloride is 100 mg of the base (limits eq-ket).
  const ketamine = (stock: string, order: string) =>
    example(
      [
        "  light          not-sensitive\n",
        "  light          not-sensitive\n  counted-as     base\n  salt           hydrochloride 115.33 mg for 100 mg\n",
      ],
      ["  drug       magnesium-sulfate\n", `  drug       magnesium-sulfate${stock}\n`],
      ["    drug            magnesium-sulfate\n", `    drug            magnesium-sulfate${order}\n`],
    );

  it("converts an order in base and a stock in salt through the declared fact", () => {
    // 500 mg/mL of salt is 433.5 mg/mL of base: 8 mL hold 3.468 g, 13.3 % less than 4 g.
    const text = ketamine(" as hydrochloride", " as base").replace("draw 4 g from", "draw 4 g as hydrochloride from");
    expect(said(text).join()).toMatch(
      /asks for 4 g of magnesium-sulfate; the steps bring 3\.468 g .*13\.3 % too little/,
    );
  });
  it("takes both in the same form as they stand", () => {
    const text = ketamine(" as hydrochloride", " as hydrochloride")
      .replace("draw 4 g from", "draw 4 g as hydrochloride from")
      .replace("37.04 mg/mL", "32.12 mg/mL")
      .replace("Magnesium sulfate 4 g in", "Magnesium sulfate 4 g as hydrochloride in");
    // 4 g of hydrochloride is 3.468 g of base in 108 mL: 32.11 mg/mL counted as base.
    expect(names(text.replace("32.12", "32.11"))).toEqual([]);
    expect(names(text)).toEqual(["concentration-differs"]);
  });
  it("refuses a form that the drug does not declare", () => {
    expect(
      names(example(["  drug       magnesium-sulfate\n", "  drug       magnesium-sulfate as hydrochloride\n"])),
    ).toContain("salt-not-known");
    expect(names(example(["dose            4 g per bag", "dose            4 g as hydrochloride per bag"]))).toEqual([
      "salt-not-known",
    ]);
  });
  it("reads what a powder gives in the form of its content", () => {
    const text = powderExample(
      [
        '  name           "vancomycin"\n',
        '  name           "vancomycin"\n  counted-as     base\n  salt           hydrochloride 110 mg for 100 mg\n',
      ],
      ["  content    500 mg\n", "  content    500 mg as hydrochloride\n"],
      ["dose            500 mg per sack", "dose            500 mg as hydrochloride per sack"],
      ["draw 500 mg from vial", "draw 500 mg as hydrochloride from vial"],
      ["4.55 mg/mL", "4.13 mg/mL"],
      ["Vancomycin 500 mg in", "Vancomycin 500 mg as hydrochloride in"],
    );
    expect(names(text)).toEqual([]);
  });
});

describe("deviations", () => {
  const unfiltered: [string, string][] = [
    ["    attach filter to syringe\n", "    attach needle to syringe\n"],
    ["    replace filter on syringe with needle\n", ""],
    ["    filter       filter-needle-5um\n", ""],
    ["keep mag, filter, needle", "keep mag, needle"],
  ];
  const deviation = (until: string): [string, string] => [
    before,
    `  deviation glass-not-filtered on bag\n    because "form KQ-118"\n    by aseptic-lead\n    until ${until}\n\n${before}`,
  ];

  it("silence what they name, on their last day still", () => {
    expect(names(example(...unfiltered, deviation("2026-11-25")))).toEqual(["(glass-not-filtered)"]);
  });
  it("silence nothing once lapsed, and both are told", () => {
    expect(names(example(...unfiltered, deviation("2026-11-24"))).sort()).toEqual([
      "deviation-lapsed",
      "glass-not-filtered",
    ]);
  });
  it("silence nothing that the site never lets be silenced", () => {
    const text = example(...unfiltered, deviation("2027-03-31"), [
      "  role           pharmacist\n",
      "  role           pharmacist\n  never-silenced  glass-not-filtered\n",
    ]);
    expect(names(text).sort()).toEqual(["deviation-not-allowed", "glass-not-filtered"]);
  });
  it("are told where what they name is not there", () => {
    expect(names(example(deviation("2027-03-31")))).toEqual(["deviation-unused"]);
  });
});

describe("a check that stops in the middle", () => {
  const check = checkByName.get("dose-not-delivered")!;
  const { find } = check;
  afterEach(() => {
    check.find = find;
  });
  const stopped = () => {
    check.find = () => {
      throw new Error("a division by zero");
    };
  };

  it("is told, says that the result is not complete, and leaves the other checks their word", () => {
    stopped();
    const found = findingsOf(example(["= 8 mL", "= 0.8 mL"]));
    expect(found.map((f) => f.name).sort()).toEqual(["check-failed", "claim-differs"]);
    const failed = found.find((f) => f.name === "check-failed");
    expect(failed?.message).toMatch(/`dose-not-delivered`.*division by zero.*not complete/);
    expect(failed?.severity).toBe("error");
    expect(failed?.anchor).toBe("recipe magnesium-4g {");
  });
  it("cannot be switched off or silenced", () => {
    stopped();
    const text = example(
      [
        "  role           pharmacist\n",
        '  role           pharmacist\n  severity       check-failed off  because "quiet"\n',
      ],
      [before, `  deviation check-failed\n    because "quiet"\n    by aseptic-lead\n    until 2027-03-31\n\n${before}`],
    );
    const failed = findingsOf(text).find((f) => f.name === "check-failed");
    expect(failed && !failed.silenced && failed.severity).toBe("error");
  });
});

describe("an inventory export", () => {
  const inventory = (csv: string) => {
    const library = new Library({ asOf: "2026-11-25" });
    library.open("example.misce", example());
    library.openInventory("shelf.csv", csv);
    return library.findings("shelf.csv");
  };

  it("is silent where every row is read and its stock declared", () => {
    expect(inventory("stock,lot,expires\nmagnesium-ampoule,KQ-9001,2027-04-30\n")).toEqual([]);
  });
  it("says which row is not used, and where", () => {
    const csv = "stock,lot,expires\nmagnesium-ampoule,KQ-9001,soon\n";
    const [found, ...more] = inventory(csv);
    expect(more).toEqual([]);
    expect(found?.name).toBe("inventory-row-not-used");
    expect(csv.slice(found!.span.start, found!.span.end)).toBe("magnesium-ampoule,KQ-9001,soon");
  });
  it("says which stock is not declared, and what may have been meant", () => {
    const [found] = inventory("stock,lot,expires\nmagnesium-ampule,KQ-9001,2027-04-30\n");
    expect(found?.name).toBe("inventory-stock-unknown");
    expect(found?.message).toMatch(/`magnesium-ampule`.*Did you mean `magnesium-ampoule`/);
  });
});

describe("worked examples", () => {
  const worked = (lines: string, ...changes: [string, string][]) =>
    example(...changes, [before, `  example "as drawn" {\n${lines}  }\n\n${before}`]);

  it.each([
    ["expect  dose 4 g", []],
    ["expect  dose 4000 mg", ["thousands-not-grouped"]],
    ["expect  dose 4.1 g", ["example-differs"]],
    ["expect  draw from mag 7.9 mL", ["example-differs"]],
    ["expect  draw from mga 8 mL", ["example-differs"]],
    ["expect  concentration 37 mg/mL", []],
    ["expect  concentration 37.1 mg/mL", ["example-differs"]],
    ["expect  2 x mag", ["example-differs"]],
    ["expect  no finding", []],
    ["expect  finding syringe-too-full", ["example-finding-differs"]],
    ["weight  60 kg\n    expect  dose 4 g", ["example-outside-order"]],
  ])("%s", (line, wanted) => {
    expect(names(worked(`    ${line}\n`))).toEqual(wanted);
  });

  it("an expected finding is looked for at the example's own figures", () => {
    const expected = worked("    expect  finding claim-differs\n", ["= 8 mL", "= 0.8 mL"]);
    expect(names(expected)).toEqual(["claim-differs"]);
  });
});

describe("figures beside a step", () => {
  it.each([
    ["giving 37.04 mg/mL", []],
    ["giving 37 mg/mL", []], // 37.037 rounds to 37.0 at three digits
    ["giving 37.1 mg/mL", ["held-after-step-differs"]],
    ["giving 108 mL", []],
    ["giving 4 g", []],
    ["giving 4.1 g", ["held-after-step-differs"]],
    ["leaving 0.5 mL", ["held-after-step-differs"]],
  ])("inject … %s", (claim, wanted) => {
    expect(names(example(["    inject syringe into bag\n", `    inject syringe into bag  ${claim}\n`]))).toEqual(
      wanted,
    );
  });
  it("speak of the moment of the step, not of the end", () => {
    // 250 mg/mL stands in the working syringe when it is made up; it is discarded later.
    expect(names(dilutionExample())).toEqual([]);
    expect(names(dilutionExample(["giving 250 mg/mL", "giving 200 mg/mL"]))).toEqual(["held-after-step-differs"]);
  });
});

describe("nominal concentrations", () => {
  // Vasopressin 20 units in 21 mL is called 1 unit/mL and is 0.952 (limits nominal-vs-true-vaso); here 37.04 mg/mL.
  it.each([
    ["40 mg/mL", []],
    ["37 mg/mL", []],
    ["38 mg/mL", ["nominal-concentration-differs"]],
    ["400 mg/mL", ["nominal-concentration-differs"]],
  ])("%s", (nominal, wanted) => {
    const stated = "    concentration  37.04 mg/mL\n";
    expect(names(example([stated, `${stated}    nominal-concentration  ${nominal}\n`]))).toEqual(wanted);
  });
});
