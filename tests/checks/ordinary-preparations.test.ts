/**
 * Preparations as wards order them, each right, and the slip beside it: a bladder washed out, a pump filled through its own port, a dose
 * per kg rounded to what can be drawn, a patient of the wrong weight, a label that counts the salt. Common practice; figures are invented.
 */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const found = (text: string) => findingsOf(text);
const names = (text: string) => found(text).map((f) => f.name);

describe("a fluid for irrigation", () => {
  const by = (route: string, use = "irrigation") =>
    names(
      example(
        ["  use         injection", `  use         ${use}`],
        ["    route           intravenous\n    access          peripheral", `    route           ${route}`],
      ),
    );
  it.each(["irrigation", "bladder-irrigation", "wound-irrigation", "intravesical"])("is right by %s", (route) => {
    expect(by(route)).not.toContain("route-forbidden");
  });
  it.each(["intravenous", "intraperitoneal", "inhalation", "intrathecal"])("is told by %s", (route) => {
    expect(by(route)).toContain("route-forbidden");
  });
  it("is no fluid for dialysis, which may be rinsed with as before", () => {
    expect(by("irrigation", "dialysis")).not.toContain("route-forbidden");
    expect(by("intravenous", "dialysis")).toContain("route-forbidden");
  });
});

describe("what is left in the bladder", () => {
  const left = (form: string, title: string, product = "magnesium-ampoule") =>
    names(
      example(
        [
          "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
          "    route           intravesical\n",
        ],
        ["form           solution-for-infusion", `form           ${form}`],
        ["Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL", title],
      ).replaceAll("magnesium-ampoule", product),
    ).filter((name) => /contradicts|another-route/.test(name));
  const title = "Magnesium sulfate 4 g for bladder instillation";
  const form = "solution-for-bladder-instillation";
  it.each([
    [form, title],
    ["solution-for-intravesical-use", title],
    ["solution-for-bladder-irrigation", "Magnesium sulfate 4 g, not for injection"],
    [form, "Magnesium sulfate 4 g in sodium chloride 0.9 % for injection, bladder instillation"],
    [form, "Magnesium sulfate 50 % solution for injection, 4 g, for the bladder"],
  ])("is in order as %s, %s", (...said) => expect(left(...said)).toEqual([]));
  it.each([
    ["solution-for-injection", title, "form-contradicts-route"],
    ["solution-for-infusion", title, "form-contradicts-route"],
    ["eye-drops", title, "form-contradicts-route"],
    [form, "Magnesium sulfate 4 g for injection", "title-contradicts-order"],
    [form, "Magnesium sulfate 4 g, for infusion only", "title-contradicts-order"],
  ])("is no %s, and not %s", (said, titled, name) => expect(left(said, titled)).toEqual([name]));
  it("is no product for the eye, and may be one for irrigation", () => {
    expect(left(form, title, "magnesium-eye-drops")).toEqual(["product-for-another-route"]);
    expect(left(form, title, "magnesium-irrigation")).toEqual([]);
  });
});

describe("the filling port of a pump", () => {
  const pump =
    "\nstock home-pump {\n  container  infusor\n  capacity   300 mL\n  made-of    polyisoprene\n  doses      single\n  storage    room-temperature\n}\n";
  const filled = (hazard: string) =>
    names(
      example(
        ["  hazard         not-hazardous", `  hazard         ${hazard}`],
        ["    bag          saline-bag-100", "    bag          home-pump"],
        ["    replace filter on syringe with needle", "    remove filter from syringe"],
      ) + pump,
    );
  it("takes the bare tip of a syringe", () => {
    expect(filled("not-hazardous")).not.toContain("no-needle-attached");
  });
  it("wants a closed device where a hazardous drug goes in", () => {
    expect(filled("hazardous")).toContain("no-needle-attached");
  });
  it("is no bag, whose port is entered with a needle", () => {
    expect(names(example(["    replace filter on syringe with needle", "    remove filter from syringe"]))).toContain(
      "no-needle-attached",
    );
  });
});

describe("a dose per kg that is rounded", () => {
  // 50 mg/kg of 61 kg are 3,050 mg.
  const rounded = (step: string, most = "50 mg/kg") =>
    names(
      example(
        [
          "    dose            4 g per bag\n",
          `    weight          61 kg\n    dose            50 mg/kg per bag\n    round           dose ${step}\n`,
        ],
        ["dose           from 500 mg up to 10 g", `dose           up to ${most}`],
        ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
        ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
        ["    concentration  37.04 mg/mL\n", ""],
      ),
    );
  it("is within the limit per kg by which it is ordered, as far as the rounding moves it no further than a draw may", () => {
    expect(rounded("to nearest 100 mg")).not.toContain("dose-outside-window");
  });
  it("is outside where the rounding moves it further", () => {
    expect(rounded("to nearest 500 mg", "50 mg/kg")).not.toContain("dose-outside-window");
    expect(rounded("upward to 500 mg", "50 mg/kg")).toContain("dose-outside-window");
  });
  it("is outside where it is ordered above the limit, or the whole dose has a limit", () => {
    expect(rounded("to nearest 100 mg", "49 mg/kg")).toContain("dose-outside-window");
    expect(rounded("to nearest 100 mg", "3,060 mg")).toContain("dose-outside-window");
  });
});

