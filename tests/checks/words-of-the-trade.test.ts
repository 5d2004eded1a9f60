/** Words of worksheets and monographs for what the language calls otherwise: each is answered with what to write, and leads to a word that exists. */
import { describe, expect, it, test } from "vitest";
import { tradeWord } from "../../language/answers/words-of-the-trade.ts";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { example } from "../../language/checks/example.ts";
import { wordsForVerbs } from "../../language/checks/meant-verbs.ts";
import { factRows } from "../../language/checks/structure/meant-facts.ts";
import { factTables } from "../../language/model/read-chunk.ts";
import { factsByBlock } from "../../language/syntax/words.ts";
import { findingsOf } from "./findings-of.ts";

const told = (from: string, to: string) => findingsOf(example([from, to])).map((f) => [f.name, f.message] as const);

describe("verbs", () => {
  test.each(wordsForVerbs)("%s is no verb, and leads to verbs", (word, verbs) => {
    expect(verbsByWord.has(word)).toBe(false);
    expect(verbs.filter((verb) => !verbsByWord.has(verb))).toEqual([]);
  });

  test("no word has two rows", () => {
    const words = wordsForVerbs.map(([word]) => word);
    expect(words.filter((word, i) => words.indexOf(word) !== i)).toEqual([]);
  });

  test.each([
    ["disinfect mag", "swab mag", "Write `disinfect`."],
    ["draw 4 g from mag", "aspirate 4 g from mag", "Write `draw`."],
    ["inject syringe into bag", "push syringe into bag", "Write `inject`."],
    ["mix bag by inverting 10 times", "rotate bag 10 times", "`mix bag by inverting`"],
    ["mix bag by inverting 10 times", "invert bag 10 times", "`mix bag by inverting`"],
    ["inspect bag", "examine bag", "Write `inspect`."],
    ["keep mag, filter, needle, syringe for check", "retain mag, filter, needle, syringe for check", "Write `keep`."],
    ["mix bag by inverting 10 times", "humidify bag", '`note "…"`'],
  ])("%s written %s is one finding", (from, to, words) => {
    const [first, ...others] = told(`    ${from}`, `    ${to}`);
    expect(first).toEqual(["unknown-verb", expect.stringContaining(words)]);
    expect(others).toEqual([]);
  });

  test("a word with another meaning hides no step that is missing", () => {
    const names = told("    mix bag by inverting 10 times\n", "    wipe bag\n").map(([name]) => name);
    expect(names).toContain("unknown-verb");
    expect(names.length).toBeGreaterThan(1);
  });

  it("a syringe that is added, and a draw that is called withdraw, are told with the verb that is meant", () => {
    const added = told("    inject syringe into bag", "    add syringe to bag");
    expect(added[0]).toEqual(["step-not-understood", expect.stringContaining("goes in by `inject`")]);
    const withdrawn = told("    draw 4 g from mag into syringe", "    withdraw 4 g from mag into syringe");
    expect(withdrawn[0]).toEqual(["step-not-understood", expect.stringContaining("write `draw`")]);
  });

  it("air is no thing", () =>
    expect(told("    expel air from syringe", "    remove air from syringe")[0]).toEqual([
      "unknown-thing",
      expect.stringContaining("`expel air from`"),
    ]));
});

describe("facts", () => {
  test.each(factRows)("%s: %s is no line of it, and leads to one", (block, word, own) => {
    expect(Object.keys(factTables[block]!)).not.toContain(word);
    expect(factsByBlock).toHaveProperty(block);
    if (own !== undefined) expect(Object.keys(factTables[block]!)).toContain(own);
  });

  test("no word has two rows in one block", () => {
    const rows = factRows.map(([block, word]) => `${block} ${word}`);
    expect(rows.filter((row, i) => rows.indexOf(row) !== i)).toEqual([]);
  });

  test.each([
    ["    infuse-over     4 h", "    duration        4 h", "unknown-fact", "Write `infuse-over`."],
    ["    infuse-over     4 h", "    rate            27 mL/h", "fact-in-wrong-place", "Write `infuse-at`."],
    ["    diluent         sodium", "    vehicle         sodium", "unknown-fact", "Write `diluent`."],
    ["    diluent-volume  100 mL", "    volume          100 mL", "fact-in-wrong-place", "`final-volume` for all of it"],
    ["    use-within     24 h", "    bud            24 h", "unknown-fact", "Write `use-within`"],
    ["    concentration  37", "    strength       37", "fact-in-wrong-place", "Write `concentration`."],
    ["  fill       10 mL", "  volume     10 mL", "fact-in-wrong-place", "Write `fill`."],
  ])("%s written%s", (from, to, name, words) =>
    expect(told(from, to)[0]).toEqual([name, expect.stringContaining(words)]),
  );

  it("a block that is written as a line is told to be one, wherever it is at home", () => {
    const line = "  strength   500 mg/mL\n";
    const wrong = told(line, `${line}  reconstitute  10 mL\n`);
    expect(wrong).toEqual([["unknown-fact", expect.stringContaining("Write it as a block, `reconstitute { … }`")]]);
    const other = told(line, `${line}  stable        24 h\n`);
    expect(other).toEqual([["unknown-fact", expect.stringContaining("It is a block of `drug`")]]);
  });
});

