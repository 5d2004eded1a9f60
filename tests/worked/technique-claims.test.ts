/**
 * Rules of technique whose wording says more than the one bad example of the check that claims them: each further part is tried
 * here. Row ids as in tests/reference/practice/technique-rules.json, which carries the sources.
 */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

function found(text: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("claims.misce", text);
  return library.findings("claims.misce").map((f) => f.name);
}

function severityOf(text: string, name: string): string | undefined {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("claims.misce", text);
  return library.findings("claims.misce").find((f) => f.name === name)?.severity;
}

type Change = [string, string];
const filterIn: Change = ["    attach filter to syringe\n", "    attach needle to syringe\n"];
const filterOut: Change = [
  "    replace filter on syringe with needle\n",
  "    replace needle on syringe with filter\n",
];
const noFilter: Change = ["    replace filter on syringe with needle\n", ""];

describe("amp-filter-either-side", () => {
  it("takes the filter on the way in as well as on the way out", () => {
    expect(found(example())).toEqual([]);
    expect(found(example(filterIn, filterOut))).toEqual([]);
  });
  it("refuses the same filter both ways, and no filter at all", () => {
    expect(found(example(noFilter))).toContain("filter-used-both-ways");
    expect(
      found(
        example(
          filterIn,
          noFilter,
          ["    filter       filter-needle-5um\n", ""],
          ["mag, filter, needle", "mag, needle"],
        ),
      ),
    ).toContain("glass-not-filtered");
  });
});

it("amp-filter-evidence-mixed: the site may grade a missing filter lower", () => {
  const bare: Change[] = [
    filterIn,
    noFilter,
    ["    filter       filter-needle-5um\n", ""],
    ["mag, filter, needle", "mag, needle"],
  ];
  const lower: Change = [
    "  role           pharmacist\n",
    '  role           pharmacist\n  severity       glass-not-filtered warning\n    because "two bench studies differ"\n',
  ];
  expect(severityOf(example(...bare), "glass-not-filtered")).toBe("error");
  expect(severityOf(example(...bare, lower), "glass-not-filtered")).toBe("warning");
});

describe("mix-after-each: before the next addition, drawing, labelling and sealing", () => {
  it("labelling and sealing", () => {
    expect(found(example(["    mix bag by inverting 10 times\n", ""]))).toContain("left-unmixed");
  });
});

describe("vial-disinfect-dry and port-disinfect-dry", () => {
  it("a vial's stopper", () => {
    expect(found(powderExample(["    disinfect wfi, vial\n", "    disinfect wfi\n"]))).toContain(
      "entry-not-disinfected",
    );
  });
  it("a bag's port", () => {
    expect(found(example(["    disinfect bag\n", ""]))).toContain("entry-not-disinfected");
  });
});

describe("powder-displacement", () => {
  const label =
    '  reconstitute {\n    source        guide "vancomycin"\n    with          10 mL of water-for-injection\n    gives         50 mg/mL\n    withdrawable  10 mL\n  }\n';
  it("a label's strength stands for it; without one the volume of the powder has to be stated", () => {
    expect(found(powderExample([label, ""]))).toContain("displacement-ignored");
    expect(found(powderExample([label, '  displacement  0.3 mL  source guide "vancomycin"\n']))).not.toContain(
      "displacement-ignored",
    );
  });
});

describe("additive-volume-method", () => {
  it("has to be said, and done as said", () => {
    expect(found(example(["    method          add-to-bag\n", ""]))).toContain("method-not-said");
    expect(found(example(["method          add-to-bag", "method          withdraw-first"]))).toContain(
      "method-not-followed",
    );
  });
});

it("hd-not-horizontal and hd-negative-pressure: a hazardous vial in horizontal flow with equal air", () => {
  const hazardous = powderExample([
    '"vancomycin"\n  high-alert     no\n  hazard         not-hazardous',
    '"vancomycin"\n  high-alert     no\n  hazard         hazardous',
  ]);
  expect(found(hazardous)).toEqual(expect.arrayContaining(["hazardous-in-horizontal-flow", "hazardous-equal-air"]));
});

it("sdv-single: the caution stands with the step that pools", async () => {
  const { pool } = await import("../../language/bench/verbs/pool.ts");
  expect(pool.cautions.flatMap((c) => c.rows ?? [])).toContain("sdv-single");
});
