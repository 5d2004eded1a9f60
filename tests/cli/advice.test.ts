/** `misce explain RECIPE FIGURE` and `misce plan`, over the sample library. */
import { cpSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { asOf, folderWith, runIn, write } from "./run-here.ts";

const samples = join(import.meta.dirname, "../../samples/library");
const run = (words: string[], cwd = samples) => runIn(cwd, [...words, ...asOf], { engine });

describe("explain", () => {
  test("a check as before, by its name", async () => {
    expect((await run(["explain", "claim-differs"])).out).toMatch(/^.*\nerror, volumes: claim-differs\n\nWhy/);
  });

  test("a recipe alone: its figures by name", async () => {
    const { out, status } = await run(["explain", "magnesium-4g"]);
    expect(status).toBe(0);
    expect(out).toMatch(/\n {2}dose {2,}4 g\n/);
    expect(out).toMatch(/\n {2}concentration {2,}37\.04 mg\/mL\n/);
    expect(out).toMatch(/does not replace the pharmacist's check/);
  });

  test("one figure, line by line, with room for the second check", async () => {
    const { out } = await run(["explain", "vancomycin-loading", "dose", "--weight", "60kg"]);
    expect(out).toContain(
      "For weight 60 kg\n\nDose of vancomycin per bag: 1,500 mg\n    25 mg/kg × 60 kg = 1,500 mg\n    rounded half up to the nearest 250 mg: 1,500 mg\n    worked again by ",
    );
  });

  test("the same by the recipe's file, and as JSON", async () => {
    const { out } = await run(["explain", "recipes/magnesium-4g.misce", "concentration", "--format", "json"]);
    const json = JSON.parse(out);
    expect(json).toMatchObject({ schema: "misce-working/1", recipe: "magnesium-4g", asOf: "2026-11-25" });
    expect(json.orders[0].figures[0].value).toEqual({ number: "37.04", unit: "mg/mL", exact: "1000/27" });
  });

  test("how a word of the language is used: a block, a verb, a line of several blocks", async () => {
    const drug = await run(["explain", "drug"]);
    expect(drug.status).toBe(0);
    expect(drug.out).toContain("drug NAME { … }");
    expect(drug.out).toMatch(/\n {2}density QUANTITY\n {6}Density of the liquid\. Names its source\.\n/);
    expect(drug.out).toContain("drug, a line of stock:");
    expect((await run(["explain", "stock"])).out).toContain("reconstitute { … }\n      A block.");
    expect((await run(["explain", "recipe"])).out).toMatch(/order \{ … \}[\s\S]*preparation NAME \{ … \}/);
    const draw = await run(["explain", "draw"]);
    expect(draw.out).toMatch(/^draw, a step:\n\n {2}draw \(QUANTITY .*\n {6}Draws liquid into a syringe/);
    expect(draw.out).toContain("At the bench: Tilt the ampoule");
    expect((await run(["explain", "storage"])).out).toMatch(/^storage, a line of stock:/);
    const flagged = await run(["explain", "draw", "--weight", "60kg"]);
    expect([flagged.status, flagged.err]).toEqual([2, expect.stringMatching(/Leave out --weight/)]);
    expect((await run(["explain", "densty"])).err).toMatch(/Did you mean density/);
    const trade = await run(["explain", "cap"]);
    expect([trade.status, trade.err]).toEqual([
      2,
      expect.stringMatching(/no word of the language\. In order: .* In steps: Write `seal`/),
    ]);
  });

  test("refuses clearly what is neither", async () => {
    const both = await run(["explain", "magnesium-4h"]);
    expect([both.status, both.err]).toEqual([
      2,
      expect.stringMatching(/No check, word or recipe here is called "magnesium-4h"\. Did you mean magnesium-4g/),
    ]);
    const check = await run(["explain", "claim-differs", "dose"]);
    expect([check.status, check.err]).toEqual([2, expect.stringMatching(/is a check and has no figures/)]);
    const nowhere = await run(["explain", "claim-differ"], folderWith({ "readme.txt": "nothing" }));
    expect([nowhere.status, nowhere.err]).toEqual([
      2,
      expect.stringMatching(/No check is called "claim-differ"\. Did you mean claim-differs/),
    ]);
    const form = await run(["explain", "magnesium-4g", "dose", "--format", "xml"]);
    expect([form.status, form.err]).toEqual([2, expect.stringMatching(/It can be text or json/)]);
  });
});

describe("plan", () => {
  test("a batch of 12: containers, lots, what a shortage would change", async () => {
    const { out, status } = await run(["plan", "magnesium-4g", "--bags", "12"]);
    expect(status).toBe(0);
    expect(out).toContain("12 finished containers in 12 runs");
    // 12 x 4 g = 48 g; vials of 25 g and of 5 g: 2 x 25 g leaves 2 g, 10 x 5 g as well but in more containers.
    expect(out).toContain(
      "shared over the batch: 2 x magnesium-vial-50 (500 mg in 1 mL, as in the recipe): 50 g in all, 2 g left over",
    );
    expect(out).toMatch(/use first: lot KQ-4692, expires 2027-06-22, 209 days left\n {2}then: lot KQ-4703/);
    expect(out).toMatch(/Without magnesium-vial-10:\n {2}magnesium-vial-50: nothing new is found/);
  });

  test("as JSON the same, and no inner figures", async () => {
    const { out } = await run(["plan", "magnesium-4g", "--bags", "12", "--format", "json"]);
    const json = JSON.parse(out);
    expect(json).toMatchObject({ schema: "misce-plan/1", made: 12, runs: 12 });
    expect(json.drugs[0].options[0].openings[0]).toEqual({
      way: "shared",
      counts: [{ name: "magnesium-vial-50", count: 2 }],
      containers: 2,
      total: "50 g",
      waste: "2 g",
    });
  });

  test("a shortage over the whole library", async () => {
    const { out, status } = await run(["plan", "--without", "magnesium-vial-10"]);
    expect(status).toBe(0);
    expect(out).toMatch(
      /^magnesium-vial-10, as of 2026-11-25: used by \d+ recipes, of which \d+ still works? with another stock/,
    );
  });

  test("refuses what cannot be planned", async () => {
    expect((await run(["plan"])).err).toMatch(/Name a recipe to plan, or a stock with --without STOCK/);
    expect((await run(["plan", "vancomycin-loading"])).err).toMatch(/Say which: --weight VALUE/);
    expect((await run(["plan", "--without", "nothing-such"])).err).toMatch(/No stock is called "nothing-such"/);
    expect((await run(["plan", "magnesium-4g", "--without", "saline-bag-100"])).err).toMatch(/Leave out the recipe/);
  });
});

describe("a stock declared twice, the second time with another strength", () => {
  const twice = (stock = "magnesium-vial-10") => {
    const folder = folderWith({});
    cpSync(samples, folder, { recursive: true });
    const vials = readFileSync(join(samples, "stock/vials.misce"), "utf8");
    const [vial = ""] = new RegExp(`^stock ${stock} \\{[^}]*^\\}`, "m").exec(vials) ?? [];
    write(folder, "more.misce", vial.replace(/strength .*/, "strength 50 mg in 1 mL"));
    return folder;
  };
  const line = /declared-twice: .*magnesium-vial-10/;

  test("is told with a figure that rests on it, and gives exit status 1", async () => {
    const folder = twice();
    const text = await run(["explain", "magnesium-4g", "dose"], folder);
    expect(text.status).toBe(1);
    expect(text.out).toMatch(/NOT TO BE RELIED ON, since .* against magnesium-4g:/);
    expect(text.out).toMatch(line);
    expect((await run(["explain", "magnesium-4g"], folder)).out).toMatch(line);
    const json = await run(["explain", "magnesium-4g", "dose", "--format", "json"], folder);
    expect([json.status, JSON.parse(json.out).against[0].name]).toEqual([1, "declared-twice"]);
    expect(json.err).toMatch(line);
  });

  test("is told with a plan, and counted among no containers", async () => {
    const folder = twice();
    const text = await run(["plan", "magnesium-4g", "--bags", "12"], folder);
    expect(text.status).toBe(1);
    expect(text.out).toMatch(line);
    expect(text.out).toMatch(/not counted: magnesium-vial-10, its name is declared twice/);
    expect(text.out).not.toMatch(/\d x magnesium-vial-10/);
    const json = await run(["plan", "magnesium-4g", "--format", "json"], folder);
    expect([json.status, JSON.parse(json.out).against[0].name]).toEqual([1, "declared-twice"]);
    expect(json.err).toMatch(line);
  });

  test("is told with a shortage of it; a recipe with an error of its own works with no stock", async () => {
    const folder = twice();
    const { out, status } = await run(["plan", "--without", "magnesium-vial-10"], folder);
    expect(status).toBe(1);
    expect(out).toMatch(/NOT TO BE RELIED ON, since .* against magnesium-vial-10:\n {2}declared-twice/);
    expect(out).toMatch(/of which 0 still work with/);
    expect(out).toMatch(/ {2}error as it is now: declared-twice: /);
    const json = JSON.parse((await run(["plan", "--without", "magnesium-vial-10", "--format", "json"], folder)).out);
    expect(json.shortages[0].recipes[0].against[0].name).toBe("declared-twice");
  });

  test("is left out where it is only one that could be taken", async () => {
    const { out, status } = await run(["plan", "magnesium-4g"], twice("magnesium-vial-50"));
    expect(status).toBe(0);
    expect(out).toMatch(/not counted: magnesium-vial-50, its name is declared twice/);
  });

  test("is no matter to a recipe that does not use it", async () => {
    expect((await run(["plan", "furosemide-50mg"], twice())).status).toBe(0);
  });
});
