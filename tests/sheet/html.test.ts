/** The HTML sheet: self-contained, escaped, accessible, marked on every page where it must not be used. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, test } from "vitest";
import { codeSvg } from "../../client/cli/sheet-code.ts";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { say } from "../../language/sheet/escape.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { recipesOf, sheetOf } from "../../language/sheet/sheet-data.ts";
import { labelsHtml, sheetHtml } from "../../language/sheet/sheet-html.ts";
import { sheetStyle } from "../../language/sheet/sheet-style.ts";
import { libraryOf, readable, requestFor, samples, sheetFrom, textsOf } from "./sample-sheets.ts";

const safety = "supports and does not replace the pharmacist's check, local procedures and licensed practice";

function standard(...changes: [string, string][]): Library {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("library.misce", example(...changes));
  return library;
}

const html = (library: Library, more = {}) => sheetHtml(sheetFrom(library, "magnesium-4g", more), codeSvg);

describe("a sheet in HTML", () => {
  const page = html(standard(), { number: "KQ-0417", fingerprint: "f0-12ab", revision: "3" });

  it("fetches nothing and runs nothing", () => {
    expect(page).not.toMatch(/<script|<link|<img|<iframe|\bsrc=|\bhref=|@import|url\(|\son\w+=/i);
    // The one address is the name of the SVG vocabulary.
    expect(page.replaceAll("http://www.w3.org/2000/svg", "")).not.toMatch(/https?:/);
  });

  it("leaves room to say who did each run of a batch, and who checked it", () => {
    const sheet = sheetFrom(libraryOf(textsOf("library")), "magnesium-2g-batch", { bags: "8", batch: true });
    const rows = sheetHtml(sheet, codeSvg).match(/<td class="sign runs">[\s\S]*?<\/td>/g)!;
    const worked = rows.filter((row) => row.includes("run 1"));
    // 8 bags by 4 at a time are 2 runs; each step is signed by two.
    expect(worked).toHaveLength(2 * sheet.steps.length);
    for (const row of worked) {
      expect(row).toContain("run 2");
      expect(row.match(/class="write"/g)).toHaveLength(2);
    }
  });

  it("has one first heading, and none that skips a level", () => {
    const levels = [...page.matchAll(/<h(\d)/g)].map((m) => Number(m[1]));
    expect(levels.filter((l) => l === 1)).toHaveLength(1);
    expect(levels.every((l, i) => i === 0 || l <= levels[i - 1]! + 1)).toBe(true);
    expect(page).toMatch(/<html lang="en">/);
  });

  it("gives each table head and each row head its scope", () => {
    expect([...page.matchAll(/<th(?=[ >])[^>]*>/g)].filter((m) => !/scope="(col|row)"/.test(m[0]))).toEqual([]);
    expect(page.match(/<table class="data/g)!.length).toBe(page.match(/<thead><tr><th/g)!.length);
  });

  it("closes what it opens", () => {
    for (const tag of [
      "table",
      "thead",
      "tbody",
      "tr",
      "td",
      "th",
      "section",
      "dl",
      "ul",
      "li",
      "p",
      "span",
      "article",
    ]) {
      expect([tag, page.match(new RegExp(`<${tag}[ >]`, "g"))?.length]).toEqual([
        tag,
        page.match(new RegExp(`</${tag}>`, "g"))?.length,
      ]);
    }
  });

  it("says on each page what it is and that it replaces no check", () => {
    const head = /<thead><tr><td>([\s\S]*?)<\/td>/.exec(page)![1]!;
    const foot = /<tfoot><tr><td>([\s\S]*?)<\/td>/.exec(page)![1]!;
    expect(readable(head)).toContain("magnesium-4g · KQ-0417 · 2026-11-25 09:30 · revision 3 · fingerprint f0-12ab");
    expect(readable(foot)).toContain(safety);
    expect(sheetStyle).toMatch(/"page " counter\(page\) " of " counter\(pages\)/);
  });

  it("is black on white: every colour of text stands out at least 7 to 1", () => {
    const colours = [...sheetStyle.matchAll(/[ ;{]color: (#[0-9a-f]+|\w+)/g)].map((m) => m[1]!);
    expect(colours.length).toBeGreaterThan(1);
    // Transparent letters with an outline are the mark across the page, which is told as text too.
    for (const colour of colours.filter((c) => c !== "transparent"))
      expect(contrastOnWhite(colour)).toBeGreaterThanOrEqual(7);
  });

  it("writes steps at 12.5 pt or more", () => {
    expect(Number(/\.steps td\.step \{ font-size: ([\d.]+)pt/.exec(sheetStyle)![1])).toBeGreaterThanOrEqual(12.5);
  });

  it("has a tick box and initials for each step, twice", () => {
    const steps = page.slice(page.indexOf("<h2>Steps</h2>"), page.indexOf("<h2>Keep for the check</h2>"));
    expect(steps.match(/\[&nbsp;&nbsp;&nbsp;\]/g)).toHaveLength(16 * 2);
  });

  it("keeps a figure and its unit on one line", () => {
    expect(page).toContain("Draw 4\u00a0g (8\u00a0mL) from mag into syringe.");
  });

  it("escapes whatever a title or a lot holds", () => {
    const nasty = `</title><script>alert(1)</script> & <b>"x'\u202egnp`;
    const title: [string, string] = [
      "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL",
      nasty.replaceAll('"', '\\"'),
    ];
    const page = html(standard(title), { revision: "<i>9</i>" });
    expect(page).not.toMatch(/<script|<b>|<i>|\u202e/);
    expect(readable(page)).toContain(`</title><script>alert(1)</script> & <b>"x'gnp`);
  });
});

/** WCAG 2.2, relative luminance and contrast ratio. */
function contrastOnWhite(colour: string): number {
  const hex = colour.replace("#", "");
  const full = hex.length === 3 ? [...hex].map((c) => c + c).join("") : hex;
  const [r, g, b] = [0, 2, 4].map((i) => {
    const c = Number.parseInt(full.slice(i, i + 2), 16) / 255;
    return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 1.05 / (0.2126 * r! + 0.7152 * g! + 0.0722 * b! + 0.05);
}

describe("NOT FOR USE", () => {
  const page = html(standard(["= 8 mL", "= 0.8 mL"]));

  it("stands across the page, in its head, above the reasons and on the label", () => {
    expect(page).toMatch(/<div class="mark" aria-hidden="true">NOT FOR USE<\/div>/);
    expect(sheetStyle).toMatch(/\.mark \{ position: fixed/);
    expect(/<thead><tr><td>[\s\S]*?<strong>NOT FOR USE<\/strong>/.test(page)).toBe(true);
    expect(readable(page)).toContain("Beside step 6 stands 0.8 mL; the step moves 8 mL");
    expect(/<article class="label">[\s\S]*NOT FOR USE[\s\S]*<\/article>/.test(page)).toBe(true);
  });

  it("stands on labels printed alone", () => {
    const sheet = sheetFrom(standard(["= 8 mL", "= 0.8 mL"]), "magnesium-4g");
    expect(labelsHtml(sheet, codeSvg).match(/NOT FOR USE/g)!.length).toBeGreaterThanOrEqual(4);
  });

  it("is absent from a sheet without errors", () => {
    expect(html(standard())).not.toContain("NOT FOR USE");
  });

  it("comes from the drug and the shelf as well", () => {
    const spoiled = standard(['  lot "KQ-2291"  expires 2027-04', '  lot "KQ-2291"  expires 2026-10']);
    expect(sheetFrom(spoiled, "magnesium-4g").notForUse.map((r) => r.from.kind)).toContain("finding");
  });

  it("stands where a fault shows only at the order that is printed", () => {
    // 25 mg/kg of 40 to 80 kg fits the claim at both ends as written; at 60 kg the bag holds what the steps give, not 37.04 mg/mL.
    const library = libraryOf(textsOf("library"));
    const at = (w: string) => sheetFrom(library, "vancomycin-loading", { inputs: new Map([["weight", w]]) });
    const texts = textsOf("library");
    const file = Object.keys(texts).find((f) => f.endsWith("vancomycin-loading.misce"))!;
    // Between the ends 1,750 mg would be drawn: a claim that leaves it out is missed there and nowhere else.
    const narrow = libraryOf({
      ...texts,
      [file]: texts[file]!.replaceAll(
        "measure at equal pressure  = 20 mL to 40 mL",
        "measure at equal pressure  = 20 mL to 30 mL",
      ),
    });
    expect(at("62.3kg").notForUse.map((r) => r.text)).toEqual([]);
    const missed = sheetFrom(narrow, "vancomycin-loading", { inputs: new Map([["weight", "70kg"]]) }).notForUse;
    expect(missed.map((r) => r.text).join()).toContain("at this order the step moves 35 mL");
  });

  it("stands on every faulty sample whose recipe carries an error; and no sample throws", () => {
    for (const name of readdirSync(join(samples, "faulty"))) {
      const library = libraryOf(textsOf(`faulty/${name}`));
      const findings = library.files().flatMap((f) => library.findings(f));
      for (const { name: recipe } of recipesOf(library)) {
        const bad = findings.some((f) => f.severity === "error" && !f.silenced && f.subject === `recipe ${recipe}`);
        const sheet = sheetOf(library, requestFor(recipe));
        if (isSheetRefusal(sheet)) continue;
        if (bad) expect([name, sheet.notForUse.length > 0]).toEqual([name, true]);
        // Marks of a screen (`words of a recipe`) are none of paper.
        expect([name, readable(sheetHtml(sheet, () => "<svg />"))]).not.toEqual([name, expect.stringContaining("`")]);
      }
    }
  });
});

test("units, shares and dates are kept on one line, whatever signs they hold", () => {
  const said = say({ text: "5 mg/kg/h & 0.9 % w/v by 2027-05-31, 20 mL", from: { kind: "fixed", of: "test" } });
  const unit = (text: string) => `<bdi class="unit">${text}</bdi>`;
  expect(said).toBe(
    `${unit("5\u00a0mg/kg/h")} &amp; ${unit("0.9\u00a0%\u00a0w/v")} by ${unit("2027-05-31")}, 20\u00a0mL`,
  );
  expect(sheetStyle).toMatch(/\.unit \{[^}]*white-space: nowrap/);
});

describe("silenced findings", () => {
  it("are printed with reason, role and end", () => {
    const deviation = `  deviation claim-differs on mag\n    because "drawn by weight, form KQ-118"\n    by aseptic-lead\n    until 2027-03-31\n`;
    const library = standard(["= 8 mL", "= 0.8 mL"], ["  preparation bag {", `${deviation}\n  preparation bag {`]);
    const sheet = sheetFrom(library, "magnesium-4g");
    expect(sheet.notForUse).toEqual([]);
    const page = readable(sheetHtml(sheet, codeSvg));
    for (const words of [
      "Silenced findings",
      "Beside step 6 stands 0.8 mL",
      "drawn by weight, form KQ-118",
      "aseptic-lead",
      "2027-03-31",
    ]) {
      expect(page).toContain(words);
    }
  });
});
