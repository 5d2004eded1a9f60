/** The parts of the PDF, section by section, in the order of the HTML sheet. */
import { plain } from "../../language/sheet/escape.ts";
import { isWideLabel, labelColumns } from "../../language/sheet/label-html.ts";
import type { Said, SaidLine } from "../../language/sheet/said.ts";
import type { Label, LabelLine, MaterialRow, Sheet, StepRow } from "../../language/sheet/sheet.ts";
import { joint, recordLines } from "../../language/sheet/sheet-html.ts";

/** A node of the document; pdfmake's own shape. */
type Node = unknown;

const line = "__________";
/** A name is written on it. */
const longLine = "_".repeat(24);
const box = "[   ]";

function say(said: Said): string {
  return plain(said.text);
}

export function sheetContent(sheet: Sheet, drawCode: (text: string) => string): Node[] {
  return [
    sheet.site ? { text: say(sheet.site), style: "small" } : "",
    { text: say(sheet.title), style: "h1" },
    `${sheet.variant === "batch" ? "Batch sheet" : "Sheet for one patient"}. Makes ${say(sheet.made)}.`,
    ...banner(sheet),
    h2("Order"),
    { columns: [lines(sheet.order), lines(recordLines(sheet))], columnGap: 12 },
    { text: `Fingerprint of the meaning: ${say(sheet.fingerprint)}`, style: "small", margin: [0, 3, 0, 0] },
    h2("Materials, in the order of use"),
    ...materials(sheet),
    h2("Figures and their working"),
    figures(sheet),
    h2("Steps"),
    steps(sheet),
    ...(sheet.keep.length > 0 ? [h2("Keep for the check"), { ul: sheet.keep.map(kept) }] : []),
    h2("Finished preparation"),
    lines(sheet.preparation),
    ...beyondUse(sheet),
    ...rates(sheet),
    ...misses(sheet),
    ...silenced(sheet),
    ...(sheet.notes.length > 0 ? [h2("Notes"), { ul: sheet.notes.map(say) }] : []),
    ...signatures(),
    ...labels(sheet, drawCode),
  ];
}

/** The heading goes with the first label, which is as tall as half a page. */
function labels(sheet: Sheet, drawCode: (text: string) => string): Node[] {
  const [first, ...others] = sheet.labels.map((label) => labelBox(label, drawCode));
  const heading = { text: sheet.labels.length > 1 ? "Labels" : "Label", style: "h2" };
  const isWhole = sheet.labels[0] === undefined || fitsPage(sheet.labels[0]);
  // Cut off or run through a label printer: nothing of the record may stand on the same paper.
  return [
    { stack: first === undefined ? [heading] : [heading, first], unbreakable: isWhole, pageBreak: "before" },
    ...others,
  ];
}

export function labelContent(sheet: Sheet, drawCode: (text: string) => string): Node[] {
  const title = { text: `Labels: ${say(sheet.title)}`, style: "h1" };
  return [title, ...banner(sheet), ...sheet.labels.map((label) => labelBox(label, drawCode))];
}

/**
 * @param room what must be free on the page for the heading and the first row below it, in percent of the page; the tallest usual row
 *   and the head of its table take about a sixth. The one number that pdfmake hands on with a node is its level.
 */
function h2(text: string, room = 18): Node {
  return { text, style: "h2", headlineLevel: room };
}

function banner(sheet: Sheet): Node[] {
  if (sheet.notForUse.length === 0) return [];
  const inside = [
    { text: "NOT FOR USE", fontSize: 20, bold: true },
    "Put these right first:",
    { ul: sheet.notForUse.map(say) },
  ];
  return [{ table: { widths: ["*"], body: [[{ stack: inside, margin: [4, 2, 4, 4] }]] }, margin: [0, 8, 0, 0] }];
}

function lines(rows: readonly SaidLine[]): Node {
  if (rows.length === 0) return "";
  const body = rows.map(({ label, value }) => [label, { text: say(value) || longLine, style: "figure" }]);
  return { table: { widths: [95, "*"], body }, layout: "noBorders", width: "*" };
}

