/**
 * Formulations of one substance, alone in a library or beside each other: liposomal and conventional doses are no substitute for each other,
 * an antibody with what it carries is none for the bare one, nor a depot for what is given into a vein (common practice, from memory). The
 * names are real generics, the figures those of the standard library, invented.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

type Named = [key: string, name: string];

/** A recipe of `ordered` with this title. */
function recipeOf(ordered: Named, title: string, ...changes: [from: string, to: string][]): string {
  return example(["Magnesium sulfate 4 g in", `${title} 4 g in`], ...changes)
    .replaceAll(/\bmagnesium-sulfate\b/g, ordered[0])
    .replace("magnesium sulfate heptahydrate", ordered[1])
    .replace('  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n', "");
}

/** In a library that knows the others too. */
function told(ordered: Named, title: string, ...others: Named[]): string[] {
  const more = others.map(
    ([key, name]) => `\ndrug ${key} {\n  source  guide "x"\n  name    "${name}"\n  hazard  hazardous\n}\n`,
  );
  return findingsOf(recipeOf(ordered, title) + more.join(""))
    .filter((f) => f.name === "formulation-not-in-title")
    .map((f) => f.message);
}

const ofNames = ["formulation-not-on-label", "drug-name-not-known", "label-text-contradicts-order"];

/** What is told of such lines of the label. */
function onLabel(ordered: Named, title: string, ...lines: string[]): string[] {
  const label = lines.map((line) => `    line "${line}"\n`).join("");
  const text = recipeOf(ordered, title, ["  preparation bag {", `  label-text {\n${label}  }\n\n  preparation bag {`]);
  return findingsOf(text)
    .filter(({ name }) => ofNames.includes(name))
    .map(({ name, message }) => `${name}: ${message}`);
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
  it("need say nothing where there is the conventional one alone, or where the other is another drug", () => {
    expect(told(plain, "Doxorubicin")).toEqual([]);
    expect(told(plain, "Doxorubicin", ["liposomal-daunorubicin", "liposomal daunorubicin"])).toEqual([]);
    expect(told(plain, "Doxorubicin", ["epirubicin", "epirubicin hydrochloride"])).toEqual([]);
  });
});

const amphotericin: Named = ["amphotericin", "amphotericin B liposomal"];
const albumin: Named = ["paclitaxel-albumin", "paclitaxel albumin"];
const complex: Named = ["amphotericin-lipid", "amphotericin B lipid complex"];

describe("a title of a drug of which the library knows one formulation alone", () => {
  it.each<[Named, string, string]>([
    [amphotericin, "Amphotericin B", "liposomal"],
    [pegylated, "Doxorubicin hydrochloride", "liposomal pegylated"],
    [pegylated, "Liposomal doxorubicin", "pegylated"],
    [albumin, "Paclitaxel", "albumin-bound"],
    [complex, "Amphotericin B", "lipid complex"],
    [["trastuzumab-emtansine", "trastuzumab emtansine"], "Trastuzumab", "emtansine"],
    [["benzathine-penicillin", "benzathine benzylpenicillin"], "Benzylpenicillin", "benzathine"],
    [["insulin-isophane", "insulin isophane"], "Insulin", "isophane"],
    [["haloperidol-decanoate", "haloperidol decanoate"], "Haloperidol", "decanoate"],
    [["octreotide-lar", "octreotide prolonged-release"], "Octreotide", "prolonged-release"],
  ])("%j as %s", (drug, title, say) => {
    expect(told(drug, title)).toEqual([
      `The order is for ${drug[0]}, and the title does not say ${say}; without it the title names another medicine, which is dosed otherwise. Write ${say} in the title.`,
    ]);
  });
  it.each<[Named, string]>([
    [amphotericin, "Liposomal amphotericin B"],
    [amphotericin, "Amphotericin B (as liposomes)"],
    [amphotericin, "AmBisomal amphotericin B, liposomal,"],
    [pegylated, "Doxorubicin PLD"],
    [pegylated, "Doxorubicin, pegylated liposomal,"],
    [albumin, "Paclitaxel albumin"],
    [albumin, "nab-Paclitaxel"],
    [albumin, "Paclitaxel (albumin-bound)"],
    [complex, "Amphotericin B (lipid complex)"],
    [["insulin-isophane", "insulin isophane"], "NPH insulin"],
    [["octreotide-lar", "octreotide prolonged-release"], "Octreotide extended-release"],
    [["procaine", "procaine hydrochloride"], "Procaine"],
    // Told as a title without its drug.
    [amphotericin, "Antifungal"],
  ])("%j as %s is in order", (drug, title) => expect(told(drug, title)).toEqual([]));
});

describe("a line of the label", () => {
  it.each([
    "Amphotericin B 4 g",
    "Contains amphotericin B 4 g",
    "4 g of amphotericin B",
    "Amphotericin 37 mg/mL",
    "Amphotericin infusion",
  ])("%s names the drug without its formulation", (line) => {
    expect(onLabel(amphotericin, "Liposomal amphotericin B", line)).toEqual([
      "formulation-not-on-label: The order is for amphotericin, and this line of the label names the drug without liposomal, so that it reads as another medicine, which is dosed otherwise. Write liposomal in it.",
    ]);
  });
  it.each([
    ["Liposomal amphotericin B 4 g"],
    ["Amphotericin B (liposomal) 4 g"],
    // They are read together.
    ["Amphotericin B 4 g", "Liposomal: no filter finer than 1 micrometre"],
    ["Never exchange for another amphotericin"],
    ["Amphotericin may cause fever"],
    ["For intravenous use"],
  ])("%j %s are in order", (...lines) => {
    expect(onLabel(amphotericin, "Liposomal amphotericin B", ...lines)).toEqual([]);
  });
  it.each([
    [plain, "Doxorubicin", "Liposomal doxorubicin 4 g"],
    [plain, "Doxorubicin", "PLD doxorubicin 4 g"],
    [["paclitaxel", "paclitaxel"], "Paclitaxel", "Paclitaxel albumin-bound 4 g"],
    [["trastuzumab", "trastuzumab"], "Trastuzumab", "Trastuzumab emtansine 4 g"],
    [["trastuzumab", "trastuzumab"], "Trastuzumab", "Trastuzumab deruxtecan infusion"],
    [amphotericin, "Liposomal amphotericin B", "Amphotericin B lipid complex 4 g"],
    [amphotericin, "Liposomal amphotericin B", "Amphotericin B lipid complex"],
    [["haloperidol", "haloperidol"], "Haloperidol", "Haloperidol decanoate 4 g"],
  ] as [Named, string, string][])("%j, %s: %s names another formulation", (drug, title, line) => {
    const found = onLabel(drug, title, line);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^(?:drug-name-not-known|label-text-contradicts-order): /);
  });
  it.each([
    [plain, "Doxorubicin", "Non-liposomal doxorubicin 4 g"],
    [plain, "Doxorubicin", "Conventional doxorubicin 4 g"],
    [plain, "Doxorubicin", "Never give as liposomal doxorubicin"],
  ] as [Named, string, string][])("%j, %s: %s is in order", (drug, title, line) => {
    expect(onLabel(drug, title, line)).toEqual([]);
  });
});