describe("limits", () => {
  const row = (limits: string) =>
    findingsOf(
      `reference guide {\n  title "Guide"\n}\n\ndrug bromol {\n  name "bromol"\n  concentration ${limits} for any route  source guide\n}\n`,
    )
      .filter((f) => f.name === "fact-not-understood")
      .map((f) => ({ message: f.message, fix: f.fixes?.[0]?.title }));

  test.each([
    ["0.5 mg/mL to 2 mg/mL", "Write from 0.5 mg/mL up to 2 mg/mL"],
    ["0.5 to 2 mg/mL", "Write from 0.5 mg/mL up to 2 mg/mL"],
    ["between 0.5 mg/mL and 2 mg/mL", "Write from 0.5 mg/mL up to 2 mg/mL"],
    ["max 2 mg/mL", "Write up to"],
    ["at most 2 mg/mL", "Write up to"],
    ["not exceeding 2 mg/mL", "Write up to"],
    ["minimum 2 mg/mL", "Write from"],
    ["at least 2 mg/mL", "Write from"],
    ["less than 2 mg/mL", "Write below"],
    ["more than 2 mg/mL", "Write above"],
  ])("%s has one meaning", (limits, fix) => expect(row(limits)).toEqual([{ message: expect.any(String), fix }]));

  test("a figure alone is asked which end it is", () =>
    expect(row("2 mg/mL")).toEqual([
      { message: expect.stringContaining("`up to 2 mg/mL` for the most"), fix: undefined },
    ]));

  test.each(["0.5 mg/mL to 2 mg", "about 2 mg/mL", "0.5 mg/mL to"])(
    "%s is told, and nothing is put in its place",
    (limits) => {
      const [first, ...others] = row(limits);
      expect(others).toEqual([]);
      expect(first?.message).toBeTruthy();
    },
  );
});

describe("names in several words", () => {
  const fix = (from: string, to: string) =>
    findingsOf(example([from, to]))
      .filter((f) => f.name === "fact-not-understood")
      .map((f) => f.fixes?.[0]?.title);
  const diluent = "    diluent         sodium-chloride-0.9";
  test.each([
    ["    drug            magnesium-sulfate\n", "    drug            magnesium sulfate\n", "magnesium-sulfate"],
    [diluent, "    diluent         sodium chloride 0.9%", "sodium-chloride-0.9"],
    [diluent, '    diluent         "sodium chloride 0.9 %"', "sodium-chloride-0.9"],
    [diluent, "    diluent         normal saline 100 mL", "normal-saline"],
    ["    method          add-to-bag", "    method          add to bag", "add-to-bag"],
    ["use-within     24 h at room-temperature", "use-within     24 h at room temperature", "room-temperature"],
  ])("%s written%s", (from, to, name) => expect(fix(from, to)).toEqual([`Write ${name}`]));

  test.each([
    ["    method          add-to-bag", "    method          dilute well"],
    ["    dose            4 g per bag", "    dose            4 g slowly"],
    [diluent, '    diluent         "as needed, see 4.2"'],
  ])("%s written%s is no name", (from, to) => expect(fix(from, to)).toEqual([undefined]));
});

