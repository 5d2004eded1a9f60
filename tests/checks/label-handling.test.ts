/**
 * Salts, percentages without a name, counts, filters, shaking and flushing in titles and on labels. Magnesium sulfate 4 g in 108 mL is
 * 3.704 % w/v. Figures and monographs are invented.
 */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

type Change = [string, string];

const titled = "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL";
const labelled = (line: string): Change => [
  "  preparation bag {",
  `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`,
];
const words = (text: string) =>
  findingsOf(text)
    .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));
const told = (line: string, ...changes: Change[]) => words(example(labelled(line), ...changes));
const toldInTitle = (title: string, ...changes: Change[]) => words(example([titled, title], ...changes));

describe("another salt", () => {
  // Chloride and sulfate of magnesium hold different shares of it (their formulas).
  it.each(["Magnesium chloride 4 g", "Contains magnesium chloride", "Magnesium gluconate 4 g in 100 mL"])(
    "%s is told",
    (line) => {
      expect(told(line)).toHaveLength(1);
      expect(told(line)[0]).toContain("; the order says magnesium");
    },
  );

  it("is told in the title", () => {
    expect(toldInTitle("Magnesium chloride 4 g in sodium chloride 0.9 % 100 mL")).toEqual([
      "magnesium chloride; the order says magnesium-sulfate",
    ]);
  });

  it.each([
    "Magnesium sulphate 4 g",
    "Magnesium sulfate heptahydrate 4 g",
    "Magnesium sulfate 4 g in sodium chloride 0.9 %",
    "Never magnesium chloride",
    "Compatible with potassium chloride",
    "Not for use with calcium gluconate",
  ])("%s is in order", (line) => {
    expect(told(line)).toEqual([]);
  });

  it("is not told of a drug of which the library names no salt", () => {
    const text = powderExample(
      ["Vancomycin 500 mg in", "Vancomycin hydrochloride 500 mg in"],
      ["    dose            500 mg per sack", "    dose            500 mg per sack"],
    );
    expect(words(text)).toEqual([]);
  });
});

describe("another drug with its salt", () => {
  // The drug and its salt stand before the figure, and nothing else (common practice of labels).
  const morphine: Change = [
    "fluid sodium-chloride-0.9 {",
    'drug morphine {\n  source  guide "morphine"\n  name    "morphine"\n  high-alert  yes\n  hazard  not-hazardous\n  light   not-sensitive\n  compatible  sodium-chloride-0.9\n}\n\nfluid sodium-chloride-0.9 {',
  ];

  it("is told as the drug alone is", () => {
    expect(told("Morphine hydrochloride 4 g", morphine)).toEqual(["morphine; the recipe says magnesium-sulfate"]);
    expect(told("Morphine 4 g", morphine)).toEqual(["morphine; the recipe says magnesium-sulfate"]);
    expect(told("Magnesium sulfate 4 g, for morphine users", morphine)).toEqual([]);
  });
});

describe("the whole name of another drug", () => {
  // Liposomal and plain amphotericin are given in different doses, and one has been given for the other (published alerts, from memory).
  const named = (other: string, title: string) =>
    words(
      powderExample(
        [
          "drug vancomycin {",
          `drug ${other} {\n  source  guide "other"\n  name    "${other}"\n  high-alert  yes\n  hazard  not-hazardous\n  light   not-sensitive\n  compatible  sodium-chloride-0.9\n}\n\ndrug liposomal-vancomycin {`,
        ],
        ['  name           "vancomycin"', '  name           "liposomal vancomycin"'],
        ["  drug       vancomycin\n", "  drug       liposomal-vancomycin\n"],
        ["    drug            vancomycin\n", "    drug            liposomal-vancomycin\n"],
        ["Vancomycin 500 mg in", `${title} 500 mg in`],
      ),
    );

  it("is told where nothing in the title tells the two apart", () => {
    expect(named("vancomycin", "Vancomycin")).toEqual(["vancomycin; the order says liposomal-vancomycin"]);
    expect(named("vancomycin", "Liposomal vancomycin")).toEqual([]);
    expect(named("vancomycin", "Vancomycin (liposomal)")).toEqual([]);
  });

  it("is no other where the library has none of that name, and where only the salt differs", () => {
    expect(named("amphotericin", "Vancomycin")).toEqual([]);
    expect(
      toldInTitle("Magnesium 16.2 mmol in sodium chloride 0.9 % 100 mL", [
        "drug magnesium-sulfate {",
        'drug magnesium {\n  source  guide "other"\n  name    "magnesium"\n  high-alert  yes\n  hazard  not-hazardous\n  light   not-sensitive\n  compatible  sodium-chloride-0.9\n}\n\ndrug magnesium-sulfate {',
      ]),
    ).toEqual([]);
  });
});

describe("a percentage without a name", () => {
  it.each([
    ["Magnesium sulfate 4 g in 108 mL (37 % w/v)", ["37 % w/v; the recipe says 3.704 % w/v"]],
    ["(37 %)", ["37 %; the recipe says 3.704 % w/v"]],
  ])("%s is another strength", (line, expected) => {
    expect(told(line)).toEqual(expected);
  });

  it.each([
    "Magnesium sulfate 4 g (3.7 % w/v)",
    "(3.7 %)",
    "In sodium chloride (0.9 %)",
    "Protect from light (5 % loss in 1 h)",
  ])("%s is in order", (line) => {
    expect(told(line)).toEqual([]);
  });
});

