/**
 * Sheets as a real browser prints them, on A4 and Letter. Not part of `npm test`, since a fresh machine has no browser:
 * `npm run test:sheet` runs it (MISCE_BROWSER=1; CHROMIUM names another browser than /usr/bin/chromium).
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { BinaryBitmap, DataMatrixReader, HybridBinarizer, RGBLuminanceSource } from "@zxing/library";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { codeSvg } from "../../client/cli/sheet-code.ts";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import type { Sheet } from "../../language/sheet/sheet.ts";
import { sheetHtml } from "../../language/sheet/sheet-html.ts";
import { libraryOf, sheetFrom, textsOf } from "./sample-sheets.ts";

const artefacts = join(import.meta.dirname, "../../dist/sheet-pages");

async function printedPages(browser: Browser, sheet: Sheet, format: "A4" | "Letter"): Promise<string[]> {
  const page = await browser.newPage();
  await page.setContent(sheetHtml(sheet, codeSvg));
  const pdf = await page.pdf({ format, printBackground: true });
  await page.close();
  mkdirSync(artefacts, { recursive: true });
  writeFileSync(join(artefacts, `${sheet.recipe}-${format}.pdf`), pdf);
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const texts: string[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const { items } = await (await document.getPage(i)).getTextContent();
    texts.push(items.map((item) => ("str" in item ? item.str + (item.hasEOL ? "\n" : "") : "")).join(""));
  }
  return texts;
}

const squeezed = (text: string) => text.replace(/[\s\u00a0]+/g, "");

describe.skipIf(!process.env.MISCE_BROWSER)("a sheet printed by a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
    browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  });
  afterAll(() => browser.close());
  const library = libraryOf(textsOf("library"));

  describe.each(["A4", "Letter"] as const)("on %s", (format) => {
    it.each(["magnesium-4g", "digoxin-40mcg", "potassium-calcium"])(
      "%s: each page says what it is, and no step is split",
      async (recipe) => {
        const sheet = sheetFrom(library, recipe, { number: "KQ-0417", fingerprint: "f0-12ab", revision: "3" });
        const pages = (await printedPages(browser, sheet, format)).map(squeezed);
        for (const [i, text] of pages.entries()) {
          expect(text).toContain(squeezed(`${recipe} · KQ-0417 · 2026-11-25 09:30 · revision 3 · fingerprint f0-12ab`));
          expect(text).toContain("supportsanddoesnotreplacethepharmacist'scheck");
          expect(text).toContain(`page${i + 1}of${pages.length}`);
        }
        for (const step of sheet.steps) {
          const parts = [step.sentence, ...step.detail, ...step.cautions].map((said) => squeezed(said.text));
          expect([step.number.text, pages.some((page) => parts.every((part) => page.includes(part)))]).toEqual([
            step.number.text,
            true,
          ]);
        }
      },
    );

    it("marks every page that is not for use", async () => {
      const faulty = new Library({ asOf: "2026-11-25" });
      faulty.open("library.misce", example(["= 8 mL", "= 0.8 mL"]));
      const pages = await printedPages(browser, sheetFrom(faulty, "magnesium-4g"), format);
      for (const text of pages) expect(squeezed(text).match(/NOTFORUSE/g)!.length).toBeGreaterThanOrEqual(2);
    });
  });

  it("keeps the words of a label clear of its figures, and every table within the page", async () => {
    const page = await browser.newPage({ viewport: { width: 800, height: 1100 } });
    await page.emulateMedia({ media: "print" });
    for (const [folder, recipes] of widest) {
      const from = libraryOf(textsOf(folder));
      for (const recipe of recipes) {
        await page.setContent(sheetHtml(sheetFrom(from, recipe), codeSvg));
        expect([recipe, await page.evaluate(wordsBesideFigures)]).toEqual([recipe, []]);
      }
    }
    await page.close();
  });

  it("starts the labels on a page of their own, and never splits what belongs together", async () => {
    for (const format of ["A4", "Letter"] as const) {
      const pages = (await printedPages(browser, sheetFrom(library, "nitroprusside-50mg"), format)).map(squeezed);
      const label = pages.findIndex((text) => text.includes("HIGH-ALERT:sodiumnitroprusside"));
      expect(label).toBe(pages.length - 1);
      expect(pages[label]).not.toContain("Remarks,deviations");
      const preparation = pages.find((text) => text.includes("Finishedpreparation"))!;
      for (const part of ["Mustlook", "Keptat", "2026-11-2609:30"]) expect(preparation).toContain(part);
    }
  });

  it("shows a bar code that can be read from the rendered label", async () => {
    const page = await browser.newPage({ deviceScaleFactor: 4 });
    await page.setContent(sheetHtml(sheetFrom(library, "magnesium-4g", { number: "KQ-0417" }), codeSvg));
    const png = await page.locator(".label .code").first().screenshot();
    const blank = await browser.newPage();
    const drawn = await blank.evaluate(
      async (source) => {
        const { createImageBitmap, fetch, OffscreenCanvas } = globalThis as never as Record<
          string,
          never
        > as unknown as {
          createImageBitmap(blob: unknown): Promise<{ width: number; height: number }>;
          fetch(url: string): Promise<{ blob(): Promise<unknown> }>;
          OffscreenCanvas: new (
            w: number,
            h: number,
          ) => {
            getContext(kind: "2d"): {
              drawImage(image: unknown, x: number, y: number): void;
              getImageData(x: number, y: number, w: number, h: number): { data: ArrayLike<number> };
            };
          };
        };
        const image = await createImageBitmap(await (await fetch(source)).blob());
        const context = new OffscreenCanvas(image.width, image.height).getContext("2d");
        context.drawImage(image, 0, 0);
        // The code stands on the left; the words beside it would confuse a reader that wants one thing.
        const side = image.height;
        const { data } = context.getImageData(0, 0, side, side);
        return { side, grey: Array.from({ length: side * side }, (_, i) => data[i * 4]!) };
      },
      `data:image/png;base64,${png.toString("base64")}`,
    );
    const pixels = withMargin(drawn.grey, drawn.side, 40);
    const source = new RGBLuminanceSource(pixels, drawn.side + 80, drawn.side + 80);
    const text = new DataMatrixReader().decode(new BinaryBitmap(new HybridBinarizer(source))).getText();
    expect(text.split("\u001d").filter(Boolean)).toEqual(["91magnesium-4g", "932611260930", "92KQ-0417"]);
  });
});

/** Recipes with the longest words on their labels. */
const widest: [folder: string, recipes: string[]][] = [
  ["library-containment", ["cyclophosphamide-1g", "cyclosporine-250mg"]],
  [
    "library",
    ["epidural-levobupivacaine-fentanyl", "lipid-20g-filtered", "phosphate-calcium", "dexmedetomidine-200mcg"],
  ],
];

