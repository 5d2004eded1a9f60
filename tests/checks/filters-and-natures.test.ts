/**
 * Droplets and particles are held back by fine filters: lipid emulsions take 1.2 micrometre, filters of 0.2 micrometre are for clear
 * solutions, and liposomal amphotericin B takes 1 micrometre or more (product labels, from memory). Magnesium sulfate stands in for them.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";
const line = "    infuse-over     4 h\n";
const named = (name: string): [string, string] => ["magnesium sulfate heptahydrate", name];
const facts = (...stated: string[]): [string, string] => [
  dose,
  `${dose}${stated.map((each) => `  ${each}\n`).join("")}`,
];
const through = (pore: string): [string, string] => [line, `${line}    in-line-filter  ${pore} micrometre\n`];
const about = (text: string) =>
  findingsOf(text)
    .filter(({ name }) => /filter|nature/.test(name) && name !== "form-contradicts-nature")
    .map(({ name }) => name);
const liposomal = named("magnesium sulfate liposomal");

describe("a line filter of 0.2 micrometre", () => {
  it("is told for what is liposomal by its name alone", () => {
    expect(about(example(liposomal, through("0.2")))).toEqual(
      expect.arrayContaining(["in-line-filter-forbidden", "nature-contradicts-name"]),
    );
  });

  it("is told where the monograph asks for a coarser one", () => {
    const asks = facts(
      "nature emulsion",
      "filter never below 1.2 micrometre",
      "in-line-filter required up to 1.2 micrometre",
    );
    expect(about(example(asks, through("0.2")))).toEqual(["in-line-filter-forbidden"]);
    expect(about(example(asks, through("1.2")))).toEqual([]);
    const alone = facts("nature emulsion", "in-line-filter required up to 1.2 micrometre");
    expect(about(example(alone, through("0.2")))).toContain("in-line-filter-forbidden");
  });

  it("is right for a solution", () => {
    expect(about(example(through("0.2")))).toEqual([]);
  });
});

describe("a filter on the syringe", () => {
  it("is held against what the line must not have", () => {
    // The needle that draws has 5 micrometre.
    expect(about(example(facts("in-line-filter never below 10 micrometre")))).toEqual(["filter-forbidden"]);
    expect(about(example(facts("in-line-filter never")))).toEqual([]);
  });
});

describe("a monograph", () => {
  it("does not let droplets pass a sterilising filter", () => {
    for (const fact of ["filter never below 0.2 micrometre", "in-line-filter never below 0.22 micrometre"])
      expect(about(example(facts("nature emulsion", "filter never below 1.2 micrometre", fact)))).toContain(
        "filter-contradicts-nature",
      );
  });

  it.each(["suspension", "emulsion", "lipid-complex", "protein"])("of `nature %s` says enough", (nature) => {
    expect(about(example(liposomal, facts(`nature ${nature}`, "filter never below 1 micrometre")))).toEqual([]);
  });

  it("of a name that says nothing needs no nature", () => {
    expect(about(example(named("magnesium sulfate, lipid-soluble")))).toEqual([]);
  });
});