function table(head: string[], widths: (string | number)[], body: Node[][]): Node {
  const top = head.map((text) => ({ text, style: "head" }));
  return { table: { headerRows: 1, keepWithHeaderRows: 1, dontBreakRows: true, widths, body: [top, ...body] } };
}

function materials(sheet: Sheet): Node[] {
  const stock = sheet.materials.filter((m) => m.recordsLot);
  const devices = sheet.materials.filter((m) => !m.recordsLot);
  const head = ["Name in the steps", "What it is", "Number", "Maker", "Lot", "Expiry", "Taken"];
  const nodes = [table(head, [58, "*", 64, 46, 62, 62, 32], stock.map(stockRow))];
  if (devices.length > 0) {
    const rows = devices.map((m) => [{ text: m.name, bold: true }, { stack: what(m) }, say(m.count), box]);
    nodes.push({
      stack: [table(["Name in the steps", "Device", "Number", "Taken"], [90, "*", 60, 32], rows)],
      margin: [0, 6, 0, 0],
    });
  }
  return nodes;
}

function what(m: MaterialRow): Node[] {
  const shelf =
    m.onShelf.length > 0
      ? [{ text: `On the shelf, first to expire first: ${m.onShelf.map(say).join(", ")}`, style: "small" }]
      : [];
  return [say(m.product), ...m.cautions.map((c) => ({ text: say(c), bold: true })), ...shelf];
}

function stockRow(m: MaterialRow): Node[] {
  const blank = Array.from({ length: Math.max(1, m.lines) }, () => "________").join("\n");
  const lot = m.chosen.length > 0 ? m.chosen.map((c) => say(c.lot)).join("\n") : blank;
  const expiry = m.chosen.length > 0 ? m.chosen.map((c) => say(c.expires)).join("\n") : blank;
  const figure = (text: string) => ({ text, style: "figure" });
  return [
    { text: m.name, bold: true },
    { stack: what(m) },
    figure(say(m.count)),
    blank,
    figure(lot),
    figure(expiry),
    box,
  ];
}

function figures(sheet: Sheet): Node {
  const rows = sheet.figures
    .filter((r) => r.isChecked)
    .map((r) => [say(r.label), { text: say(r.value), style: "figure" }, { stack: r.working.map(say) }, "_________"]);
  return table(["Figure", "Value", "Working", "Second check"], [130, 104, "*", 56], rows);
}

/** Read by whoever checks, not worked out again; its lines run on, or a dozen drugs would fill as many pages. */
function misses(sheet: Sheet): Node[] {
  const worst = sheet.figures.filter((r) => !r.isChecked);
  const rows = worst.map((r) => [
    say(r.label),
    { text: say(r.value), style: "figure" },
    { text: r.working.map((w, i) => say(w) + joint(r.working, i)).join(""), style: "small" },
  ]);
  const [first] = worst;
  if (!first) return [];
  const letters = first.working.reduce((sum, w) => sum + w.text.length + 2, 0);
  return [
    h2("How far each dose can miss, at worst", roomForLines(letters / 55)),
    table(["Figure", "From, to", "Why"], [120, 76, "*"], rows),
  ];
}

/** Heading, head of the table and a row of so many lines of small print, on the lower of the two papers. */
function roomForLines(lines: number): number {
  return Math.min(90, Math.ceil(((60 + Math.ceil(lines) * 13.5) / 690) * 100));
}

function steps(sheet: Sheet): Node {
  const rows = sheet.steps.map((s) => stepRow(s, sheet.runs));
  const sign = sheet.runs > 1 ? 92 : 56;
  return table(
    ["No.", "Step, with the volume to see on the scale", "Done by", "Checked by"],
    [22, "*", sign, sign],
    rows,
  );
}

