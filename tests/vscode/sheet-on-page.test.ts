/** The sheet in the preview: no word of what would be printed is lost on the way into the page, and it is one part among others there. */
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { drawSheet } from "../../client/vscode/page/sheet.ts";
import { previewOf } from "../../language/answers/preview.ts";
import { previewSheet } from "../../language/answers/preview-sheet.ts";
import { Library } from "../../language/library.ts";
import { type PaperElement, paper } from "./paper-page.ts";

/** The part of the parser that is used; it has no types of its own. */
interface Sax {
  onerror(error: Error): void;
  onopentag(tag: { name: string; attributes: Record<string, string> }): void;
  onclosetag(): void;
  ontext(text: string): void;
  write(text: string): { close(): void };
}
const sax = createRequire(import.meta.url)("sax") as { parser(strict: boolean): Sax };

interface Node {
  nodeType: number;
  localName?: string;
  nodeValue: string | null;
  childNodes: Node[];
  getAttribute(name: string): string | null;
}

/** A page as a browser's parser gives it; what a sheet writes is well-formed but for elements without an end. */
function parsed(html: string): { body: Node } {
  const node = (localName: string, attributes: Record<string, string> = {}): Node => ({
    nodeType: 1,
    localName,
    nodeValue: null,
    childNodes: [],
    getAttribute: (name) => attributes[name] ?? null,
  });
  const root = node("root");
  const open = [root];
  const parser = sax.parser(true);
  parser.onerror = (error) => {
    throw error;
  };
  parser.onopentag = ({ name, attributes }) => {
    const made = node(name, attributes);
    open.at(-1)!.childNodes.push(made);
    open.push(made);
  };
  parser.onclosetag = () => void open.pop();
  parser.ontext = (text) => {
    open.at(-1)!.childNodes.push({ nodeType: 3, nodeValue: text, childNodes: [], getAttribute: () => null });
  };
  const text = html.replace(/<!doctype[^>]*>/i, "").replaceAll("&nbsp;", "\u00a0");
  parser.write(text.replace(/<(br|meta|img|hr|link)\b([^>]*?)\/?>/g, "<$1$2/>")).close();
  const find = (at: Node): Node | undefined =>
    at.localName === "body" ? at : at.childNodes.map(find).find((each) => each !== undefined);
  return { body: find(root) ?? root };
}

function textOf(node: Node): string {
  return node.nodeType === 3 ? (node.nodeValue ?? "") : node.childNodes.map(textOf).join("");
}

function drawn(html: string): PaperElement {
  const browser = {
    document: Object.assign({ adoptedStyleSheets: [] as unknown[] }, paper),
    DOMParser: class {
      parseFromString = (text: string) => parsed(text);
    },
    CSSStyleSheet: class {
      replaceSync(): void {}
    },
  };
  return drawSheet(browser, { html, shownFor: "an order", steps: [] }) as unknown as PaperElement;
}

const folder = join(import.meta.dirname, "../../samples/library");
const library = new Library({ asOf: "2026-11-25" });
const files = (readdirSync(folder, { recursive: true }) as string[]).filter((name) => name.endsWith(".misce"));
for (const name of files) library.open(name, readFileSync(join(folder, name), "utf8"));
const sheets = files.flatMap((file) => {
  const { declaration } = previewOf(library, file, 0);
  const sheet = declaration && previewSheet(library, declaration, "09:00");
  return sheet ? [sheet.html] : [];
});

describe("the sheet of each sample recipe", () => {
  it("keeps every word that would be printed", () => {
    expect(sheets.length).toBeGreaterThan(40);
    for (const html of sheets) expect(drawn(html).textContent).toBe(textOf(parsed(html).body));
  });

  it("says figures that stand on one line, such as a concentration and a date", () => {
    const all = sheets.map((html) => drawn(html).textContent).join("\n");
    expect(all).toMatch(/\d\u00a0mg\/mL/);
    expect(all).toMatch(/2026-11-2\d/);
  });

  it("has no main part and no alarm of its own within the page", () => {
    const all = sheets.flatMap((html) => drawn(html).all());
    expect(sheets.some((html) => html.includes("<main"))).toBe(true);
    expect(all.filter((e) => e.name === "main" || e.getAttribute("role") === "alert")).toEqual([]);
  });
});

it("the page's style for its own rows does not reach the sheet, whose label would be grey on white in a dark theme", () => {
  const inSheets = new Set(
    sheets.flatMap((html) =>
      drawn(html)
        .all()
        .flatMap((e) => (e.getAttribute("class") ?? "").split(" ")),
    ),
  );
  const css = readFileSync(join(import.meta.dirname, "../../client/vscode/page/page.css"), "utf8");
  const selectors = [...css.replace(/\/\*.*?\*\//gs, "").matchAll(/([^{}]+)\{[^{}]*\}/g)].flatMap((rule) =>
    rule[1]!.split(","),
  );
  const reaching = selectors.filter((selector) => {
    const classes = [
      ...selector
        .trim()
        .split(/[\s>]+/)
        .at(-1)!
        .matchAll(/\.([\w-]+)/g),
    ].map((match) => match[1]!);
    return classes.length > 0 && classes.every((name) => inSheets.has(name)) && !/>|\.paper/.test(selector);
  });
  expect(inSheets.has("label")).toBe(true);
  expect(reaching).toEqual([]);
});

it("words of an element that no sheet has today are kept, and what runs is not", () => {
  const html = "<html><body><p>give <mark>5 mg</mark></p><script>alert(1)</script><style>p {}</style></body></html>";
  expect(drawn(html).textContent).toBe("give 5 mg");
  expect(
    drawn(html)
      .all()
      .map((e) => e.name),
  ).toEqual(["section", "p"]);
});
