/** A label as HTML: the same lines for every reader; the bar code is drawn by whoever calls, from the text that stands beside it. */
import { escaped, say } from "./escape.ts";
import type { Label, LabelLine } from "./sheet.ts";

/** Draws a GS1 DataMatrix as an SVG element from an element string with brackets. */
export type DrawCode = (elementString: string) => string;

export function labelHtml(label: Label, drawCode: DrawCode, heading: "h2" | "h3"): string {
  const name = label.lines.find((l) => l.kind === "name");
  const warnings = label.lines.filter((l) => l.kind === "warning");
  const [first, ...tail] = labelColumns(label);
  const isWide = isWideLabel(label);
  const list = (lines: readonly LabelLine[]) => `<dl>${lines.map(lineHtml).join("")}</dl>`;
  return [
    `<article class="label${isWide ? " wide" : ""}">`,
    name ? `<${heading}>${say(name.value)}</${heading}>` : "",
    ...warnings.map((l) => `<p class="warning">${say(l.value)}</p>`),
    list(first),
    tail.length > 0 ? `<div class="pair">${tail.map(list).join("")}</div>` : "",
    label.notForUse ? `<p class="warning">NOT FOR USE</p>` : codeHtml(label, drawCode),
    `<p class="safety">${escaped(label.safety)}</p>`,
    label.notForUse ? `<div class="cross" aria-hidden="true">NOT FOR USE</div>` : "",
    `</article>`,
  ].join("");
}

/** More ingredients than this would make a narrow label longer than its page. */
const mostNarrow = 5;

/**
 * The lines between warnings and bar code: all of them; or, of many ingredients, those to the last ingredient, and the rest in two
 * columns side by side below, so that the label stays on one page of either paper.
 */
export function labelColumns(label: Label): [first: LabelLine[], ...tail: LabelLine[][]] {
  const all = label.lines.filter((l) => l.kind !== "name" && l.kind !== "warning");
  if (!isWideLabel(label)) return [all];
  const end = all.findLastIndex(isActive) + 1;
  const half = end + Math.ceil((all.length - end) / 2);
  return [all.slice(0, end), ...[all.slice(end, half), all.slice(half)].filter((column) => column.length > 0)];
}

export function isWideLabel({ lines }: Label): boolean {
  return lines.filter(isActive).length > mostNarrow;
}

function isActive({ rows }: LabelLine): boolean {
  return rows.includes("label-actives");
}

function lineHtml({ kind, label, value }: LabelLine): string {
  const words = kind === "blank" ? `<span class="write"></span>` : say(value);
  const strong = kind === "strong" ? ` class="strong"` : "";
  return `<dt>${escaped(label)}</dt><dd${strong}>${words}</dd>`;
}

function codeHtml({ barcode }: Label, drawCode: DrawCode): string {
  if (!barcode) return "";
  const { text, meaning } = barcode;
  const svg = drawCode(text.text).replace(
    "<svg ",
    `<svg role="img" aria-label="GS1 DataMatrix: ${escaped(text.text)}" `,
  );
  return `<div class="code">${svg}<p><strong>${say(text)}</strong><br>${meaning.map(say).join("<br>")}</p></div>`;
}
