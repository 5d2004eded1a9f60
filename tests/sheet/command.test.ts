/** `misce sheet` with the real engine: what it writes, what it refuses, and its exit status. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { example } from "../../language/checks/example.ts";
import { folderWith, runIn } from "../cli/run-here.ts";
import { readable } from "./sample-sheets.ts";

const at = ["--at", "2026-11-25T09:30"];
const run = (cwd: string, ...words: string[]) => runIn(cwd, ["sheet", ...words], { engine });

describe("misce sheet", () => {
  it("writes HTML on standard output, by the recipe's name or its file", async () => {
    const folder = folderWith({ "library.misce": example() });
    const byName = await run(folder, "magnesium-4g", ...at);
    const byFile = await run(folder, "library.misce", ...at);
    expect([byName.status, byName.err]).toEqual([0, ""]);
    expect(byFile.out).toBe(byName.out);
    expect(readable(byName.out)).toContain("Draw 4 g (8 mL) from mag into syringe.");
  });

  it("writes HTML and PDF files, sheet or label", async () => {
    const folder = folderWith({ "library.misce": example() });
    for (const out of ["sheet.html", "sheet.pdf"]) {
      expect((await run(folder, "magnesium-4g", ...at, "--out", out)).status).toBe(0);
      expect(existsSync(join(folder, out))).toBe(true);
    }
    expect(readFileSync(join(folder, "sheet.pdf")).subarray(0, 5).toString()).toBe("%PDF-");
    const label = await run(folder, "magnesium-4g", ...at, "--label", "--number", "KQ-0417");
    expect(readable(label.out)).toContain("(91)magnesium-4g(93)2611260930(92)KQ-0417");
    expect(label.out).not.toContain("<h2>Steps</h2>");
  });

  it("takes the time from the clock where none is given, in the site's time zone", async () => {
    const zone = example([
      "  expiry-ahead   30 days\n",
      '  expiry-ahead   30 days\n  time-zone      "Europe/London"\n',
    ]);
    const folder = folderWith({ "library.misce": zone });
    const now = () => new Date("2026-07-01T22:45:00Z"); // London is an hour ahead of UTC in July
    const ran = await runIn(folder, ["sheet", "magnesium-4g"], { engine, now });
    expect(readable(ran.out)).toMatch(/Prepared\s+2026-07-01 23:45/);
  });

  it("prints a faulty preparation only with its mark, and exits with 1", async () => {
    const folder = folderWith({ "library.misce": example(["= 8 mL", "= 0.8 mL"]) });
    const ran = await run(folder, "magnesium-4g", ...at);
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("NOT FOR USE");
    expect(ran.err).toContain("Beside step 6 stands 0.8 mL");
  });

  it.each([
    [["magnesium-9g"], /No recipe is called "magnesium-9g" here\. Did you mean magnesium-4g\?/],
    [["nowhere.misce"], /"nowhere\.misce" cannot be read: it does not exist/],
    [["magnesium-4g", "--weight", "60kg"], /does not depend on body weight/],
    [["magnesium-4g", "--lot", "KQ-2291"], /--lot is "KQ-2291"\. Write the material and its lot/],
    [["magnesium-4g", "--lot", "mag=KQ-2291", "--lot", "mag=KQ-2291"], /names lot KQ-2291 of mag twice/],
    [
      ["magnesium-4g", "--lot", "mag=KQ-1"],
      /Lot KQ-1 of magnesium-ampoule is not on the shelf\. On the shelf: KQ-2291\./,
    ],
    [["magnesium-4g", "--out", "sheet.doc"], /Let the file end in \.html, \.pdf or \.json/],
    [["magnesium-4g", "--out", "no/such/sheet.html"], /cannot be written .*does not exist/],
    [["magnesium-4g", "--paper", "A3"], /--paper is "A3"\. It can be A4 or Letter/],
    [["magnesium-4g", "--at", "25.11.2026"], /--at is "25\.11\.2026"/],
    [["magnesium-4g", "--time-zone", "Mars"], /time zone "?Mars"? is not known/],
    [["magnesium-4g", "--inventory", "shelf.csv"], /"shelf\.csv" cannot be read/],
  ])("refuses %j", async (words, message) => {
    const folder = folderWith({ "library.misce": example() });
    const ran = await run(folder, ...words);
    expect([ran.status, ran.out]).toEqual([2, ""]);
    expect(ran.err).toMatch(message);
  });

  it("asks which of several recipes is meant", async () => {
    const other = 'recipe other {\n  title "x"\n}\n';
    const folder = folderWith({ "library.misce": `${example()}\n${other}`, "second/library.misce": example() });
    expect((await run(folder, "library.misce", ...at)).err).toMatch(/holds 2 recipes: .*Say which with --recipe NAME/);
    expect((await run(folder, "magnesium-4g", ...at)).err).toMatch(/2 recipes are called magnesium-4g/);
    expect((await run(folder, "magnesium-4g", ...at, "--library", "second")).status).toBe(0);
    expect((await run(folder, "library.misce", "--recipe", "magnesium-4g", ...at)).status).toBe(0);
  });
});
