/** The sheet as one self-contained HTML document: no script, nothing fetched, prints on A4 and Letter. */
import { escaped, say } from "./escape.ts";
import { type DrawCode, labelHtml } from "./label-html.ts";
import type { Said, SaidLine } from "./said.ts";
import type { BeyondUseRow, FigureRow, MaterialRow, RateTable, Sheet, StepRow } from "./sheet.ts";
import { sheetStyle } from "./sheet-style.ts";

export function sheetHtml(sheet: Sheet, drawCode: DrawCode): string {
  const body = [
    heading(sheet),
    banner(sheet),
    section(
      "Order",
      `<div class="pair">${lines(sheet.order)}${lines(recordLines(sheet))}</div><p class="small long">Fingerprint of the meaning: ${say(sheet.fingerprint)}</p>`,
    ),
    section("Materials, in the order of use", materials(sheet)),
    section("Figures and their working", figures(sheet.figures.filter((f) => f.isChecked))),
    section("Steps", steps(sheet)),
    section("Keep for the check", keep(sheet), sheet.keep.length > 0, together),
    section("Finished preparation", preparation(sheet)),
    section(
      sheet.rates ? say(sheet.rates.caption) : "",
      sheet.rates ? rates(sheet.rates) : "",
      sheet.rates !== undefined,
      together,
    ),
    section(
      "How far each dose can miss, at worst",
      misses(sheet),
      sheet.figures.some((f) => !f.isChecked),
    ),
    section("Silenced findings", silenced(sheet), sheet.silenced.length > 0),
    section("Notes", `<ul>${sheet.notes.map((n) => `<li>${say(n)}</li>`).join("")}</ul>`, sheet.notes.length > 0),
    signatures(),
    section(
      sheet.labels.length > 1 ? "Labels" : "Label",
      sheet.labels.map((l) => labelHtml(l, drawCode, "h3")).join(""),
      true,
      // Cut off or run through a label printer: nothing of the record may stand on the same paper.
      "own-page",
    ),
  ].join("\n");
  return page(sheet, body);
}

/** Labels alone, for label stock or a sheet of labels. */
export function labelsHtml(sheet: Sheet, drawCode: DrawCode): string {
  const body = [
    `<h1>Labels: ${say(sheet.title)}</h1>`,
    banner(sheet),
    ...sheet.labels.map((l) => labelHtml(l, drawCode, "h2")),
  ];
  return page(sheet, body.join("\n"));
}

function page(sheet: Sheet, body: string): string {
  const identity = running(sheet);
  const forbidden = sheet.notForUse.length > 0;
  const mark = forbidden ? `<div class="mark" aria-hidden="true">NOT FOR USE</div>` : "";
  const head = `<header class="running"><span>${identity.map(escaped).join(" · ")}</span>${forbidden ? "<strong>NOT FOR USE</strong>" : ""}</header>`;
  const foot = `<footer class="running foot"><span>${escaped(sheet.safety)}</span><span class="page-number-written">Pages in all: <span class="inline" style="min-width:10mm"></span></span></footer>`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(sheet.title.text)}</title>
