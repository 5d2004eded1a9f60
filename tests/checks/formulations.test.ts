/**
 * Two formulations of one substance in a library: liposomal and conventional doses are no substitute for each other. The names are real
 * generics, the figures those of the standard library, invented.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

/** A recipe of `ordered` with this title, in a library that knows the others too. */
function told(ordered: [key: string, name: string], title: string, ...others: [key: string, name: string][]): string[] {
  const more = others.map(
    ([key, name]) => `\ndrug ${key} {\n  source  guide "x"\n  name    "${name}"\n  hazard  hazardous\n}\n`,
  );
  const text = example(["Magnesium sulfate 4 g in", `${title} 4 g in`])
    .replaceAll(/\bmagnesium-sulfate\b/g, ordered[0])
    .replace("magnesium sulfate heptahydrate", ordered[1])
    .replace('  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n', "");
  return findingsOf(text + more.join(""))
    .filter((f) => f.name === "formulation-not-in-title")
    .map((f) => f.message);
}

const plain: [string, string] = ["doxorubicin", "doxorubicin hydrochloride"];
const liposomal: [string, string] = ["liposomal-doxorubicin", "liposomal doxorubicin"];
const pegylated: [string, string] = ["doxorubicin-pld", "pegylated liposomal doxorubicin hydrochloride"];

describe("a title of a drug that comes in two formulations", () => {
  it("says that it is the conventional one", () => {
    expect(told(plain, "Doxorubicin", pegylated)).toEqual([
      "The library knows doxorubicin and doxorubicin-pld, which are no substitute for each other, and the title does not say which it is. Write conventional in the title.",
    ]);
    expect(told(plain, "Conventional doxorubicin", pegylated)).toEqual([]);
    expect(told(plain, "Doxorubicin (non-liposomal)", pegylated)).toEqual([]);
  });
  it("says that it is the liposomal one, and which of two", () => {
    expect(told(pegylated, "Doxorubicin hydrochloride", ["doxorubicin-plain", "doxorubicin"]).join()).toContain(
      "Write liposomal pegylated in the title",
    );
    expect(told(pegylated, "Pegylated liposomal doxorubicin", plain)).toEqual([]);
    expect(told(liposomal, "Liposomal doxorubicin", pegylated).join()).toContain("Write non-pegylated");
  });
  it("may name the deoxycholate, which only the conventional one is", () => {
    const deoxycholate: [string, string] = ["amphotericin-b", "amphotericin B deoxycholate"];
    const complex: [string, string] = ["amphotericin-b-lipid-complex", "amphotericin B lipid complex"];
    expect(told(deoxycholate, "Amphotericin B deoxycholate", complex)).toEqual([]);
    expect(told(deoxycholate, "Amphotericin B", complex)).toHaveLength(1);
  });
  it("need say nothing where there is one, or where the other is another drug", () => {
    expect(told(plain, "Doxorubicin")).toEqual([]);
    expect(told(plain, "Doxorubicin", ["liposomal-daunorubicin", "liposomal daunorubicin"])).toEqual([]);
    expect(told(plain, "Doxorubicin", ["epirubicin", "epirubicin hydrochloride"])).toEqual([]);
  });
});
