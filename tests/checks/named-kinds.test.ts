/**
 * Medicines that share a word of their names and are not each other's: clotting factors (groups B02BD and B01AD of the ATC index of the World
 * Health Organization), irons for injection (B03AC), interferons (L03AB), vitamins (A11, B02BA), calcium folinate beside calcium
 * gluconate (V03AF, A12AA), the antidote beside the glycoside (V03AB24); all from memory. Potassium and sodium phosphates are
 * called by the plural on their labels (prescriberpoint.com, potassium phosphates injection).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

/** The sample bag, of another drug, with these words for a title. */
function titled(key: string, printed: string, title: string): string {
  return example()
    .replaceAll("magnesium-sulfate", key)
    .replace(/name( +)"magnesium sulfate heptahydrate"/, (_, blank) => `name${blank}"${printed}"`)
    .replace("recipe magnesium-4g", "recipe bag-of-100")
    .replace("Magnesium sulfate 4 g in", `${title} 4 g in`);
}

const told = (...words: [key: string, printed: string, title: string]) =>
  findingsOf(titled(...words))
    .filter(({ severity }) => severity !== "note")
    .map(({ name, message }) => `${name}: ${message.replace(/\. Correct whichever is wrong\.$|, which the .*$/, "")}`);

describe("a name that shares its first word with the ordered drug's", () => {
  it.each([
    ["factor-viii", "factor VIII", "Factor IX", "Factor IX"],
    ["factor-viii", "coagulation factor VIII, human", "Factor VIIa", "Factor VIIa"],
    ["iron-sucrose", "iron sucrose", "Iron dextran", "Iron dextran"],
    ["ferric-carboxymaltose", "ferric carboxymaltose", "Ferric derisomaltose", "Ferric derisomaltose"],
    ["ferric-carboxymaltose", "ferric carboxymaltose", "Ferric gluconate", "Ferric gluconate"],
    ["calcium-gluconate", "calcium gluconate", "Calcium folinate", "Calcium folinate"],
    ["protein-c", "protein C, human", "Protein S", "Protein S"],
    ["interferon-alfa", "interferon alfa", "Interferon beta", "Interferon beta"],
    ["phytomenadione", "phytomenadione (vitamin K)", "Vitamin C", "Vitamin C"],
  ])("%s (%s) in a title of %s", (key, printed, title, said) => {
    expect(told(key, printed, title)).toEqual([
      `title-contradicts-order: The title says ${said}; the order says ${key}`,
    ]);
  });

  it.each([
    ["factor-viii", "factor VIII", "Factor VIII"],
    ["factor-viii", "factor VIII", "Factor concentrate"],
    ["factor-viii", "factor VIII", "Factor VIII (not factor IX)"],
    [
      "prothrombin-complex",
      "prothrombin complex (factors II, VII, IX and X)",
      "Prothrombin complex (factor IX complex)",
    ],
    ["iron-sucrose", "iron sucrose", "Iron"],
    ["iron-sucrose", "iron sucrose", "Iron saccharate"],
    ["iron-isomaltoside", "iron isomaltoside 1000", "Iron derisomaltose"],
    ["interferon-alfa", "interferon alfa", "Interferon alpha"],
    ["phytomenadione", "phytomenadione (vitamin K)", "Vitamin K1"],
    ["calcium-gluconate", "calcium gluconate", "Calcium gluconate"],
  ])("%s (%s) may be called %s", (key, printed, title) => {
    expect(told(key, printed, title)).toEqual([]);
  });

  it("is told on a label line too", () => {
    const line = titled("factor-viii", "factor VIII", "Factor VIII").replace(
      "  preparation bag {",
      '  label-text {\n    line "Factor IX 4 g in 108 mL"\n  }\n\n  preparation bag {',
    );
    expect(findingsOf(line).map(({ name }) => name)).toEqual(["label-text-contradicts-order"]);
  });

  it("and an antidote is not the drug that it binds", () => {
    expect(told("digoxin-immune-fab", "digoxin immune Fab", "Digoxin")).toEqual([
      expect.stringMatching(/^formulation-not-in-title: The order is for digoxin-immune-fab/),
    ]);
    expect(told("digoxin-immune-fab", "digoxin immune Fab", "Digoxin immune Fab")).toEqual([]);
    expect(told("digoxin", "digoxin", "Digoxin immune Fab")).toEqual([expect.stringMatching(/^drug-name-not-known/)]);
  });
});

describe("another salt of a steroid", () => {
  // The acetate is a suspension for muscle and joint, the sodium succinate a solution for the vein (H02AB04; product texts, from memory).
  it.each([
    ["methylprednisolone acetate", "Methylprednisolone sodium succinate"],
    ["methylprednisolone acetate", "Methylprednisolone sodium phosphate"],
    ["methylprednisolone sodium succinate", "Methylprednisolone acetate"],
    ["hydrocortisone sodium phosphate", "Hydrocortisone sodium succinate"],
  ])("%s in a title of %s", (printed, title) => {
    const key = printed.split(" ")[0]!;
    expect(told(key, printed, title)).toEqual([
      `title-contradicts-order: The title says ${title.toLowerCase()}; the order says ${printed}`,
    ]);
  });
  it.each(["Methylprednisolone sodium succinate", "Methylprednisolone succinate", "Methylprednisolone"])(
    "%s is the succinate",
    (title) => {
      expect(told("methylprednisolone", "methylprednisolone sodium succinate", title)).toEqual([]);
    },
  );
});

describe("phosphates in the plural", () => {
  it("are the salts of one metal only", () => {
    expect(told("potassium-phosphates", "potassium phosphates", "Sodium phosphates")).toEqual([
      'title-without-drug: The title "Sodium phosphates 4 g in sodium chloride 0.9 % 100 mL" does not name potassium-phosphates',
    ]);
    expect(told("sodium-phosphates", "sodium phosphates", "Potassium phosphates")).toEqual([
      expect.stringMatching(/^drug-name-not-known: This title says 4 g beside potassium phosphate/),
    ]);
  });
  it.each(["Potassium phosphates", "Potassium phosphate"])("may be called %s", (title) => {
    expect(told("potassium-phosphates", "potassium phosphates", title)).toEqual([]);
    expect(told("potassium-phosphate", "potassium phosphate", title)).toEqual([]);
  });
});

describe("a name that says how the product comes", () => {
  it("need not be said whole", () => {
    const printed = "calcium gluconate 10 % concentrate, sterile solution";
    expect(told("calcium-gluconate", printed, "Calcium gluconate")).toEqual([]);
    expect(told("sodium-chloride-30", "sodium chloride 30 % w/v concentrate", "Sodium chloride")).toEqual([]);
  });
});
