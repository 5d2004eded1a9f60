import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { figuresOf } from "../../client/cli/figures.ts";
import { standardLibrary } from "../../language/checks/example.ts";
import { asOf, folderWith, runIn, write } from "./run-here.ts";

const site = "site {\n}\n";
const withBaseline = ["check", ".", ...asOf, "--baseline", "known.json"];
const flaw = (words: string) => `recipe a {\n  flaw ${words}\n}\n`;

async function libraryWithBaseline(recipe: string): Promise<string> {
  const folder = folderWith({ "site.misce": site, "a.misce": recipe });
  expect(await runIn(folder, [...withBaseline, "--write-baseline"])).toMatchObject({ status: 0, err: "" });
  return folder;
}

describe("known findings", () => {
  test("are counted and not reported", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    const ran = await runIn(folder, withBaseline);
    expect(ran.status).toBe(0);
    expect(ran.out).not.toContain("flaw error one");
    expect(ran.out).toContain("1 finding known from the baseline known.json, not shown.");
  });

  test("that are errors name what is not judged further, for people and machines", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    expect((await runIn(folder, withBaseline)).out).toContain(
      "Known errors stand in recipe a. What needs a figure that they leave unknown is not judged there",
    );
    const json = JSON.parse((await runIn(folder, [...withBaseline, "--format", "json"])).out);
    expect(json.baseline.errorsIn).toEqual(["recipe a"]);
    const sarif = JSON.parse((await runIn(folder, [...withBaseline, "--format", "sarif"])).out);
    expect(sarif.runs[0].properties.knownErrorsIn).toEqual(["recipe a"]);
  });

  test("that are none say nothing of the kind", async () => {
    const folder = await libraryWithBaseline(flaw("warning one"));
    expect((await runIn(folder, withBaseline)).out).not.toContain("Known errors");
  });

  test("are known again after lines moved, and from another working folder", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    write(folder, "a.misce", `# a remark\n\n${flaw("error  one")}`);
    expect((await runIn(folder, withBaseline)).status).toBe(0);
    const outside = ["check", folder, ...asOf, "--baseline", join(folder, "known.json")];
    expect((await runIn("/", outside)).status).toBe(0);
  });

  test("a new one is reported beside them", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    write(folder, "a.misce", `recipe a {\n  flaw error one\n  flaw warning two\n}\n`);
    const ran = await runIn(folder, withBaseline);
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("flaw warning two");
    expect(ran.out).not.toContain("flaw error one");
  });

  test("one more of the same kind: all are shown, since nobody can tell which is new", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    write(folder, "a.misce", `recipe a {\n  flaw error one\n  flaw error one\n}\n`);
    const ran = await runIn(folder, withBaseline);
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("2 errors");
  });

  test("the same fault in another library of the same run is not known", async () => {
    const recipe = flaw("error one");
    const folder = folderWith({
      "x/site.misce": site,
      "x/a.misce": recipe,
      "y/site.misce": site,
      "y/a.misce": "recipe a {\n}\n",
    });
    await runIn(folder, [...withBaseline, "--write-baseline"]);
    write(folder, "x/a.misce", "recipe a {\n}\n");
    write(folder, "y/a.misce", recipe);
    const ran = await runIn(folder, withBaseline);
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("y/a.misce:2:3");
    expect(ran.out).toContain("In the baseline but gone");
  });

  test("what is gone is named, but only where it was looked for", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    write(folder, "b.misce", "recipe b {\n}\n");
    write(folder, "a.misce", "recipe a {\n}\n");
    expect((await runIn(folder, withBaseline)).out).toContain("test-flaw, a.misce, recipe a: flaw error one");
    const part = await runIn(folder, ["check", "b.misce", ...asOf, "--baseline", "known.json"]);
    expect(part.out).not.toContain("gone");
  });

  test("silenced findings never enter it", async () => {
    const folder = await libraryWithBaseline("recipe a {\n  quiet flaw\n}\n");
    expect(JSON.parse(readFileSync(join(folder, "known.json"), "utf8")).findings).toEqual([]);
  });
});

describe("a slip behind a known error", () => {
  const baselined = ["check", ...asOf, "--baseline", "known.json"];
  // The claim beside the step is a tenth of what it moves; beside that error the strength of the bag is not told.
  const wrong = standardLibrary.replace(/= 8 mL/, "= 0.8 mL");
  const strength = "concentration  37.04 mg/mL";

  test("is shown", async () => {
    const folder = folderWith({ "library.misce": wrong });
    await runIn(folder, [...baselined, "--write-baseline"], { engine });
    const known = await runIn(folder, baselined, { engine });
    expect(known).toMatchObject({ status: 0 });
    expect(known.out).toContain("Known errors stand in recipe magnesium-4g.");
    write(folder, "library.misce", wrong.replace(strength, "concentration  45 mg/mL"));
    // Without the baseline the first error comes first.
    expect((await runIn(folder, ["check", ...asOf], { engine })).out).not.toContain("concentration-differs");
    const ran = await runIn(folder, baselined, { engine });
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("concentration-differs");
    expect(ran.out).not.toContain("claim-differs");
  });

  test("one that the baseline knows too is not, until its figures change", async () => {
    const both = wrong.replace(strength, "concentration  45 mg/mL");
    const folder = folderWith({ "library.misce": both });
    await runIn(folder, [...baselined, "--write-baseline"], { engine });
    const names = JSON.parse(readFileSync(join(folder, "known.json"), "utf8")).findings.map(
      ({ name }: { name: string }) => name,
    );
    expect(names.sort()).toEqual(["claim-differs", "concentration-differs"]);
    expect(await runIn(folder, baselined, { engine })).toMatchObject({ status: 0 });
    expect(await runIn(folder, [...baselined, "--write-baseline"], { engine })).toMatchObject({ status: 0 });
    write(folder, "library.misce", both.replace("45 mg/mL", "46 mg/mL"));
    expect((await runIn(folder, baselined, { engine })).out).toContain("46 mg/mL");
    // All mended, both are gone.
    write(folder, "library.misce", standardLibrary);
    const mended = await runIn(folder, baselined, { engine });
    expect(mended.status).toBe(0);
    expect(mended.out).toContain("In the baseline but gone");
  });
});