describe("the patient of the order", () => {
  const patient = (...lines: string[]) =>
    found(
      example([
        "    access          peripheral\n",
        `    access          peripheral\n${lines.map((l) => `    ${l}\n`).join("")}`,
      ]),
    )
      .filter((f) => f.name === "patient-figure-unlikely")
      .map((f) => f.message);
  it.each([
    ["adult", "weight          7 kg"],
    ["adult", "weight          6 kg to 18 kg"],
    ["adult", "age             3 years"],
    ["adult", "body-surface    0.18 m2"],
    ["child", "weight          200 kg"],
    ["child", "age             40 years"],
    ["neonate", "weight          32 kg"],
    ["neonate", "weight          0.6 kg to 25 kg"],
    ["neonate", "age             3 years"],
  ])("is no %s with %s", (who, line) => {
    expect(patient(`population      ${who}`, line)).toHaveLength(1);
    expect(patient(`population      ${who}`, line)[0]).toContain(who);
  });
  it.each([
    ["adult", "weight          30 kg to 300 kg"],
    ["adult", "age             16 years"],
    ["child", "weight          0.8 kg to 120 kg"],
    ["neonate", "weight          0.4 kg to 6 kg"],
    ["neonate", "age             0 days to 28 days"],
  ])("may be a %s with %s", (who, line) => {
    expect(patient(`population      ${who}`, line)).toEqual([]);
  });
  it("is anybody where the order does not say for whom it is", () => {
    expect(patient("weight          7 kg")).toEqual([]);
    expect(patient("weight          700 kg")[0]).toContain("a patient");
  });
});

describe("a label that counts the salt", () => {
  const salt = (label: string, draw: string) =>
    names(
      example(
        [
          "  light          not-sensitive",
          "  light          not-sensitive\n  counted-as     anhydrous\n  salt           heptahydrate 2 g for 1 g",
        ],
        ["strength   500 mg/mL", `strength   ${label}`],
        ["dose            4 g per bag", "dose            4 g as anhydrous per bag"],
        ["draw 4 g from mag", `draw ${draw} from mag`],
      ),
    );
  it("asks the draw which form it counts", () => {
    expect(salt("1 g/mL as heptahydrate", "4 g")).toEqual(["drawn-form-not-said"]);
  });
  it("is content with either form, a volume, or the dose of the order", () => {
    expect(salt("1 g/mL as heptahydrate", "4 g as anhydrous")).toEqual([]);
    expect(salt("1 g/mL as heptahydrate", "8 g as heptahydrate")).toEqual([]);
    expect(salt("1 g/mL as heptahydrate", "8 mL")).toEqual([]);
    expect(salt("1 g/mL as heptahydrate", "dose")).toEqual([]);
  });
  it("asks nothing where the label counts as the drug is counted", () => {
    expect(salt("500 mg/mL as anhydrous", "4 g")).toEqual([]);
  });
});

describe("water as the most of an infusion", () => {
  const water = (osmolarity: string) =>
    found(
      example(
        ["  contains    sodium 154 mmol/L\n", ""],
        ["  contains    chloride 154 mmol/L\n", ""],
        ["  osmolarity  308 mOsm/L", `  osmolarity  ${osmolarity}`],
        ['  formula        "MgSO4.7H2O"\n', ""],
        ["  ion            magnesium charge 2\n", ""],
      ),
    ).filter((f) => f.name === "water-as-bulk");
  it("is known by its osmolarity, though nothing says `never-alone`", () => {
    expect(water("31 mOsm/L")).toHaveLength(1);
    expect(water("154 mOsm/L")).toEqual([]);
  });
  it("says what would count a drug that brings enough itself", () => {
    expect(water("31 mOsm/L")[0]?.message).toContain("Where magnesium-sulfate brings enough, add what makes it count");
  });
});

describe("two drugs added without a check", () => {
  const twice = (between: string) =>
    found(
      example(
        ["  high-alert     no", "  high-alert     yes"],
        [
          "    syringe      syringe-10mL\n",
          "    syringe      syringe-10mL\n    other        syringe-10mL\n    filter-2     filter-needle-5um\n    needle-2     needle-18-gauge\n",
        ],
        ["draw 4 g from mag into syringe  = 8 mL", "draw 2 g from mag into syringe  = 4 mL"],
        [
          "    replace filter on syringe with needle\n",
          `    attach filter-2 to other\n    draw 2 g from mag into other  = 4 mL\n    expel air from other\n    replace filter-2 on other with needle-2\n    replace filter on syringe with needle\n`,
        ],
        [
          "    inject syringe into bag\n",
          `    inject syringe into bag\n    mix bag by inverting 10 times\n${between}    disinfect bag\n    inject other into bag\n`,
        ],
        ["    mix bag by inverting 10 times\n    inspect", "    mix bag by inverting 5 times\n    inspect"],
      ),
    ).filter((f) => f.name === "high-alert-added-unchecked");
  it("and both drawn before the first addition, are one slip with one check to put before", () => {
    const [first, ...more] = twice("");
    expect(more).toEqual([]);
    expect(first?.message).toMatch(/^Steps \d+ and \d+ add magnesium-sulfate, a high-alert drug, to bag/);
  });
  it("the second checked, are told of the first alone", () => {
    expect(twice("    check by pharmacist\n")[0]?.message).toMatch(/^Step \d+ adds/);
  });
});

