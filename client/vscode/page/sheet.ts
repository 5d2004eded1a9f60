/**
 * Puts the sheet into the page: the same document that is printed, as paper on the editor's own background. It is read as data by
 * the browser's parser, which runs nothing; only the elements that a sheet is made of are taken over, and of their attributes only those
 * that say what they are. Of any other element the words are kept, since one of them may be a figure. Its style sheet applies within
 * the paper alone.
 */
import { sheetStyle } from "../../../language/sheet/sheet-style.ts";
import type { PreviewSheetData } from "../../../shared/preview.ts";
import type { PageDocument, PageElement } from "./dom.ts";

/** What the parser and the style sheets of a browser are, as far as they are used here. */
interface Browser {
  document: PageDocument & { adoptedStyleSheets: unknown[] };
  DOMParser: new () => { parseFromString(text: string, type: "text/html"): { body: SourceNode } };
  CSSStyleSheet: new () => { replaceSync(text: string): void };
}

interface SourceNode {
  readonly nodeType: number;
  readonly localName?: string;
  readonly nodeValue: string | null;
  readonly childNodes: ArrayLike<SourceNode>;
  getAttribute?(name: string): string | null;
}

const elements = new Set(
  "article bdi br dd div dl dt h1 h2 h3 header li main p section span strong table tbody td tfoot th thead tr ul".split(
    " ",
  ),
);
/** What holds no words to read. */
const wordless = new Set("head script style template title".split(" "));
const attributes = ["class", "role", "scope", "aria-hidden"];

/** Headings of the sheet go one rank down: the page has its own title. It has its own main part too. */
const ranks: Readonly<Record<string, string>> = { h1: "h2", h2: "h3", h3: "h4", main: "div" };

let isStyled = false;

export function drawSheet(browser: Browser, sheet: PreviewSheetData): PageElement {
  if (!isStyled) {
    const style = new browser.CSSStyleSheet();
    const own = sheetStyle.replace(/^(h[123]) /gm, (_, name: string) => `${ranks[name]} `);
    style.replaceSync(`.paper { ${own.replace(/^@page .*$/m, "")} }`);
    browser.document.adoptedStyleSheets = [...browser.document.adoptedStyleSheets, style];
    isStyled = true;
  }
  const paper = browser.document.createElement("section");
  paper.className = "paper";
  paper.setAttribute("aria-label", `Sheet for ${sheet.shownFor}`);
  const parsed = new browser.DOMParser().parseFromString(sheet.html, "text/html");
  for (const node of Array.from(parsed.body.childNodes)) take(browser.document, node, paper);
  placeSteps(paper, sheet);
  return paper;
}

function take(page: PageDocument, from: SourceNode, into: PageElement): void {
  if (from.nodeType === 3) {
    into.append(from.nodeValue ?? "");
    return;
  }
  const name = from.localName ?? "";
  if (from.nodeType !== 1 || wordless.has(name)) return;
  if (!elements.has(name)) {
    for (const child of Array.from(from.childNodes)) take(page, child, into);
    return;
  }
  const made = page.createElement(ranks[name] ?? name);
  for (const attribute of attributes) {
    const value = from.getAttribute?.(attribute);
    // The page announces its verdict itself; the sheet is drawn anew with each keystroke and would be cried out each time.
    if (value !== null && value !== undefined && value !== "alert") made.setAttribute(attribute, value);
  }
  for (const child of Array.from(from.childNodes)) take(page, child, made);
  into.append(made);
}

/** Each row of a step knows its line, as the rows of the other form do. */
function placeSteps(paper: PageElement, { steps }: PreviewSheetData): void {
  const byNumber = new Map(steps.map((step) => [step.number, step.range]));
  const body = paper.querySelector("table.steps > tbody");
  if (!body) return;
  body.className = "rows";
  for (const row of body.querySelectorAll("tr")) {
    const number = row.querySelector("th.no")?.textContent?.trim() ?? "";
    const range = byNumber.get(number);
    if (!range) continue;
    // What a screen reader says of the row that has the keyboard; without it, it would say the title.
    const words = [".do span", ".do .figure"].map((part) => row.querySelector(part)?.textContent?.trim() ?? "");
    row.setAttribute("aria-label", [`${number}.`, ...words].filter((each) => each !== "").join(" "));
    row.setAttribute("data-line", String(range.start.line));
    row.setAttribute("data-end", String(range.end.line));
    row.setAttribute("data-range", JSON.stringify(range));
    row.setAttribute("title", "Show in the text");
    row.tabIndex = -1;
  }
}
