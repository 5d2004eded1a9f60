/**
 * The sheet as PDF, from the same data as the HTML. A bundle of its own, loaded only when a PDF is asked for: the library and its
 * font (Roboto, which holds µ, °, ≤ and ÷) are larger than the rest of the program.
 */
import pdfMake from "pdfmake/build/pdfmake.js";
import fontFiles from "pdfmake/build/vfs_fonts.js";
import { plain } from "../../language/sheet/escape.ts";
import type { Sheet } from "../../language/sheet/sheet.ts";
import { running } from "../../language/sheet/sheet-html.ts";
import { labelContent, sheetContent } from "./sheet-pdf-content.ts";
import { withWholeUnits } from "./sheet-pdf-units.ts";

const fonts = {
  Roboto: {
    normal: "Roboto-Regular.ttf",
    bold: "Roboto-Medium.ttf",
    italics: "Roboto-Italic.ttf",
    bolditalics: "Roboto-MediumItalic.ttf",
  },
};

export interface PdfOptions {
  paper: "A4" | "LETTER";
  labelsOnly: boolean;
  /** SVG of a bar code from its element string. */
  drawCode: (elementString: string) => string;
}

/** The bytes of the PDF. @throws what the library throws where it cannot lay the sheet out */
export async function sheetPdf(sheet: Sheet, options: PdfOptions): Promise<Uint8Array> {
  // `getBuffer` would lay out inside a promise of the library's own, and what is thrown there nobody hears.
  const made = pdfMake.createPdf(documentOf(sheet, options), undefined, fonts, fontFiles).getStream();
  return new Promise((done, fail) => {
    const chunks: Uint8Array[] = [];
    made.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    made.on("end", () => done(Buffer.concat(chunks)));
    made.on("error", fail);
    made.end();
  });
}

interface Placed {
  headlineLevel?: number;
  startPosition: { verticalRatio: number };
}

/**
 * A heading never stands alone at the foot of a page. Where the first row below it will come to lie is not known when this is asked,
 * so it moves on unless there is the room that it asks for (sheet-pdf-content.ts).
 */
function isHeadingLow({ headlineLevel, startPosition }: Placed): boolean {
  return headlineLevel !== undefined && startPosition.verticalRatio > 1 - headlineLevel / 100;
}

function documentOf(sheet: Sheet, options: PdfOptions): unknown {
  const identity = plain(running(sheet).join(" · "));
  const forbidden = sheet.notForUse.length > 0;
  return {
    info: { title: plain(sheet.title.text), subject: identity },
    pageSize: options.paper,
    pageMargins: [34, 46, 34, 56],
    defaultStyle: { font: "Roboto", fontSize: 11, lineHeight: 1.15 },
    // Fixed outside the flow, so that they stand on every page whatever breaks.
    header: {
      margin: [34, 20, 34, 0],
      columns: [
        { text: identity, fontSize: 9.5 },
        { text: forbidden ? "NOT FOR USE" : "", bold: true, alignment: "right", width: "auto" },
      ],
    },
    footer: (page: number, pages: number) => ({
      margin: [34, 10, 34, 0],
      columns: [
        { text: plain(sheet.safety), fontSize: 9.5 },
        { text: `page ${page} of ${pages}`, fontSize: 10.5, bold: true, alignment: "right", width: 80 },
      ],
    }),
    ...(forbidden ? { watermark: { text: "NOT FOR USE", opacity: 0.18, bold: true, angle: -40 } } : {}),
    pageBreakBefore: isHeadingLow,
    content: withWholeUnits(
      options.labelsOnly ? labelContent(sheet, options.drawCode) : sheetContent(sheet, options.drawCode),
    ),
    styles: {
      h1: { fontSize: 18, bold: true, margin: [0, 0, 0, 4] },
      h2: { fontSize: 13.5, bold: true, margin: [0, 12, 0, 4] },
      head: { bold: true, fontSize: 10 },
      small: { fontSize: 10 },
      figure: { bold: true },
      step: { fontSize: 12.5 },
      big: { fontSize: 15, bold: true, alignment: "right" },
    },
  };
}
