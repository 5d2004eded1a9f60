/**
 * To spine, brain and newborns no preservative may go: benzyl alcohol in bacteriostatic fluids killed newborns, and preserved products are
 * labelled against intrathecal and epidural use (labels of bacteriostatic sodium chloride, from memory).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const about = (text: string) => findingsOf(text).filter(({ name }) => /^p(?:reservative|opulation)-/.test(name));
const names = (text: string) => about(text).map(({ name }) => name);

const vein = "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n";
const dose = "  dose           from 500 mg up to 10 g for any route\n";
const spine: [string, string][] = [
  [vein, "    route           intrathecal\n"],
  [dose, `${dose}  dose           up to 4 g for route intrathecal\n`],
];
const into = (line: string): [string, string] => [
  "    access          peripheral\n",
  `    access          peripheral\n    ${line}\n`,
];
const ampoule = (fact: string): [string, string] => ["  strength   500 mg/mL\n", `  strength   500 mg/mL\n  ${fact}\n`];
const bag = (fact: string): [string, string] => ["  made-of    polyolefin\n", `  made-of    polyolefin\n  ${fact}\n`];

describe("a product that says nothing of a preservative", () => {
  it("is told for the spinal canal, the bag too, in one finding", () => {
    const [found, ...others] = about(example(...spine));
    expect(found?.message).toContain("magnesium-ampoule and saline-bag-100 do not say whether they are preserved");
    expect(found?.severity).toBe("warning");
    expect(others).toEqual([]);
    expect(about(example(...spine, ampoule("preservative none")))[0]?.message).toMatch(/^saline-bag-100 does not say/);
    expect(names(example(...spine, ampoule("preservative none"), bag("preservative none")))).toEqual([]);
  });

  it("is told for a newborn, and a bag of infusion fluid is free of it", () => {
    expect(about(example(into("population neonate")))[0]?.message).toMatch(/^magnesium-ampoule does not say/);
    expect(names(example(into("population neonate"), ampoule("preservative none")))).toEqual([]);
  });

  it("is left alone for others", () => {
    for (const who of ["population adult", "population child"]) expect(names(example(into(who)))).toEqual([]);
  });
});

describe("a newborn", () => {
  it("is one whose age begins within 28 days", () => {
    for (const age of ["0 months to 12 months", "27 days to 90 days"])
      expect(names(example(into(`age ${age}`))), age).toEqual(["preservative-not-said"]);
    expect(names(example(into("age 28 days to 90 days")))).toEqual([]);
    expect(names(example(into("age 2 months to 12 months")))).toEqual([]);
  });

  it("of that age gets nothing preserved, told once", () => {
    const preserved = ampoule("preservative benzyl-alcohol");
    expect(names(example(into("age 0 days to 90 days"), preserved))).toEqual(["preservative-by-route"]);
    expect(names(example(into("age 90 days to 180 days"), preserved))).toEqual(["population-not-said"]);
  });
});

describe("what is preserved", () => {
  it("is an error for the spinal canal, and nobody is asked for whom", () => {
    expect(names(example(...spine, ampoule("preservative benzyl-alcohol"), bag("preservative none")))).toEqual([
      "preservative-by-route",
    ]);
  });

  it("is not known from a line that cannot be read", () => {
    expect(names(example(...spine, ampoule('preservative "none"'), bag("preservative none")))).toEqual([]);
  });
});