describe("how many are made", () => {
  const two: Change = [
    "    method          add-to-bag\n",
    "    makes           2 x bag\n    method          add-to-bag\n",
  ];
  it.each([
    [`${titled}, batch of 4 bags`, ["batch of 4; the order says makes 2 x bag"]],
    [`${titled}, four bags`, ["four bags; the order says makes 2 x bag"]],
  ])("%s is another number", (title, expected) => {
    expect(toldInTitle(title, two)).toEqual(expected);
  });

  it.each([`${titled}, batch of 2`, `${titled}, two bags`, `${titled}, 100 mL bags`])("%s is in order", (title) => {
    expect(toldInTitle(title, two)).toEqual([]);
  });

  it("is left alone where the order makes one", () => {
    expect(toldInTitle(`${titled}, first of three bags`)).toEqual([]);
  });
});

describe("what the ward is told to do", () => {
  const monograph = (fact: string): Change => [
    "  light          not-sensitive\n",
    `  light          not-sensitive\n  ${fact}\n`,
  ];
  const shaken = monograph("mixing         not-shaken");
  const other = monograph("incompatible   glucose-5");
  const fluid: Change = [
    "fluid sodium-chloride-0.9 {",
    'fluid glucose-5 {\n  source      guide "fluids"\n  name        "glucose 5 % w/v"\n  contains    glucose 50 g/L\n  osmolarity  278 mOsm/L\n  use         injection\n}\n\nfluid sodium-chloride-0.9 {',
  ];
  const filter: Change = ["    infuse-over     4 h\n", "    infuse-over     4 h\n    in-line-filter  0.2 micrometre\n"];

  it("must not be shaken where the monograph says so", () => {
    expect(told("Shake well before use.", shaken)).toEqual([
      "shake well; the monograph of magnesium-sulfate says not-shaken",
    ]);
    expect(told("Do not shake.", shaken)).toEqual([]);
    expect(told("Swirl gently, never shake.", shaken)).toEqual([]);
    expect(told("Shake well before use.")).toEqual([]);
  });

  it("is not flushed with a fluid that the drug must not meet", () => {
    const incompatible = ["flush with glucose; the monograph of magnesium-sulfate says incompatible glucose-5"];
    expect(told("Flush with glucose 5 % before and after.", other, fluid)).toEqual([]);
    expect(told("Flush with glucose 5 %.", other, fluid)).toEqual(incompatible);
    expect(told("Flush the line with glucose", other, fluid)).toEqual(incompatible);
    expect(told("Flush with sodium chloride 0.9 %", other, fluid)).toEqual([]);
    expect(told("Do not flush with glucose", other, fluid)).toEqual([]);
    expect(told("Flush with glucose 5 %", fluid)).toEqual([]);
  });

  it("is given through the ordered filter", () => {
    expect(told("Through an in-line filter of 5 micrometre", filter)).toEqual([
      "5 micrometre; the order says in-line-filter 0.2 micrometre",
    ]);
    expect(told("Through an in-line filter of 0.22 micrometre", filter)).toEqual([]);
    expect(told("Made with a filter needle of 5 micrometre")).toEqual([]);
  });
});

describe("the strength of a lock", () => {
  const lock = (title: string) =>
    toldInTitle(
      title,
      ["    dose            4 g per bag", "    concentration   37.04 mg/mL"],
      ["    diluent-volume  100 mL", "    final-volume    108 mL"],
      ["magnesium-4g {", "magnesium-bag {"],
    );

  it("is not that of the product where the title gives no dose", () => {
    expect(lock("Magnesium sulfate lock 500 mg/mL")).toHaveLength(1);
    expect(lock("Magnesium sulfate lock 37.04 mg/mL")).toEqual([]);
  });

  it("may be told beside that of the product", () => {
    expect(lock("Magnesium sulfate 37.04 mg/mL (500 mg/mL ampoules)")).toEqual([]);
    expect(lock("Magnesium sulfate 37.04 mg/mL (50 mg/mL ampoules)")).toHaveLength(1);
    expect(toldInTitle("Magnesium sulfate 4 g (8 mL of 500 mg/mL) in 100 mL")).toEqual([]);
    expect(toldInTitle("Magnesium sulfate 50 % 8 mL in sodium chloride 0.9 % 100 mL")).toEqual([]);
    expect(toldInTitle("Magnesium sulfate 50 % 80 mL in sodium chloride 0.9 % 100 mL")).toEqual([
      "50 % 80 mL; the order comes to 50 % 8 mL",
    ]);
  });
});

describe("an amount and a volume larger than the container", () => {
  it("are another container's, however right their strength is", () => {
    expect(told("Magnesium sulfate 8 g in 216 mL")).toEqual([
      "8 g; the order says 4 g",
      "216 mL; the recipe says 100 mL and 108 mL",
    ]);
    expect(told("Magnesium sulfate 370 mg in 10 mL")).toEqual([]);
  });
});

describe("a volume alone behind a strength", () => {
  it("is the container's", () => {
    expect(told("Magnesium sulfate 37 mg/mL, 250 mL")).toEqual(["250 mL; the recipe says 100 mL and 108 mL"]);
    expect(told("Magnesium sulfate 37 mg/mL, 108 mL")).toEqual([]);
    expect(told("Magnesium sulfate 37 mg/mL, bolus 10 mL")).toEqual([]);
    expect(told("Residual volume 2 mL")).toEqual([]);
    expect(told("Total volume 1,080 mL")).toHaveLength(1);
  });
});

describe("a storage place without a limit of its own", () => {
  it("is told", () => {
    const kept = (place: string) =>
      findingsOf(
        example([
          "    use-within     24 h at room-temperature\n",
          `    use-within     24 h at room-temperature\n    store          ${place}\n`,
        ]),
      ).map(({ message }) => message);
    expect(kept("room-temperature")).toEqual([]);
    expect(kept("refrigerator")).toEqual([
      "It is kept at refrigerator, and `use-within` speaks of room-temperature alone. Add the limit for refrigerator, or correct `store`.",
    ]);
  });
});
