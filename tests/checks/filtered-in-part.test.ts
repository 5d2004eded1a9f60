/** A drug that has to be filtered, of which a part reaches the finished container by a way without a filter. Figures are invented. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

type Change = [string, string];

// What a product's label says of a filter holds for the whole dose and not for a part of it (common practice).
const required: Change = [
  "  dose           from 500 mg up to 10 g for any route\n",
  "  dose           from 500 mg up to 10 g for any route\n  filter         required up to 5 micrometre\n",
];
/** 2 g drawn by one syringe and 2 g by another, each with a part of its own. */
const inTwo = (one: string, other: string): Change[] => [
  ["    mag          magnesium-ampoule\n", "    mag          magnesium-vial\n"],
  [
    "stock saline-bag-100 {",
    "stock magnesium-vial {\n  drug       magnesium-sulfate\n  container  vial\n  strength   500 mg/mL\n  fill       10 mL\n  doses      single\n  storage    room-temperature\n}\n\nstock saline-bag-100 {",
  ],
  ["lots saline-bag-100 {", 'lots magnesium-vial {\n  lot "KQ-2299"  expires 2027-04\n}\n\nlots saline-bag-100 {'],
  ["    tap mag\n", ""],
  ["    open mag\n", ""],
  ["    filter       filter-needle-5um\n", "    filter       filter-needle-5um\n    second       syringe-10mL\n"],
  ["    needle       needle-18-gauge\n", "    needle       needle-18-gauge\n    plain        needle-18-gauge\n"],
  ["    attach filter to syringe\n", `    attach ${one} to syringe\n    attach ${other} to second\n`],
  [
    "    draw 4 g from mag into syringe  = 8 mL\n    expel air from syringe\n    replace filter on syringe with needle\n",
    "    draw 2 g from mag into syringe at equal pressure  = 4 mL\n    expel air from syringe\n    draw 2 g from mag into second at equal pressure  = 4 mL\n    expel air from second\n",
  ],
  [
    "    inject syringe into bag\n    mix bag by inverting 10 times\n",
    "    inject syringe into bag\n    mix bag by inverting 10 times\n    disinfect bag\n    inject second into bag\n    mix bag by inverting 10 times\n",
  ],
  ["keep mag, filter, needle, syringe for check", "keep mag, filter, needle, plain, syringe, second for check"],
];
const told = (...changes: Change[]) =>
  findingsOf(example(required, ...changes)).filter(({ name }) => name === "filter-required-missing");

describe("a filter that the drug needs", () => {
  it("is missing where a part of the drug goes past it", () => {
    expect(told(...inTwo("filter", "plain")).map(({ message }) => message)).toEqual([
      "magnesium-sulfate has to pass a filter of 5 micrometre or finer while it is made; not all of what bag holds passes one with a known pore. Add the filter and the step that uses it.",
    ]);
    expect(told(...inTwo("plain", "filter"))).toHaveLength(1);
  });

  it("is there where each part passes one of its own", () => {
    const both: Change = ["    plain        needle-18-gauge\n", "    plain        filter-needle-5um\n"];
    const changes = inTwo("filter", "plain").map(
      ([from, to]): Change => [from, to.replace("    plain        needle-18-gauge\n", both[1])],
    );
    expect(told(...changes)).toEqual([]);
  });

  it("is missing where nothing passes one, and where what it passes is too coarse", () => {
    expect(told(...inTwo("needle", "plain")).map(({ message }) => message)[0]).toContain(
      "it passes none with a known pore",
    );
    const finer: Change = [
      "filter         required up to 5 micrometre",
      "filter         required up to 1.2 micrometre",
    ];
    const [finding] = findingsOf(example([required[0], required[1].replace(...finer)]));
    expect(finding?.message).toContain("the finest that all of it passes has 5 micrometre");
  });

  it("is counted where it was passed before a dilution", () => {
    // Drawn through the filter and pushed by a plain needle: the filter of the draw is the filter.
    expect(findingsOf(example(required))).toEqual([]);
  });
});