describe("the same words, other figures", () => {
  const baselined = ["check", ...asOf, "--baseline", "known.json"];
  const wrong = standardLibrary.replace(/= 8 mL/, "= 0.8 mL");

  test("a fault that a stock of another strength made tenfold is not the one that was known", async () => {
    const folder = folderWith({ "library.misce": wrong });
    expect(wrong).not.toBe(standardLibrary);
    await runIn(folder, [...baselined, "--write-baseline"], { engine });
    expect(await runIn(folder, baselined, { engine })).toMatchObject({ status: 0 });
    const weaker = wrong.replace(/500 mg\/mL/, "50 mg/mL");
    expect(weaker).not.toBe(wrong);
    write(folder, "library.misce", weaker);
    const ran = await runIn(folder, baselined, { engine });
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("80 mL");
  });

  test.each([
    ["Beside step 6 stands 0.8 mL; the step moves 8 mL, 10 times as much.", "0.8 mL, 8 mL, 10 times"],
    ["on 2026-11-25 20 days are left, and the site asks to be told 30 days ahead", ""],
    ["bag has about 1,970 mOsm/L or more; the limit is 900 mOsm/L", "1,970 mOsm/L, 900 mOsm/L"],
    ["4 mg/kg/h for 24 h in line 12 of 3 bags at 5 %", "4 mg/kg/h, 24 h, 5 %"],
  ])("figures of: %s", (message, figures) => {
    expect(figuresOf(message)).toBe(figures);
  });

  test("a known finding is known on the next day too", async () => {
    const folder = folderWith({
      "library.misce": standardLibrary.replace(/expires +2027[-0-9]*/g, "expires 2026-10-31"),
    });
    await runIn(folder, [...baselined, "--write-baseline"], { engine });
    const later = baselined.map((word) => (word === "2026-11-25" ? "2026-11-26" : word));
    const ran = await runIn(folder, later, { engine });
    expect(ran.status).toBe(0);
    expect(ran.out).toMatch(/[1-9]\d* findings? known/);
  });
});

describe("the list only shrinks", () => {
  test("writing it with a new finding is refused with the list, and the file is left alone", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    const before = readFileSync(join(folder, "known.json"), "utf8");
    write(folder, "a.misce", `recipe a {\n  flaw error two\n}\n`);
    const ran = await runIn(folder, [...withBaseline, "--write-baseline"]);
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("may only shrink");
    expect(ran.err).toContain("flaw error two");
    expect(readFileSync(join(folder, "known.json"), "utf8")).toBe(before);
  });

  test("gone entries leave it; entries of files outside the run stay", async () => {
    const folder = folderWith({ "site.misce": site, "a.misce": flaw("error one"), "b.misce": flaw("error two") });
    await runIn(folder, [...withBaseline, "--write-baseline"]);
    write(folder, "a.misce", "recipe a {\n}\n");
    write(folder, "b.misce", "recipe a {\n}\n");
    const part = ["check", "a.misce", ...asOf, "--baseline", "known.json", "--write-baseline"];
    expect((await runIn(folder, part)).status).toBe(0);
    const { findings } = JSON.parse(readFileSync(join(folder, "known.json"), "utf8"));
    expect(findings.map((f: { anchor: string }) => f.anchor)).toEqual(["flaw error two"]);
  });

  test("a finding that became graver is reported", async () => {
    const folder = await libraryWithBaseline(flaw("warning one"));
    const path = join(folder, "known.json");
    write(folder, "known.json", readFileSync(path, "utf8").replace('"warning"', '"note"'));
    expect((await runIn(folder, withBaseline)).status).toBe(1);
  });

  test("it is not written while a file could not be checked", async () => {
    const folder = await libraryWithBaseline(flaw("error one"));
    write(folder, "a.misce", "crash\n");
    const ran = await runIn(folder, [...withBaseline, "--write-baseline"]);
    expect(ran).toMatchObject({ status: 2 });
    expect(ran.err).toContain("not all files could be checked: a.misce");
  });
});

test.each([
  ["not JSON", "{", "cannot be read as JSON"],
  ["another file", '{"schema":"x"}', "is not a baseline of this program"],
  ["an earlier form", '{"schema":"misce-baseline/1","findings":[]}', "holds no figures yet"],
  [
    "a form before what rests on errors was listed",
    '{"schema":"misce-baseline/2","findings":[]}',
    "does not list what rests",
  ],
  ["half an entry", '{"schema":"misce-baseline/3","findings":[{"name":"a"}]}', "Entry 1 of the baseline"],
])("a damaged baseline stops the run: %s", async (_, content, message) => {
  const folder = folderWith({ "site.misce": site, "known.json": content });
  const ran = await runIn(folder, withBaseline);
  expect(ran).toMatchObject({ status: 2, out: "" });
  expect(ran.err).toContain(message);
});

test("a baseline that is not there stops the run", async () => {
  const ran = await runIn(folderWith({ "site.misce": site }), withBaseline);
  expect(ran).toMatchObject({ status: 2, out: "" });
  expect(ran.err).toContain("A first one is made with --write-baseline");
});