describe("words that are declared nowhere", () => {
  const light = "  light          not-sensitive\n";
  const drug = (line: string) =>
    findingsOf(example([light, `${light}  ${line}\n`])).map((f) => [f.name, f.fixes?.[0]?.title] as const);

  test.each([
    ["never intratecal", "Write intrathecal"],
    ["never epidurral", "Write epidural"],
    ["never-stored refrigirator", "Write refrigerator"],
    ["container-material polyolefine unsuitable", "Write polyolefin"],
  ])("%s is told as a slip", (line, fix) => expect(drug(line)).toContainEqual(["word-misspelt", fix]));

  test.each([
    "never intracisternal",
    "never intraurethral",
    "never intracavernosal",
    "never intralumbar",
    "never perivascular",
    "never-stored cellar",
    "never-stored fridge-2",
    "never-stored freezer-1",
    "never-stored cold-room",
    "container-material steel unsuitable",
  ])("%s may be meant", (line) => expect(drug(line).map(([name]) => name)).not.toContain("word-misspelt"));

  const held = (line: string) =>
    findingsOf(example(["  contains    sodium 154 mmol/L", `  contains    ${line} 154 mmol/L`]))
      .filter((f) => f.name === "word-misspelt")
      .map((f) => f.fixes?.[0]?.title);
  test.each([
    ["sodim", "Write sodium"],
    ["Na", "Write sodium"],
    ["phospate", "Write phosphate"],
    ["bicarbonat", "Write bicarbonate"],
  ])("contains %s is told", (name, fix) => expect(held(name)).toEqual([fix]));
  test.each(["lactate", "acetate", "iodide", "amino-acids", "sodium-chloride", "creatine", "edetate", "carnitine"])(
    "contains %s may be meant",
    (name) => expect(held(name)).toEqual([]),
  );

  const formed = (form: string) =>
    findingsOf(example(["solution-for-infusion", form]))
      .filter((f) => f.name === "word-misspelt")
      .map((f) => f.fixes?.[0]?.title);
  test.each([
    ["solution-fro-infusion", "Write solution-for-infusion"],
    ["soluton-for-infusion", "Write solution-for-infusion"],
    ["emulsion-for-infusoin", "Write emulsion-for-infusion"],
  ])("%s is told", (form, fix) => expect(formed(form)).toEqual([fix]));
  test.each([
    "solution-for-injection",
    "concentrate-for-solution-for-infusion",
    "parenteral-nutrition",
    "cardioplegia-solution",
    "pca-syringe",
    "intravitreal-injection",
    "eye-drops",
  ])("%s may be meant", (form) => expect(formed(form)).toEqual([]));

  it("a check by a role that the site does not name is told, with those who may", () => {
    const by = (role: string) =>
      findingsOf(example(["    inspect bag\n", `    inspect bag\n    check by ${role}\n`])).map((f) => f.message);
    expect(by("pharmcist")).toEqual([expect.stringContaining("Did you mean `pharmacist`?")]);
    expect(by("nurse")).toEqual([expect.stringMatching(/Those who may check here: .*pharmacist/)]);
    expect(by("aseptic-lead")).toEqual([]);
  });

  it("a ban by another name of the place or the material holds", () => {
    const fridge = example(
      [light, `${light}  never-stored   fridge\n`],
      ["24 h at room-temperature", "24 h at refrigerator"],
    );
    expect(findingsOf(fridge).map((f) => f.name)).toContain("storage-contradicts-drug");
    const chloride = example(
      [light, `${light}  container-material  pvc unsuitable\n`],
      ["  made-of    polyolefin", "  made-of    polyvinyl-chloride"],
    );
    expect(findingsOf(chloride).map((f) => f.name)).toContain("container-material-unsuitable");
  });

  it("`route` is no name of a route", () =>
    expect(drug("never route intrathecal")).toEqual([["fact-not-understood", "Leave it out"]]));
});

