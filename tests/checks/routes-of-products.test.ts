/**
 * Oral liquids have been injected into veins, depot penicillin has killed there, and eye drops are no injection (published warnings, from
 * memory). What a product is for stands on its label; its name is looked at where the label's routes are not stated.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const found = (text: string) => findingsOf(text).map((f) => f.name);
const ampoule = "  strength   500 mg/mL\n";
const routes = (...list: string[]): [string, string] => [
  ampoule,
  `${ampoule}${list.map((route) => `  route      ${route}\n`).join("")}`,
];
/** The ampoule under another name, wherever it is named. */
const named = (name: string, ...changes: [string, string][]) =>
  example(...changes).replaceAll("magnesium-ampoule", name);
const given = (route: string): [string, string] => [
  "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
  `    route           ${route}\n`,
];

describe("the routes of a product", () => {
  it("hold the order to them, under whatever name of the same space", () => {
    expect(found(example(routes("intramuscular", "subcutaneous")))).toEqual(["product-for-another-route"]);
    expect(found(example(routes("intravenous", "intramuscular")))).toEqual([]);
    expect(found(example(routes("intrathecal"), given("spinal")))).not.toContain("product-for-another-route");
    expect(found(example(routes("epidural"), given("intrathecal")))).toContain("product-for-another-route");
  });

  it("are not judged by a line that cannot be read", () => {
    expect(found(example(routes('"intramuscular"')))).toEqual(["fact-not-understood"]);
  });

  it("are told with the words of the label", () => {
    const [finding] = findingsOf(example(routes("intramuscular", "subcutaneous")));
    expect(finding?.message).toMatch(/^magnesium-ampoule is for route intramuscular or subcutaneous only/);
    expect(finding?.related).toHaveLength(2);
  });
});

describe("the name of a product without routes", () => {
  it.each([
    "magnesium-oral-solution",
    "magnesium-cream",
    "magnesium-eye-drops",
    "magnesium-nebuliser-10",
    "magnesium-depot-ampoule",
    "magnesium-oily-10",
  ])("%s speaks against a vein", (name) => {
    expect(found(named(name))).toContain("product-for-another-route");
  });

  it("says nothing where the label allows the route", () => {
    expect(found(named("magnesium-oral-solution", routes("intravenous")))).not.toContain("product-for-another-route");
  });

  it.each(["magnesium-injection", "magnesium-concentrate", "magnesium-corals", "magnesium-gelatin"])(
    "%s does not",
    (name) => {
      expect(found(named(name))).not.toContain("product-for-another-route");
    },
  );

  it("of a depot is right for a muscle", () => {
    expect(found(named("magnesium-depot-ampoule", given("intramuscular")))).not.toContain("product-for-another-route");
  });
});

describe("the form of a preparation", () => {
  const form = (name: string, ...changes: [string, string][]) =>
    found(example(["form           solution-for-infusion", `form           ${name}`], ...changes));

  it.each(["oral-solution", "eye-drops", "nebuliser-solution", "cream"])("%s is not for a vein", (name) => {
    expect(form(name)).toEqual(["form-contradicts-route"]);
  });

  it("for infusion is not for the eye", () => {
    expect(found(example(given("ophthalmic")))).toContain("form-contradicts-route");
    expect(form("eye-drops", given("ophthalmic"))).not.toContain("form-contradicts-route");
  });

  it("that tells no way, and a route that is not known, are left alone", () => {
    expect(form("solution")).toEqual([]);
    expect(found(example(given("catheter-lock")))).not.toContain("form-contradicts-route");
  });
});

/** What stands on the label as the form sends it another way (published warnings on vinca alkaloids, from memory). */
describe("a route in the name of a form", () => {
  const form = (name: string): [string, string] => ["form           solution-for-infusion", `form           ${name}`];
  it.each(["intrathecal-injection", "solution-for-epidural-infusion", "solution-for-intramuscular-injection"])(
    "%s is told where the vein is ordered",
    (name) => expect(found(example(form(name)))).toContain("form-contradicts-route"),
  );
  it("says what is ordered, by whichever name", () => {
    expect(found(example(form("intravenous-infusion")))).toEqual([]);
    expect(found(example(form("spinal-injection"), given("intrathecal")))).not.toContain("form-contradicts-route");
    expect(found(example(form("intravenous-injection"), given("intrathecal")))).toContain("form-contradicts-route");
  });
});
