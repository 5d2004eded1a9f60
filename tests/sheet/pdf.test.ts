/** The PDF: its text, taken out by an independent reader, says what the data says, and each page carries what each page must. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { beforeAll, describe, expect, it } from "vitest";
import { codeSvg } from "../../client/cli/sheet-code.ts";
import { sheetPdf } from "../../client/cli/sheet-pdf.ts";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { allSaid } from "../../language/sheet/said.ts";
import type { Sheet } from "../../language/sheet/sheet.ts";
import { libraryOf, numbersIn, sheetFrom, textsOf } from "./sample-sheets.ts";

interface Page {
  text: string;
  width: number;
  height: number;
}

async function pagesOf(sheet: Sheet, more: { paper?: "A4" | "LETTER"; labelsOnly?: boolean } = {}): Promise<Page[]> {
  const bytes = await sheetPdf(sheet, { paper: "A4", labelsOnly: false, drawCode: codeSvg, ...more });
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const pages: Page[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const { items } = await page.getTextContent();
    const text = items.map((item) => ("str" in item ? item.str + (item.hasEOL ? "\n" : "") : "")).join("");
    const { width, height } = page.getViewport({ scale: 1 });
    pages.push({ text: text.replaceAll("\u00a0", " "), width: Math.round(width), height: Math.round(height) });
  }
  return pages;
}

/** Lines are broken by the page; words are compared without blanks. */
const squeezed = (text: string) => text.replace(/[\s\u00a0]+/g, "");

describe("a sheet as PDF", () => {
  const library = libraryOf(textsOf("library"));
  const sheet = sheetFrom(library, "digoxin-40mcg", { number: "KQ-0417", revision: "3", fingerprint: "f0-12ab" });
  let pages: Page[];
  beforeAll(async () => {
    pages = await pagesOf(sheet);
  });

  it("says all that the data says", () => {
    const all = squeezed(pages.map((p) => p.text).join("\n"));
    const missing = allSaid(sheet).filter((said) => !all.includes(squeezed(said.text)));
    expect(missing.map((s) => s.text)).toEqual([]);
  });

  it("prints no number that is not in the data, but page numbers", () => {
    const known = new Set([...allSaid(sheet).flatMap((s) => numbersIn(s.text)), ...pages.map((_, i) => String(i + 1))]);
    const names = new Set([sheet.recipe, ...sheet.materials.map((m) => m.name)].flatMap(numbersIn));
    const printed = pages.flatMap((p) => numbersIn(p.text));
    expect(printed.filter((n) => !known.has(n) && !names.has(n))).toEqual([]);
  });

  it.each(["A4", "LETTER"] as const)(
    "leaves no heading alone at the foot of a page of %s",
    { timeout: 60_000 },
    async (paper) => {
      for (const recipe of [
        "digoxin-40mcg",
        "midazolam-300mcg",
        "vancomycin-1g",
        "potassium-calcium",
        "ceftriaxone-1g",
      ]) {
        const leaves = await pagesOf(sheetFrom(library, recipe), { paper });
        const page = leaves.find(({ text }) => text.includes("How far each dose can miss"))!;
        expect([recipe, page.text.split("How far each dose can miss")[1]]).toEqual([
          recipe,
          expect.stringContaining("Worst case of"),
        ]);
      }
    },
  );

  it("carries identity, safety sentence and page n of m on each page", () => {
    for (const [i, { text }] of pages.entries()) {
      expect(text).toContain("digoxin-40mcg · KQ-0417 · 2026-11-25 09:30 · revision 3 · fingerprint f0-12ab");
      expect(text).toContain(
        "supports and does not replace the pharmacist's check, local procedures and licensed practice",
      );
      expect(text).toContain(`page ${i + 1} of ${pages.length}`);
      expect(text).not.toContain("NOT FOR USE");
    }
  });

  it("is A4 or Letter as asked", async () => {
    expect([pages[0]!.width, pages[0]!.height]).toEqual([595, 842]); // ISO 216: 210 by 297 mm
    const [letter] = await pagesOf(sheet, { paper: "LETTER", labelsOnly: true });
    expect([letter!.width, letter!.height]).toEqual([612, 792]); // 8.5 by 11 in
  });

  it("marks every page that is not for use", async () => {
    const faulty = new Library({ asOf: "2026-11-25" });
    faulty.open("library.misce", example(["= 8 mL", "= 0.8 mL"]));
    const marked = await pagesOf(sheetFrom(faulty, "magnesium-4g"));
    expect(marked.length).toBeGreaterThan(2);
    // In the head and across the page.
    for (const { text } of marked) expect(text.match(/NOT FOR USE/g)!.length).toBeGreaterThanOrEqual(2);
  });

  it("breaks no line between a figure and its unit, nor within a unit or a date", async () => {
    // Words of growing length push the figures over every place at which a line can end.
    const words = Array.from(
      { length: 90 },
      (_, i) => `${"x".repeat(1 + (i % 9))} (500 mg/mL), 0.9 % w/v on 2027-05-31`,
    );
    const library = new Library({ asOf: "2026-11-25" });
    library.open("library.misce", example(['  title  "', `  note  "${words.join(" ")}"\n  title  "`]));
    const lines = (await pagesOf(sheetFrom(library, "magnesium-4g"))).flatMap((p) => p.text.split("\n"));
    expect(lines.filter((line) => line.includes("(500 mg/mL)")).length).toBeGreaterThan(20);
    // The last line of each note may end with whatever its last word is.
    const broken = /\/\s*$|(?:^|\s)\(?500\s*$|0\.9\s*$|0\.9 %\s*$|2027(-05)?-?\s*$/;
    expect(lines.filter((line) => / x* \(|mg\/mL\)/.test(line) && broken.test(line))).toEqual([]);
  });

  it.each([12, 30])(
    "loses nothing of a label with %i ingredients, taller than others or than the page",
    async (count) => {
      const label = sheet.labels[0]!;
      const strong = label.lines.find((l) => l.kind === "strong")!;
      const more = Array.from({ length: count }, (_, i) => ({
        ...strong,
        label: `trace elements for children and neonates, mixed solution ${i}`,
      }));
      const tall = { ...sheet, labels: [{ ...label, lines: [...label.lines, ...more] }] };
      const all = squeezed((await pagesOf(tall)).map((p) => p.text).join("\n"));
      for (const { label: words } of more) expect(all).toContain(squeezed(words));
      expect(all.split(squeezed(sheet.labels[0]!.barcode!.text.text)).length).toBe(2);
    },
  );

  it("prints the signs of the trade", async () => {
    const signs = "µ ° ≤ ≥ ÷ × − é ü";
    const library = new Library({ asOf: "2026-11-25" });
    library.open("library.misce", example(['  title  "', `  title  "${signs} `]));
    const [first] = await pagesOf(sheetFrom(library, "magnesium-4g"));
    // The font draws the micro sign with the Greek letter's shape, and is read back as that letter.
    expect(first!.text.replaceAll("\u03bc", "µ")).toContain(signs);
  });
});