function stepRow(step: StepRow, runs: number): Node[] {
  const stop = step.kind === "check";
  const sentence = { text: say(step.sentence), style: "step", bold: stop };
  const figure = step.figure && { text: say(step.figure), style: "big", width: "auto" };
  const text: Node[] = [figure ? { columns: [{ ...sentence, width: "*" }, figure], columnGap: 8 } : sentence];
  for (const detail of step.detail) text.push({ text: say(detail), style: "small" });
  if (step.things.length > 0) {
    const things = step.things.flatMap((t, i) => [
      { text: `${i > 0 ? "; " : ""}${t.name}`, bold: true },
      `: ${say(t.product)}`,
    ]);
    text.push({ text: things, style: "small" });
  }
  if (step.cautions.length > 0) {
    const run = step.cautions.flatMap((c, i) => [{ text: i > 0 ? "   ! " : "! ", bold: true }, say(c)]);
    text.push({ text: run, margin: [0, 1, 0, 0] });
  }
  const isWork = step.kind === "do" || stop;
  const each = Array.from({ length: runs }, (_, i) =>
    runs > 1 ? `${box} run ${i + 1} ______` : `${box}\n________`,
  ).join("\n");
  const sign = isWork ? each : "";
  const border = stop ? { fillColor: "#e6e6e6" } : {};
  return [
    { text: say(step.number), style: "step", bold: true, ...border },
    { stack: text, ...border },
    { text: sign, ...border },
    { text: sign, ...border },
  ];
}

function kept({ name, product, drawn, left }: Sheet["keep"][number]): string {
  const shown = drawn.length > 0 ? `; drawn: ${drawn.map(say).join(", ")}` : "";
  return `${box} ${name}: ${say(product)}${shown}${left ? `; left: ${say(left)}` : ""}`;
}

function beyondUse(sheet: Sheet): Node[] {
  const after = {
    text: "Counted from the time of preparation above. If a lot that goes in expires sooner, its expiry is the limit.",
    style: "small",
    margin: [0, 3, 0, 0],
  };
  if (sheet.beyondUse.length === 0) return [`No beyond-use limit is stated: ${line}`, after];
  const rows = sheet.beyondUse.map((b) => [
    say(b.place),
    { text: say(b.limit), style: "figure" },
    { text: b.end ? say(b.end) : line, style: "figure" },
    say(b.binds),
  ]);
  return [
    {
      stack: [table(["Kept at", "Limit", "Use before", "What sets it"], [100, 70, 110, "*"], rows)],
      margin: [0, 4, 0, 0],
    },
    after,
    ...sheet.beyondUse.flatMap(limitsKnown),
  ];
}

function limitsKnown({ place, known }: Sheet["beyondUse"][number]): Node[] {
  if (known.length === 0) return [];
  const head = { text: `Limits known at ${say(place)}, the shortest first`, bold: true };
  return [
    {
      stack: [
        head,
        { ul: known.map(({ said, binds }) => (binds ? { text: `Binds: ${say(said)}`, bold: true } : say(said))) },
      ],
      margin: [0, 4, 0, 0],
      // pdfmake loses what may not be broken and is taller than a page.
      unbreakable: known.length <= mostTogether,
    },
  ];
}

const mostTogether = 12;

function rates(sheet: Sheet): Node[] {
  const found = sheet.rates;
  if (!found) return [];
  const rows = found.rows.map((row) =>
    row.map((cell, i) => (i === 0 ? say(cell) : { text: say(cell), style: "figure" })),
  );
  const widths = found.head.map(() => "*");
  return [
    h2(say(found.caption)),
    table(found.head, widths, rows),
    { stack: found.working.map(say), margin: [0, 3, 0, 0] },
  ];
}

function silenced(sheet: Sheet): Node[] {
  if (sheet.silenced.length === 0) return [];
  const rows = sheet.silenced.map((s) => [say(s.message), say(s.because), say(s.by), say(s.until)]);
  return [h2("Silenced findings"), table(["Finding", "Reason", "Decided by", "Until"], ["*", "*", 70, 66], rows)];
}

function signatures(): Node[] {
  const row = (words: string) => [words, "\n", "\n", "\n"];
  const rows = ["Prepared by", "Checked by", "Labels counted: made, used, destroyed", "Released by"].map(row);
  const remarks =
    "Remarks, deviations, quality checks and results: ______________________________________________\n\n_________________________________________________________________________________________________";
  return [
    h2("Signatures"),
    table(["Who", "Name", "Initials", "Date and time"], ["*", 130, 70, 110], rows),
    { text: remarks, margin: [0, 6, 0, 0] },
  ];
}