<style>
${sheetStyle}
</style>
</head>
<body>
${mark}<table class="page" role="presentation"><thead><tr><td>${head}</td></tr></thead><tfoot><tr><td>${foot}</td></tr></tfoot><tbody><tr><td><main>
${body}
</main></td></tr></tbody></table>
</body>
</html>
`;
}

/** What stands on each page: whose sheet it is, and of which approved meaning. */
export function running(sheet: Sheet): string[] {
  return [
    sheet.recipe,
    sheet.number?.text ?? "",
    sheet.prepared.text,
    `revision ${sheet.revision?.text ?? "not recorded"}`,
    `fingerprint ${shortFingerprint(sheet.fingerprint.text)}`,
  ].filter((text) => text !== "");
}

/** Enough to tell two sheets apart at arm's length; the whole of it stands on the first page. */
export function shortFingerprint(text: string): string {
  return text.replace(/^[a-z0-9-]+:([0-9a-f]{12})[0-9a-f]{52}$/, "$1");
}

/** Short parts stay on one page: a list that goes on overleaf is taken for ended. */
const together = "keep-together";

function section(title: string, content: string, isWanted = true, layout = ""): string {
  const opening = layout === "" ? "<section>" : `<section class="${layout}">`;
  return isWanted ? `${opening}\n<h2>${title}</h2>\n${content}\n</section>` : "";
}

function heading(sheet: Sheet): string {
  const site = sheet.site ? `<p class="small">${say(sheet.site)}</p>` : "";
  const variant = sheet.variant === "batch" ? "Batch sheet" : "Sheet for one patient";
  return `<header>${site}<h1>${say(sheet.title)}</h1><p>${variant}. Makes <span class="num">${say(sheet.made)}</span>.</p></header>`;
}

function banner(sheet: Sheet): string {
  if (sheet.notForUse.length === 0) return "";
  const reasons = sheet.notForUse.map((reason) => `<li>${say(reason)}</li>`).join("");
  return `<div class="banner" role="alert"><strong>NOT FOR USE</strong><p>Put these right first:</p><ul>${reasons}</ul></div>`;
}

function lines(rows: readonly SaidLine[]): string {
  return `<dl>${rows.map(({ label, value }) => `<dt>${escaped(label)}</dt><dd>${value.text === "" ? write : say(value)}</dd>`).join("")}</dl>`;
}

const write = `<span class="write"></span>`;

/** The lines that identify this one preparation; what was not given is left to write. */
export function recordLines(sheet: Sheet): SaidLine[] {
  const blank: Said = { text: "", from: { kind: "fixed", of: "record" } };
  return [
    ...(sheet.variant === "patient" ? [{ label: "Patient", value: blank }] : []),
    { label: sheet.variant === "batch" ? "Batch" : "Order number", value: sheet.number ?? blank },
    { label: "Prepared", value: sheet.prepared },
    { label: "Time zone", value: sheet.timeZone },
    ...sheet.approvals.map((value) => ({ label: "Approved by", value })),
    ...(sheet.approvals.length === 0 ? [{ label: "Approved by", value: blank }] : []),
  ];
}

function materials(sheet: Sheet): string {
  const stock = sheet.materials.filter((m) => m.recordsLot);
  const devices = sheet.materials.filter((m) => !m.recordsLot);
  const head = (cells: string[]) => `<thead><tr>${cells.map((c) => `<th scope="col">${c}</th>`).join("")}</tr></thead>`;
  const stockTable = `<table class="data">${head(["Name in the steps", "What it is", "Number", "Maker", "Lot", "Expiry", "Taken"])}<tbody>${stock.map(stockRow).join("")}</tbody></table>`;
  const deviceTable =
    devices.length === 0
      ? ""
      : `<table class="data" style="margin-top:3mm">${head(["Name in the steps", "Device", "Number", "Taken"])}<tbody>${devices.map(deviceRow).join("")}</tbody></table>`;
  return stockTable + deviceTable;
}

const tick = `<span class="num">[&nbsp;&nbsp;&nbsp;]</span>`;

function stockRow(m: MaterialRow): string {
  const shelf =
    m.onShelf.length > 0
      ? `<br><span class="small">On the shelf, first to expire first: ${m.onShelf.map(say).join(", ")}</span>`
      : "";
  const cautions = m.cautions.map((c) => `<br><strong>${say(c)}</strong>`).join("");
  const blank = write.repeat(Math.max(1, m.lines));
  const lot = m.chosen.length > 0 ? m.chosen.map((c) => `<span class="num">${say(c.lot)}</span>`).join("<br>") : blank;
  const expiry =
    m.chosen.length > 0 ? m.chosen.map((c) => `<span class="num">${say(c.expires)}</span>`).join("<br>") : blank;
  return `<tr><th scope="row" class="name">${escaped(m.name)}</th><td>${say(m.product)}${cautions}${shelf}</td><td class="num wraps">${say(m.count)}</td><td style="min-width:17mm">${blank}</td><td style="min-width:24mm">${lot}</td><td style="min-width:22mm">${expiry}</td><td>${tick}</td></tr>`;
}

function deviceRow(m: MaterialRow): string {
  const cautions = m.cautions.map((c) => `<br><strong>${say(c)}</strong>`).join("");
  return `<tr><th scope="row" class="name">${escaped(m.name)}</th><td>${say(m.product)}${cautions}</td><td class="num wraps">${say(m.count)}</td><td>${tick}</td></tr>`;
}

function figures(rows: readonly FigureRow[]): string {
  const body = rows.map((r) => `<tr>${figureCells(r)}<td>${write}</td></tr>`).join("");
  return `<table class="data figures">${figureHead("Figure", "Value", "Working", "Second check")}<tbody>${body}</tbody></table>`;
}

function figureHead(...cells: string[]): string {
  return `<thead><tr>${cells.map((c) => `<th scope="col">${c}</th>`).join("")}</tr></thead>`;
}

/** Between lines of working that run on. */
export function joint(working: readonly Said[], i: number): string {
  if (i === working.length - 1) return "";
  return working[i]!.text.endsWith(":") ? " " : "; ";
}

function namedValue({ label, value }: FigureRow): string {
  return `<th scope="row">${say(label)}</th><td class="num wraps">${say(value)}</td>`;
}

function figureCells(row: FigureRow): string {
  const { working } = row;
  return `${namedValue(row)}<td><ul class="work">${working.map((w) => `<li>${say(w)}</li>`).join("")}</ul></td>`;
}

/** Read by whoever checks, not worked out again; its lines run on, or a dozen drugs would fill as many pages. */
function misses(sheet: Sheet): string {
  const rows = sheet.figures.filter((f) => !f.isChecked);
  const body = rows
    .map(
      (r) =>
        `<tr>${namedValue(r)}<td class="small">${r.working.map((w, i) => say(w) + joint(r.working, i)).join("")}</td></tr>`,
    )
    .join("");
  return `<table class="data figures misses">${figureHead("Figure", "From, to", "Why")}<tbody>${body}</tbody></table>`;
}

function steps(sheet: Sheet): string {
  const head = `<thead><tr><th scope="col">No.</th><th scope="col">Step, with the volume to see on the scale</th><th scope="col">Done by</th><th scope="col">Checked by</th></tr></thead>`;
  return `<table class="data steps">${head}<tbody>${sheet.steps.map((s) => stepRow(s, sheet.runs)).join("")}</tbody></table>`;
}

function stepRow(step: StepRow, runs: number): string {
  const things = step.things.map((t) => `<span class="name">${escaped(t.name)}</span>: ${say(t.product)}`).join("; ");
  const figure = step.figure ? `<strong class="figure num">${say(step.figure)}</strong>` : "";
  const text = [
    `<div class="do"><span>${say(step.sentence)}</span> ${figure}</div>`,
    ...step.detail.map((d) => `<p class="things">${say(d)}</p>`),
    things === "" ? "" : `<p class="things">${things}</p>`,
    step.cautions.length === 0
      ? ""
      : `<ul class="cautions">${step.cautions.map((c) => `<li class="caution"><strong aria-hidden="true">!</strong> ${say(c)}</li>`).join(" ")}</ul>`,
  ].join("");
  const isWork = step.kind === "do" || step.kind === "check";
  const box = isWork ? boxes(runs) : "";
  const sign = runs === 1 ? "sign" : "sign runs";
  return `<tr${step.kind === "check" ? ` class="stop"` : ""}><th scope="row" class="no num">${say(step.number)}</th><td class="step">${text}</td><td class="${sign}">${box}</td><td class="${sign}">${box}</td></tr>`;
}

/** One box for each run of the steps, each with room to say who. */
function boxes(runs: number): string {
  if (runs === 1) return `${tick} ${write}`;
  const run = (i: number) =>
    `<span class="run"><span class="num">[&nbsp;&nbsp;]&nbsp;run ${i + 1}</span> ${write}</span>`;
  return Array.from({ length: runs }, (_, i) => run(i)).join("");
}

function keep(sheet: Sheet): string {
  const rows = sheet.keep.map(({ name, product, drawn, left }) => {
    const shown = drawn.length > 0 ? `; drawn: <span class="num">${drawn.map(say).join(", ")}</span>` : "";
    return `<li>${tick} <span class="name">${escaped(name)}</span>: ${say(product)}${shown}${left ? `; left: <span class="num">${say(left)}</span>` : ""}</li>`;
  });
  return `<ul class="work">${rows.join("")}</ul>`;
}

function preparation(sheet: Sheet): string {
  const rows = sheet.beyondUse
    .map(
      (b) =>
        `<tr><th scope="row">${say(b.place)}</th><td class="num">${say(b.limit)}</td><td class="num">${b.end ? say(b.end) : write}</td><td>${say(b.binds)}</td></tr>`,
    )
    .join("");
  const head = `<thead><tr><th scope="col">Kept at</th><th scope="col">Limit</th><th scope="col">Use before</th><th scope="col">What sets it</th></tr></thead>`;
  const table =
    rows === ""
      ? `<p>No beyond-use limit is stated: ${write}</p>`
      : `<table class="data">${head}<tbody>${rows}</tbody></table>`;
  const lots = `<p class="small">Counted from the time of preparation above. If a lot that goes in expires sooner, its expiry is the limit.</p>`;
  const stated = `<div class="${together}">${lines(sheet.preparation)}${table}${lots}</div>`;
  return stated + sheet.beyondUse.map(limitsKnown).join("");
}

function limitsKnown({ place, known }: BeyondUseRow): string {
  if (known.length === 0) return "";
  const rows = known.map(({ said, binds }) => `<li>${binds ? `<strong>Binds: ${say(said)}</strong>` : say(said)}</li>`);
  const head = `<h3>Limits known at ${say(place)}, the shortest first</h3>`;
  return `<div class="${together}">${head}<ul class="small">${rows.join("")}</ul></div>`;
}

function rates(table: RateTable): string {
  const head = table.head.map((h) => `<th scope="col">${escaped(h)}</th>`).join("");
  const body = table.rows
    .map(
      (row) =>
        `<tr>${row.map((cell, i) => (i === 0 ? `<th scope="row">${say(cell)}</th>` : `<td class="num">${say(cell)}</td>`)).join("")}</tr>`,
    )
    .join("");
  const working = table.working.map((w) => `<li>${say(w)}</li>`).join("");
  return `<table class="data"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table><ul class="work">${working}</ul>`;
}

function silenced(sheet: Sheet): string {
  const rows = sheet.silenced
    .map(
      (s) =>
        `<tr><th scope="row">${say(s.message)}</th><td>${say(s.because)}</td><td>${say(s.by)}</td><td class="num">${say(s.until)}</td></tr>`,
    )
    .join("");
  return `<table class="data"><thead><tr><th scope="col">Finding</th><th scope="col">Reason</th><th scope="col">Decided by</th><th scope="col">Until</th></tr></thead><tbody>${rows}</tbody></table>`;
}

function signatures(): string {
  const row = (words: string) =>
    `<tr><th scope="row">${words}</th><td style="min-width:45mm">${write}</td><td style="min-width:30mm">${write}</td><td style="min-width:35mm">${write}</td></tr>`;
  return section(
    "Signatures",
    `<table class="data"><thead><tr><th scope="col">Who</th><th scope="col">Name</th><th scope="col">Initials</th><th scope="col">Date and time</th></tr></thead><tbody>${row("Prepared by")}${row("Checked by")}${row("Labels counted: made, used, destroyed")}${row("Released by")}</tbody></table><p>Remarks, deviations, quality checks and results: ${write}${write}</p>`,
    true,
    together,
  );
}
