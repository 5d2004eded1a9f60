/**
 * The volume beside a dose, as a ward reads it off a syringe: `Heparin 7,500 units (0.75 mL)`. Heparin 7,500 units of 10,000 units/mL are 0.75 mL
 * (item 25, coursehero.com/file/p40gt05p); ten times as much or as little is the slip that is feared. The other recipes are those of
 * the samples; how such lines are written is common practice.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { label } from "./printed-on-samples.ts";

/** A dose drawn into a syringe as it comes; the order states no volume. */
function given(title: string, line?: string): string {
  const text = example(
    ['  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n', ""],
    ["  strength   500 mg/mL", "  strength   10,000 units/mL"],
    ["  container  ampoule", "  container  vial"],
    ["    dose            4 g per bag", "    dose            7,500 units per syringe"],
    ["    diluent         sodium-chloride-0.9\n    diluent-volume  100 mL\n", ""],
    ["    method          add-to-bag", "    method          undiluted"],
    [
      "    route           intravenous\n    access          peripheral\n    infuse-over     4 h",
      "    route           subcutaneous\n    use             bolus",
    ],
    ["    bag          saline-bag-100\n", ""],
    ["    syringe      syringe-10mL\n    filter       filter-needle-5um\n", "    syringe      syringe-1mL\n"],
    ["    check label and expiry of mag, bag\n    tap mag\n", "    check label and expiry of mag\n"],
    [
      "    open mag\n    attach filter to syringe\n    draw 4 g from mag into syringe  = 8 mL\n",
      "    attach needle to syringe\n    draw 7,500 units from mag into syringe dead-space excluded at equal pressure  = 0.75 mL\n",
    ],
    [
      "    replace filter on syringe with needle\n    disinfect bag\n    inject syringe into bag\n    mix bag by inverting 10 times\n    inspect bag\n    seal bag\n    label bag\n    keep mag, filter, needle, syringe for check\n",
      "    inspect syringe\n    seal syringe\n    label syringe\n    keep mag, needle for check\n",
    ],
    [
      "  preparation bag {",
      `${line === undefined ? "" : `  label-text {\n    line "${line}"\n  }\n\n`}  preparation syringe {`,
    ],
    ["    concentration  37.04 mg/mL\n", ""],
  );
  return text
    .replaceAll("magnesium-sulfate", "heparin")
    .replace('"magnesium sulfate heptahydrate"', '"heparin sodium"')
    .replace("recipe magnesium-4g", "recipe heparin-dose")
    .replace(/title {2}"[^"]*mL"/, `title  "${title}"`);
}

const told = (...words: [title: string, line?: string]) =>
  findingsOf(given(...words))
    .filter(({ name }) => name.endsWith("-contradicts-order"))
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

const right = "Heparin 7,500 units for subcutaneous injection";

describe("a title of what is given as it comes", () => {
  it.each([
    right,
    "Heparin 7,500 units in 0.75 mL, subcutaneous",
    "Heparin 7,500 units (0.75 mL) subcutaneous",
    "Heparin 10,000 units/mL, 0.75 mL, subcutaneous",
    "Heparin 7,500 units, syringe of 1 mL",
    "Heparin 7,500 units from 1 mL vials",
  ])("%s", (title) => {
    expect(told(title)).toEqual([]);
  });

  it.each([
    ["Heparin 7,500 units for subcutaneous injection, 7.5 mL", "7.5 mL; the order comes to 0.75 mL"],
    ["Heparin 7,500 units in 0.075 mL, subcutaneous", "0.075 mL; the order comes to 0.75 mL"],
    ["Heparin 7,500 units/7.5 mL subcutaneous", "7.5 mL; the order comes to 0.75 mL"],
    ["Heparin 7,500 units, syringe of 10 mL", "10 mL; the order comes to 0.75 mL"],
  ])("%s", (title, said) => {
    expect(told(title)).toEqual([said]);
  });
});

describe("a title of a batch of four", () => {
  const batch = (title: string) =>
    findingsOf(
      given(title)
        .replace("    method          undiluted", "    makes           4 x syringe\n    method          undiluted")
        .replace("    syringe      syringe-1mL", "    syringe      4 x syringe-1mL")
        .replace("    needle       needle-18-gauge", "    needle       4 x needle-18-gauge")
        .replace("from mag into syringe dead-space", "from mag into each of syringe dead-space"),
    )
      .filter(({ name }) => name === "title-contradicts-order")
      .map(({ message }) => message);
  it("may tell what all hold together", () => {
    expect(batch("Heparin 7,500 units, 4 syringes of 0.75 mL, 3 mL in all")).toEqual([]);
    expect(batch("Heparin 7,500 units, 4 syringes of 7.5 mL")).toHaveLength(1);
    expect(batch("Heparin 7,500 units, 4 syringes, 30 mL in all")).toHaveLength(1);
  });
});

describe("a label line of a dose and its volume", () => {
  it.each(["Heparin 7,500 units, 0.75 mL", "7,500 units (0.75 mL)", "0.75 mL"])("%s", (line) => {
    expect(told(right, line)).toEqual([]);
  });

  it.each(["Heparin 7,500 units, 7.5 mL", "7,500 units (7.5 mL)", "7.5 mL", "In a syringe of 7.5 mL"])("%s", (line) => {
    expect(told(right, line)).toEqual(["7.5 mL; the recipe says 0.75 mL"]);
  });

  it("that is a part of it in a volume of its strength is told by its amount alone", () => {
    expect(told(right, "2,500 units (0.25 mL)")).toEqual(["2,500 units; the order says 7,500 units"]);
  });

  it("may tell what was drawn of the drug, and how the container is called", () => {
    for (const line of [
      "Magnesium sulfate 4 g (8 mL)",
      "Magnesium sulfate 4 g, 100 mL",
      "Magnesium sulfate 4 g, bag of 150 mL",
      "108 mL",
    ])
      expect(label("magnesium-4g", line)).toEqual([]);
    for (const line of [
      "Magnesium sulfate 4 g (80 mL)",
      "Magnesium sulfate 4 g (0.8 mL)",
      "Magnesium sulfate 4 g, 1,080 mL",
      "Bag of 1 L",
    ])
      expect(label("magnesium-4g", line)).toHaveLength(1);
    expect(label("propofol-500mg-syringe", "Propofol 500 mg, syringe of 50 mL")).toEqual([]);
    expect(label("propofol-500mg-syringe", "Propofol 500 mg, syringe of 500 mL")).toHaveLength(1);
  });
});
