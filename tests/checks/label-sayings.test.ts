/**
 * What titles, label lines and notes say in words of the way in, of how it is given, and of figures, each beside one that is right. The
 * recipes are those of the sample library: magnesium sulfate 4 g in 108 mL by vein over 4 h, digoxin 40 mcg pushed, an epidural bag. What a
 * careful colleague would fear of each is common practice, from memory.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

const bag = "magnesium-4g";
const pushed = "digoxin-40mcg";
const epidural = "epidural-levobupivacaine-fentanyl";
const inSaline = "in sodium chloride 0.9 % 100 mL";

describe("another way in than the order's", () => {
  areTold(bag, [
    [`title: Magnesium sulfate 4 g ${inSaline}, intrathecal`, "intrathecal"],
    [`title: Magnesium sulfate 4 g ${inSaline} IM`, "IM"],
    "IM only",
    "For IM use",
    "IM injection",
    "SC only",
    ["For s.c. use", "For s.c. use"],
    "For subcut use",
    ["Subcutaneous use only", "Subcutaneous"],
    "IT use",
    "IO use",
    "For spinal use only",
    "Spinal",
    ["For inhalation only", "For inhalation only"],
    "For nebulisation",
    "Topical use",
    "For bladder instillation",
    ["For intravesical use", "intravesical"],
    ["For intraperitoneal use", "intraperitoneal"],
    "For nasal use",
    "Eye drops",
    "For rectal use",
    "Peridural",
    ["For intra-articular injection", "intra-articular"],
    ["note: For IM injection", "For IM injection"],
  ]);
  areTold(epidural, [
    ["For intravenous use", "intravenous"],
    "IV only",
    "For I.V. use",
    "For IV infusion",
    "IV",
    ["title: Levobupivacaine 250 mg and fentanyl 500 mcg in sodium chloride 0.9 % 250 mL IV", "IV"],
  ]);
  areSilent(bag, [
    `title: Magnesium sulfate 4 g IV ${inSaline}`,
    "IV",
    "I.V. use only",
    "For IV infusion only",
    "Not for IM use",
    "Not for intrathecal use",
    "Fatal if given by other routes",
    "Subcutaneous port may be used",
    "it is only for one patient",
    "Stage IV",
    "Grade IV units only",
    "For hypotension in spinal anaesthesia",
    "Wash the eye if splashed",
    "Ward IO",
  ]);
  areSilent(epidural, [
    "For epidural infusion",
    "Peridural use only",
    "NOT FOR IV USE",
    "Keep an IV line in place",
    "Epidural bolus 5 mL on request",
  ]);

  it("goes by the space, whatever it is called", () => {
    const told = (line: string, route: string) =>
      findingsOf(
        example(
          [
            "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
            `    route           ${route}\n`,
          ],
          ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
        ),
      ).filter(({ name }) => name === "label-text-contradicts-order");
    for (const line of ["For spinal use", "IT only", "For intrathecal use only. Fatal if given intravenously"])
      expect([line, told(line, "intrathecal")]).toEqual([line, []]);
    expect(told("For intrathecal use", "spinal")).toEqual([]);
    expect(told("For ophthalmic use", "intravitreal")).toEqual([]);
    expect(told("For intra-arterial use", "intraarterial")).toEqual([]);
    for (const line of ["For epidural use", "IV only", "For I.V. use", "For ophthalmic use"])
      expect([line, told(line, "intrathecal").length]).toEqual([line, 1]);
  });
});

describe("pushed or run", () => {
  areTold(bag, [
    "IV push",
    "IV bolus",
    "For slow IV bolus",
    ["Give as a bolus", "as a bolus"],
    [`title: Magnesium sulfate 4 g bolus ${inSaline}`, "4 g bolus"],
    ["Give undiluted as IV push", "as IV push"],
    ["note: Give as a slow IV push", "as a slow IV push"],
  ]);
  areTold("propofol-500mg-syringe", ["Bolus only"]);
  areTold(pushed, [
    "For infusion",
    "For intravenous infusion",
    ["IV infusion only", "IV infusion"],
    ["Infuse over 2 h", "over 2 h"],
    ["title: Digoxin 40 mcg infusion, syringe from a 50 mcg/mL dilution", "40 mcg infusion"],
  ]);
  areSilent(bag, [
    "For infusion",
    "For IV injection",
    "Not for bolus",
    "Never IV push",
    "Do not give as a bolus",
    "Start after the bolus",
    "Bolus from this bag: 10 mL",
    "Push the cap on firmly",
  ]);
  areSilent(pushed, ["IV bolus", "For slow IV injection", "For injection or infusion", "Give over 5 min"]);
  areSilent("calcium-1g-syringe", ["Infuse over 10 min", "For infusion by pump over 10 min"]);
  areSilent("propofol-500mg-syringe", ["Bolus of 2 mL if told"]);
});

describe("figures in words", () => {
  areTold(bag, [
    [`title: Magnesium sulfate two grams ${inSaline}`, "two grams"],
    ["title: Magnesium sulfate 4 g in fifty millilitres of sodium chloride 0.9 %", "fifty millilitres"],
    ["Contains two grams in one hundred millilitres", "two grams"],
    ["Give over thirty minutes", "over thirty minutes"],
    ["Give over half an hour", "over half an hour"],
    ["Use within seventy-two hours", "seventy-two hours"],
    ["Use within three days", "three days"],
    ["370 milligrams per millilitre", "370 milligrams per millilitre"],
    ["37 g per 100 mL", "37 g"],
    ["note: Infuse at 125 mL/h", "125 mL/h"],
  ]);
  areTold("ceftriaxone-500mg", [
    ["title: Ceftriaxone one gram in sodium chloride 0.9 % 50 mL", "one gram"],
    ["Ceftriaxone one gram", "one gram"],
    ["Ceftriaxone one and a half grams", "one and a half grams"],
    ["fifty milligrams in fifty millilitres", "fifty milligrams"],
  ]);
  areTold("midazolam-50mg", [
    ["title: Midazolam five hundred milligrams in sodium chloride 0.9 % 100 mL", "five hundred milligrams"],
  ]);
  areTold(pushed, [
    ["Digoxin four hundred micrograms", "four hundred micrograms"],
    ["Digoxin forty milligrams", "forty milligrams"],
  ]);
  areSilent(bag, [
    `title: Magnesium sulfate four grams ${inSaline}`,
    "title: Magnesium sulfate 4 grams in one hundred millilitres of sodium chloride 0.9 %",
    "Contains four grams in one hundred millilitres",
    "Give over four hours",
    "Use within twenty-four hours",
    "37 milligrams per millilitre",
    "3.7 g per 100 mL",
    "Two nurses check",
    "One bag only",
    "Call after ten minutes if it hurts",
    "Check twice",
  ]);
  areSilent("ceftriaxone-500mg", [
    "title: Ceftriaxone half a gram in sodium chloride 0.9 % 50 mL",
    "Ceftriaxone half a gram",
    "five hundred milligrams in fifty millilitres",
  ]);
  areSilent(pushed, ["Digoxin forty micrograms"]);
  areSilent("magnesium-20g", ["Contains twenty grams", "Contains twenty thousand milligrams"]);

  it("counts millions of units", () => {
    const told = (dose: string) =>
      findingsOf(
        example(
          ["    dose            4 g per bag", "    dose            2.4 million units per bag"],
          ["Magnesium sulfate 4 g in", `Magnesium sulfate ${dose} in`],
        ),
      ).filter(({ name }) => name === "title-contradicts-order");
    for (const dose of ["2.4 mega units", "2.4 megaunits", "two point four million units", "2,400 thousand units"])
      expect([dose, told(dose)]).toEqual([dose, []]);
    for (const dose of [
      "5 mega units",
      "5 megaunits",
      "five million units",
      "1.5 million units",
      "500 thousand units",
    ]) {
      const [found, ...more] = told(dose);
      expect(found?.message).toContain(`The title says ${dose}; the order says 2.4 million units.`);
      expect(more).toEqual([]);
    }
  });
});
