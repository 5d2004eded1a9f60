/** Every sample as the reader gets it: HTML and PDF hold the same words and figures, and each label's bar code is its text. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { codeSvg } from "../../client/cli/sheet-code.ts";
import { sheetPdf } from "../../client/cli/sheet-pdf.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { allSaid } from "../../language/sheet/said.ts";
import { sheetHtml } from "../../language/sheet/sheet-html.ts";
import { readCode } from "./read-code.ts";
import { libraryOf, numbersIn, readable, sheetFrom, textsOf } from "./sample-sheets.ts";

/** What is not typed has one value. */
const inputsOf: Record<string, [string, string]> = {
  "vancomycin-loading": ["weight", "62.3kg"],
  "paclitaxel-banded": ["body-surface", "1.63m2"],
};

const sheets = ["library", "library-containment"].flatMap((folder) => {
  const library = libraryOf(textsOf(folder));
  return (library.ofKind("recipe") as Recipe[]).map(({ name: { name } }) => {
    const own = inputsOf[name];
    const more = { number: "KQ-0417", revision: "3", inputs: new Map(own ? [own] : []) };
    return [name, sheetFrom(library, name, more)] as const;
  });
});

/** Lines are broken by the page; the font's micro sign is read back as the Greek letter. */
const squeezed = (text: string) => text.replaceAll("\u03bc", "µ").replace(/[\s\u00a0]+/g, "");

async function pdfText(bytes: Uint8Array): Promise<{ text: string; pages: number }> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  let text = "";
  for (let i = 1; i <= document.numPages; i++) {
    const { items } = await (await document.getPage(i)).getTextContent();
    text += items.map((item) => ("str" in item ? item.str + (item.hasEOL ? "\n" : "") : "")).join("");
    text += "\n";
  }
  return { text: text.replaceAll("\u00a0", " "), pages: document.numPages };
}

describe("HTML and PDF of one order", () => {
  it("are made of all samples", () => expect(sheets.length).toBeGreaterThan(55));

  it.each(sheets)("%s: say the same words, with the same figures", async (_, sheet) => {
    const said = allSaid(sheet).map((s) => squeezed(s.text));
    const html = squeezed(readable(sheetHtml(sheet, codeSvg)));
    const pdf = await pdfText(await sheetPdf(sheet, { paper: "A4", labelsOnly: false, drawCode: codeSvg }));
    const inPdf = squeezed(pdf.text);
    expect(said.filter((text) => !html.includes(text))).toEqual([]);
    expect(said.filter((text) => !inPdf.includes(text))).toEqual([]);
    const known = new Set(
      [...allSaid(sheet).map((s) => s.text), sheet.recipe, ...sheet.materials.map((m) => m.name)].flatMap(numbersIn),
    );
    const pageNumbers = new Set(Array.from({ length: pdf.pages }, (_, i) => String(i + 1)));
    // The head of each page has the beginning of the fingerprint; the whole of it may be broken over two lines.
    const fingerprints = /fingerprint [0-9a-f]{12}|misce-\s*meaning-\s*[\d:]+\s*[0-9a-f\s]{64,66}/gi;
    const printed = numbersIn(pdf.text.replace(fingerprints, ""));
    expect(printed.filter((n) => !known.has(n) && !pageNumbers.has(n))).toEqual([]);
  });

  it.each(sheets)("%s: each bar code decodes to the text beside it", (_, sheet) => {
    for (const { barcode } of sheet.labels) {
      const parts = (barcode?.text.text.match(/\(\d+\)[^(]*/g) ?? []).map((part) => part.replace(/[()]/g, ""));
      expect(parts.length).toBeGreaterThan(1);
      const read = readCode(codeSvg(barcode!.text.text)).replace(/^\]d2/, "");
      expect(read.split("\u001d").join("")).toBe(parts.join(""));
    }
  });
});