/** Points between the margins of the lower of the two papers, less the heading. */
const mostHeight = 620;
const narrow = { width: 330, word: 92 };
/** As wide as the page allows, where many ingredients would make a narrow label longer than it. */
const wide = { width: 510, word: 190 };
/** One of two columns side by side within a wide label. */
const halfWide = { width: 260, word: 74 };

/** Points that a label takes up, rather too many: pdfmake loses what it may not break and has no room for. */
function heightOf(own: Label, { width, word }: typeof narrow): number {
  const { barcode, safety } = own;
  const rows = (text: string, points: number, size: number) => Math.ceil((text.length * size * 0.58) / points) || 1;
  const inside = width - 20;
  const head = own.lines.map(({ kind, value }) => {
    if (kind === "name") return rows(value.text, inside, 13) * 16;
    return kind === "warning" ? rows(value.text, inside - 10, 11) * 14 + 10 : 0;
  });
  const listed = (lines: readonly LabelLine[], shape: typeof narrow) => {
    const each = lines.map(({ kind, label, value }) => {
      const size = kind === "strong" ? 12 : 10;
      const column = shape.width - 36 - shape.word;
      return Math.max(rows(value.text, column, size) * size * 1.2, rows(label, shape.word, 9.5) * 11.5) + 5;
    });
    return each.reduce((sum, height) => sum + height, 0);
  };
  const [first, ...tail] = labelColumns(own);
  const heights = [...head, listed(first, { width, word }), Math.max(0, ...tail.map((t) => listed(t, halfWide)))];
  const words = barcode ? [barcode.text.text, ...barcode.meaning.map((m) => m.text)] : [];
  const code = words.reduce((sum, text) => sum + rows(text, inside - 70, 9) * 11, 0);
  return heights.reduce((sum, each) => sum + each, 0) + Math.max(code, 60) + rows(safety, inside, 8.5) * 10 + 16;
}

function shapeOf(label: Label): typeof narrow {
  return !isWideLabel(label) && heightOf(label, narrow) <= mostHeight ? narrow : wide;
}

function fitsPage(label: Label): boolean {
  return heightOf(label, shapeOf(label)) <= mostHeight;
}

function labelBox(label: Label, drawCode: (text: string) => string): Node {
  const name = label.lines.find((l) => l.kind === "name");
  const warnings = label.lines
    .filter((l) => l.kind === "warning")
    .map(({ value }) => ({
      table: { widths: ["*"], body: [[{ text: say(value), bold: true }]] },
      margin: [0, 2, 0, 2],
    }));
  const [first, ...tail] = labelColumns(label);
  const { width, word } = shapeOf(label);
  const isWhole = fitsPage(label);
  const inside: Node[] = [
    name ? { text: say(name.value), fontSize: 13, bold: true } : "",
    ...warnings,
    labelList(first, word),
    tail.length > 0 ? { columns: tail.map((lines) => labelList(lines, halfWide.word)), columnGap: 10 } : "",
    label.notForUse ? { text: "NOT FOR USE", fontSize: 22, bold: true } : code(label, drawCode),
    { text: plain(label.safety), fontSize: 8.5, margin: [0, 3, 0, 0] },
  ];
  return {
    table: { dontBreakRows: isWhole, widths: [width], body: [[{ stack: inside, margin: [4, 3, 4, 3] }]] },
    margin: [0, 4, 0, 8],
    unbreakable: isWhole,
  };
}

function labelList(lines: readonly LabelLine[], word: number): Node {
  const body = lines.map(({ kind, label, value }) => [
    { text: label, fontSize: 9.5 },
    { text: kind === "blank" ? longLine : say(value), fontSize: kind === "strong" ? 12 : 10, bold: kind === "strong" },
  ]);
  return { table: { dontBreakRows: true, widths: [word, "*"], body }, layout: "noBorders" };
}

function code({ barcode }: Label, drawCode: (text: string) => string): Node {
  if (!barcode) return "";
  const words = [{ text: say(barcode.text), bold: true }, ...barcode.meaning.map(say)];
  return {
    columns: [
      { svg: drawCode(barcode.text.text), width: 54, margin: [4, 4, 0, 0] },
      { stack: words, fontSize: 9, margin: [8, 4, 0, 0] },
    ],
  };
}