/** Runs in the browser: words that reach into the figure beside them, and cells that reach over the edge. */
function wordsBesideFigures(): string[] {
  interface Box {
    left: number;
    right: number;
  }
  interface Element {
    textContent: string;
    nextElementSibling: Element;
    getBoundingClientRect(): Box;
  }
  const { document } = globalThis as never as {
    document: {
      body: Element;
      querySelectorAll(selector: string): Iterable<Element>;
      createRange(): { selectNodeContents(node: Element): void; getBoundingClientRect(): Box };
    };
  };
  const found: string[] = [];
  for (const word of document.querySelectorAll("dt")) {
    const range = document.createRange();
    range.selectNodeContents(word);
    if (range.getBoundingClientRect().right > word.nextElementSibling.getBoundingClientRect().left)
      found.push(word.textContent);
  }
  const edge = document.body.getBoundingClientRect().right;
  for (const cell of document.querySelectorAll("td, th"))
    if (cell.getBoundingClientRect().right > edge) found.push(cell.textContent);
  return found;
}

function withMargin(grey: readonly number[], side: number, margin: number): Uint8ClampedArray {
  const wide = side + 2 * margin;
  const pixels = new Uint8ClampedArray(wide * wide).fill(255);
  for (const [i, value] of grey.entries()) pixels[(Math.floor(i / side) + margin) * wide + (i % side) + margin] = value;
  return pixels;
}