describe("routes", () => {
  const named = (route: string, limits = "up to 10 mg/mL for route intravenous") =>
    findingsOf(
      example(
        ["    route           intravenous", `    route           ${route}`],
        ["  concentration  up to 200 mg/mL for route intravenous", `  concentration  ${limits}`],
      ),
    ).map((f) => f.name);

  test.each(["IV", "iv", "intravenously", "iv-infusion"])("%s is told, and limits hold all the same", (route) =>
    expect(named(route)).toEqual(expect.arrayContaining(["route-not-in-full", "concentration-above-limit"])),
  );

  it("a limit holds for a route under each of its names", () => {
    expect(named("spinal", "up to 10 mg/mL for route intrathecal")).toContain("concentration-above-limit");
    expect(named("intrathecal", "up to 10 mg/mL for route epidural")).not.toContain("concentration-above-limit");
    expect(named("intravenous", "up to 10 mg/mL for route IV")).toEqual(
      expect.arrayContaining(["route-not-in-full", "concentration-above-limit"]),
    );
  });

  test.each(["intravenous", "intra-venous", "subcutaneous", "bladder-instillation", "spinal", "perineural"])(
    "%s is written in full",
    (route) => expect(named(route)).not.toContain("route-not-in-full"),
  );

  it("is forbidden under each of its names", () => {
    const forbidden = findingsOf(
      example(
        ["    route           intravenous", "    route           IT"],
        ["  light          not-sensitive", "  light          not-sensitive\n  never          intrathecal"],
      ),
    ).map((f) => f.name);
    expect(forbidden).toEqual(expect.arrayContaining(["route-not-in-full", "route-forbidden"]));
  });
});

describe("plain writing", () => {
  const fixes = (from: string, to: string) =>
    findingsOf(example([from, to]))
      .filter((f) => /not-understood|unknown-verb/.test(f.name))
      .map((f) => f.fixes?.[0]?.title);
  const ampoule = "    mag          magnesium-ampoule\n";
  test.each([
    ["    disinfect bag\n", "    disinfect the bag\n", "Leave it out"],
    ["    disinfect bag\n", "    disinfect bag.\n", "Write bag"],
    ["    disinfect bag\n", "    3. disinfect bag\n", "Leave it out"],
    ["    disinfect bag\n", "    - disinfect bag\n", "Leave it out"],
    ["    check label and expiry of mag, bag\n", "    check label and expiry of mag and bag\n", "Write a comma"],
    ["    inject syringe into bag\n", "    inject syringe to bag\n", "Write into"],
    ["    draw 4 g from mag", "    draw up 4 g from mag", "Leave it out"],
    [ampoule, "    mag:          magnesium-ampoule\n", "Leave it out"],
    [ampoule, "    mag          magnesium-ampoule x 2\n", "Write 2 x magnesium-ampoule"],
    ["    attach filter to syringe\n", "    attach filter syringe\n", "Write to syringe"],
    ['  lot "KQ-2291"  expires', "  lot KQ-2291  expires", 'Write "KQ-2291"'],
    ['  lot "KQ-2291"  expires', '  lot "KQ-2291"  exp', "Write expires"],
  ])("%s written%s has one mend", (from, to, title) => expect(fixes(from, to)).toEqual([title]));

  test.each([
    ["    draw 4 g from mag into syringe", "    draw 4 g into syringe from mag"],
    ["    label bag\n", "    label bag with name\n"],
    ["    inspect bag\n", "    inspect bag for particles\n"],
  ])("%s written%s is told, and nothing is put in its place", (from, to) =>
    expect(fixes(from, to)).toEqual([undefined]),
  );

  it("things that are counted without `x` are told once", () =>
    expect(findingsOf(example([ampoule, "    mag          2 magnesium-ampoule\n"])).map((f) => f.name)).toEqual([
      "unknown-unit",
    ]));
});

describe("an order per the wrong container", () => {
  const per = (name: string, ...more: [string, string][]) =>
    findingsOf(example(["    dose            4 g per bag", `    dose            4 g per ${name}`], ...more)).map(
      (f) => f.name,
    );

  test.each(["syringe", "mag"])("%s is one slip", (name) =>
    expect(per(name)).toEqual(["ordered-container-not-finished"]),
  );

  it("a container that is filled and has no preparation is looked at all the same", () => {
    const left = per("syringe", ["    inject syringe into bag\n", "    inject 7 mL from syringe into bag\n"]);
    expect(left).toContain("ordered-container-not-finished");
    expect(left.length).toBeGreaterThan(1);
  });
});

describe("asked for by `misce explain`", () => {
  test.each(factRows)("%s: %s is answered for that block", (block, word) => {
    expect(tradeWord(word.toUpperCase()).map(({ inside }) => inside)).toContain(block);
  });
  test.each(wordsForVerbs)("%s is answered for the steps", (word) => {
    expect(tradeWord(word).at(-1)?.inside).toBe("steps");
  });
  test("nothing is said of a word that no row knows", () => {
    for (const word of ["syringe", "constructor", ""]) expect(tradeWord(word)).toEqual([]);
  });
});