describe("figures of a label that cannot be", () => {
  it.each([
    ["  strength   500 mg/mL\n", "  strength   500 g/mL\n"],
    ["  fill       10 mL\n", "  fill       10 L\n"],
    ["  fill       100 mL\n", "  fill       0.1 mL\n"],
  ])("%s for %s", (right, wrong) => {
    expect(names(example([right, wrong]))).toContain("label-figure-unlikely");
  });
  it("a powder that gives more than it weighs", () => {
    expect(names(powderExample(["    gives         50 mg/mL\n", "    gives         50 g/mL\n"]))).toContain(
      "label-figure-unlikely",
    );
  });
  it("a vial of which a tenth can be drawn", () => {
    expect(names(powderExample(["    withdrawable  10 mL\n", "    withdrawable  1 mL\n"]))).toContain(
      "withdrawable-far-below-content",
    );
    expect(names(powderExample(["    withdrawable  10 mL\n", "    withdrawable  8 mL\n"]))).not.toContain(
      "withdrawable-far-below-content",
    );
  });
  it("a pore in millimetres, on the drug, the order and the device", () => {
    const line = "  light          not-sensitive";
    expect(names(example([line, `${line}\n  in-line-filter  required up to 0.5 mm`]))).toContain("pore-unlikely");
    expect(
      names(example(["    infuse-over     4 h", "    infuse-over     4 h\n    in-line-filter  0.2 mm"])),
    ).toContain("pore-unlikely");
    expect(names(`${example()}\ndevice straw {\n  kind  filter-straw\n  pore  5 mm\n}\n`)).toContain("pore-unlikely");
    expect(names(example([line, `${line}\n  in-line-filter  required up to 0.2 micrometre`]))).not.toContain(
      "pore-unlikely",
    );
  });
});

describe("the contents of a fluid beside its osmolarity", () => {
  const fluid = (osmolarity: string, ...contains: string[]) =>
    names(
      `${example()}\nfluid other {\n  source      guide "fluids"\n  name        "other fluid"\n${contains.map((c) => `  contains    ${c}\n`).join("")}  osmolarity  ${osmolarity}\n  use         injection\n}\n`,
    ).includes("fluid-figures-do-not-fit");
  it.each([
    [
      "272 mOsm/L",
      "sodium 130 mmol/L",
      "potassium 4 mmol/L",
      "calcium 1.5 mmol/L",
      "chloride 109 mmol/L",
      "lactate 28 mmol/L",
    ],
    ["278 mOsm/L", "glucose 50 g/L"],
    ["282 mOsm/L", "glucose 40 g/L", "sodium 30 mmol/L", "chloride 30 mmol/L"],
    ["1,026 mOsm/L", "sodium 513 mmol/L", "chloride 513 mmol/L"],
    // One ion of a salt, and what is counted by weight alone, prove nothing.
    ["308 mOsm/L", "sodium 154 mmol/L"],
    ["500 mOsm/L", "amino-acids 50 g/L", "sodium 5 mmol/L"],
  ])("%s fits", (osmolarity, ...contains) => {
    expect(fluid(osmolarity, ...contains)).toBe(false);
  });
  it.each([
    ["30.8 mOsm/L", "sodium 154 mmol/L", "chloride 154 mmol/L"],
    ["308 mOsm/L", "sodium 15.4 mmol/L", "chloride 154 mmol/L"],
    ["308 mOsm/L", "sodium 1,540 mmol/L", "chloride 154 mmol/L"],
    ["278 mOsm/L", "glucose 5 g/L"],
    ["278 mOsm/L", "glucose 500 g/L"],
  ])("%s does not", (osmolarity, ...contains) => {
    expect(fluid(osmolarity, ...contains)).toBe(true);
  });
});

describe("two syringes that nothing joins", () => {
  it("are to be joined by a connector", () => {
    const text = example(
      ["    syringe      syringe-10mL\n", "    syringe      syringe-10mL\n    other        syringe-10mL\n"],
      [
        "    replace filter on syringe with needle\n",
        "    remove filter from syringe\n    inject syringe into other\n",
      ],
    );
    const told = found(text).find((f) => f.name === "no-needle-attached");
    expect(told?.message).toContain("connect syringe to other using");
  });
});
