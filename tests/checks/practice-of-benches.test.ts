/**
 * Ways of making and writing that are common at benches, and are no slips: a volume without end stated rounded, a bag brought down to
 * a smaller volume, the whole of a batch in its title; and what is lost where an order says only how fast it is given. Common
 * practice, from memory; labetalol 200 mg in 200 mL as its label makes it (droracle.ai/articles/615149).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const names = (text: string) => findingsOf(text).map((f) => f.name);

/** 4 g of 700 mg/mL are 5.714285… mL, of an unmarked syringe. */
const endless = (claim: string) =>
  `${example(
    ["  strength   500 mg/mL", "  strength   700 mg/mL"],
    ["    syringe      syringe-10mL", "    syringe      unmarked"],
    ["syringe  = 8 mL", `syringe  = ${claim}`],
    ["    concentration  37.04 mg/mL\n", ""],
  )}\ndevice unmarked {\n  kind        syringe\n  capacity    10 mL\n}\n`;

describe("a volume whose decimals have no end", () => {
  it.each(["5.71 mL", "5.714 mL", "5.7143 mL", "5.714286 mL"])("is stated by %s", (claim) => {
    expect(names(endless(claim))).not.toContain("claim-differs");
  });
  it.each(["5.7 mL", "5.72 mL", "5.713 mL", "5.7142 mL", "57.1 mL", "0.571 mL"])("is not stated by %s", (claim) => {
    expect(names(endless(claim))).toContain("claim-differs");
  });
  it("is not what a volume with an end is: 8 mL, and not 7.97 mL or 8.01 mL", () => {
    const changes: [string, string] = ["    syringe      syringe-10mL", "    syringe      unmarked"];
    const device = "\ndevice unmarked {\n  kind        syringe\n  capacity    10 mL\n}\n";
    for (const claim of ["7.97 mL", "8.01 mL"])
      expect(names(example(changes, ["syringe  = 8 mL", `syringe  = ${claim}`]) + device)).toContain("claim-differs");
  });
});

describe("a bag brought down to a smaller volume", () => {
  // 28 mL out, 8 mL in: 80 mL, 50 mg/mL.
  const bag = (order: string) =>
    example(
      ["    method          add-to-bag", `    method          withdraw-first\n${order}`],
      [
        "    filter       filter-needle-5um",
        "    filter       filter-needle-5um\n    waste        syringe-30mL\n    needle-2     needle-18-gauge",
      ],
      [
        "    tap mag\n",
        "    disinfect bag\n    attach needle-2 to waste\n    withdraw 28 mL from bag using waste and discard\n    tap mag\n",
      ],
      ["    concentration  37.04 mg/mL\n", "    concentration  50 mg/mL\n"],
    );
  it("is ordered by its final volume", () => {
    expect(names(bag("    final-volume    80 mL\n".trimEnd()))).toEqual([]);
  });
  it("is another method where the order does not say so", () => {
    expect(names(bag(""))).toContain("method-not-followed");
  });
  it("is held against the volume that is ordered", () => {
    expect(names(bag("    final-volume    100 mL"))).toContain("final-volume-differs");
  });
});

describe("what is given by its rate alone", () => {
  // 108 mL: at 4.3 mL/h 25.1 h, within the site's 5 % of 24 h; at 4.2 mL/h 25.7 h.
  const at = (rate: string, more = "") =>
    names(example(["    infuse-over     4 h", `    infuse-at       ${rate}${more}`]));
  it("is held against the limit of use", () => {
    expect(at("4.3 mL/h")).not.toContain("given-longer-than-kept");
    expect(at("4.2 mL/h")).toContain("given-longer-than-kept");
    expect(at("100 mg/h")).toContain("given-longer-than-kept");
  });
  it("is not where the rate is changed at the bedside", () => {
    expect(at("2 mL/h", "\n    use             titrated")).not.toContain("given-longer-than-kept");
  });
  it("nor where the order states the time, as before", () => {
    expect(names(example(["    infuse-over     4 h", "    infuse-over     40 h"]))).toContain("given-longer-than-kept");
  });
});

describe("a title that names all that a batch makes", () => {
  const batch = (title: string) =>
    names(
      example(
        ["Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL", title],
        ["    method          add-to-bag", "    makes           2 x bag\n    method          add-to-bag"],
      ),
    );
  it("beside what each holds is right", () => {
    expect(batch("Magnesium sulfate 8 g, two bags of 4 g")).not.toContain("title-contradicts-order");
  });
  it("without it, or with another total, is not", () => {
    expect(batch("Magnesium sulfate 8 g in sodium chloride 0.9 %")).toContain("title-contradicts-order");
    expect(batch("Magnesium sulfate 80 g, two bags of 4 g")).toContain("title-contradicts-order");
  });
});

describe("an emulsion through a filter on the line", () => {
  const filter: [string, string] = [
    "    infuse-over     4 h\n",
    "    infuse-over     4 h\n    in-line-filter  1.2 micrometre\n",
  ];
  const drug = "  light          not-sensitive\n";
  it("is told with what its monograph would say", () => {
    const [finding] = findingsOf(example(filter, [drug, `${drug}  nature         emulsion\n`]));
    expect(finding?.message).toContain("`in-line-filter never below 1.2 micrometre`");
  });
  it("is right where the monograph says so", () => {
    const said = `${drug}  nature         emulsion\n  in-line-filter never below 1.2 micrometre  source guide "filters"\n`;
    expect(names(example(filter, [drug, said]))).not.toContain("in-line-filter-forbidden");
  });
});
