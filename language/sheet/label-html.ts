/** A label as HTML: the same lines for every reader; the bar code is drawn by whoever calls, from the text that stands beside it. */
import { escaped, say } from "./escape.ts";
import type { Label, LabelLine } from "./sheet.ts";

/** Draws a GS1 DataMatrix as an SVG element from an element string with brackets. */
export type DrawCode = (elementString: string) => string;

export function labelHtml(label: Label, drawCode: DrawCode, heading: "h2" | "h3"): string {
  const name = label.lines.find((l) => l.kind === "name");
  const warnings = label.lines.filter((l) => l.kind === "warning");
  const rest = label.lines.filter((l) => l.kind !== "name" && l.kind !== "warning");
  // Many ingredients would make a narrow label longer than its page.
  const isWide = label.lines.filter((l) => l.kind === "strong").length > 5;
  return [
    `<article class="label${isWide ? " wide" : ""}">`,
    name ? `<${heading}>${say(name.value)}</${heading}>` : "",
    ...warnings.map((l) => `<p class="warning">${say(l.value)}</p>`),
    `<dl>${rest.map(lineHtml).join("")}</dl>`,
    label.notForUse ? `<p class="warning">NOT FOR USE</p>` : codeHtml(label, drawCode),
    `<p class="safety">${escaped(label.safety)}</p>`,
    label.notForUse ? `<div class="cross" aria-hidden="true">NOT FOR USE</div>` : "",
    `</article>`,
  ].join("");
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
