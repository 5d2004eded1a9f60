/**
 * The report for a person at a terminal: one card a finding, a word at the left of each row saying what the row is, the counts
 * at the end.
 */
import type { Severity } from "../../../shared/finding.ts";
import type { BaselineEntry, Report, ReportFinding, ReportPlace, ReportRange } from "../../../shared/report.ts";
import { excerptOf } from "./excerpt.ts";
import type { RenderContext } from "./render-report.ts";
import { visible } from "./visible.ts";

const labelWidth = 9;
const usualWidth = 100;
/** SGR codes (ECMA-48). */
const ink = { error: "1;31", warning: "1;33", note: "1;36", faint: "2", strong: "1" } as const;

type Paint = (text: string, how: keyof typeof ink) => string;

/** Ends with a newline, or is empty (`quiet` and nothing found). */
export function textReport(report: Report, context: RenderContext): string {
  const paint: Paint = (text, how) => (context.colour ? `\u001b[${ink[how]}m${text}\u001b[0m` : text);
  const cards = report.findings.filter((f) => !f.silenced).map((f) => card(f, context, paint));
  const parts = context.quiet ? cards : [...cards, summary(report, paint)];
  return parts.length === 0 ? "" : `${parts.join("\n\n")}\n`;
}

function card(finding: ReportFinding, context: RenderContext, paint: Paint): string {
  const subject = finding.subject === "" ? "" : `, ${visible(finding.subject)}`;
  const rows = [
    row(finding.severity, paint(visible(finding.message), "strong"), (label) => paint(label, finding.severity)),
    row("at", `${at(finding.place)}${subject}`),
    ...excerptRows(finding.place, finding.severity, context, paint),
  ];
  for (const { place, message } of finding.related) {
    rows.push(row("see", `${visible(message)} (${at(place)})`), ...excerptRows(place, "faint", context, paint));
  }
  rows.push(row("why", visible(finding.why)));
  for (const fix of finding.fixes) rows.push(row("mend", visible(fix.title)));
  rows.push(row("check", paint(visible(finding.name), "faint")));
  return rows.join("\n");
}

function row(label: string, text: string, paintLabel = (padded: string) => padded): string {
  return paintLabel(label) + " ".repeat(Math.max(1, labelWidth - label.length)) + text;
}

function at({ file, line, column }: ReportPlace): string {
  return `${visible(file)}:${line}:${column}`;
}

function excerptRows(place: ReportPlace, how: keyof typeof ink, context: RenderContext, paint: Paint): string[] {
  const source = context.texts.get(place.file);
  if (!source) return [];
  const margin = labelWidth + 2;
  const excerpt = excerptOf(place, source, (context.width ?? usualWidth) - margin);
  const number = String(excerpt.lineNumber).padStart(labelWidth - 1);
  const until = excerpt.until === undefined ? "" : ` to line ${excerpt.until}`;
  return [
    `${paint(number, "faint")} | ${excerpt.line}`,
    `${" ".repeat(labelWidth - 1)} | ${paint(excerpt.carets, how)}${until}`,
  ];
}

function summary(report: Report, paint: Paint): string {
  const { counts, baseline } = report;
  const files = count(report.files.length, "file");
  const isIdle = report.files.length === 0 && report.notChecked.length === 0;
  const lines = [
    isIdle
      ? `No file checked as of ${report.asOf}: none was changed, and none uses what was changed.`
      : `${files} checked as of ${report.asOf}: ${found(counts, paint)}.`,
  ];
  if (counts.silenced > 0) lines.push(`${count(counts.silenced, "finding")} silenced by a deviation, not shown.`);
  if (baseline) {
    lines.push(`${count(baseline.known, "finding")} known from the baseline ${visible(baseline.file)}, not shown.`);
    if (baseline.errorsIn.length > 0) {
      lines.push(
        `Known errors stand in ${named(baseline.errorsIn)}. What needs a figure that they leave unknown is not judged there, and a new slip may hide behind them.`,
      );
    }
    if (baseline.gone.length > 0) {
      lines.push("In the baseline but gone; remove them with --write-baseline:", ...baseline.gone.map(goneLine));
    }
  }
  lines.push(...rangeLines(report.ranges ?? [], paint));
  if (report.notChecked.length > 0) {
    lines.push(paint(`${count(report.notChecked.length, "file")} could not be checked:`, "error"));
    for (const { file, reason } of report.notChecked) lines.push(`  ${visible(file)}: ${visible(reason)}`);
    if (report.files.length > 0) {
      lines.push(
        "What stands there was missing from the check: a name may be told as undeclared for that, and a fault may hide.",
      );
    }
  }
  lines.push(report.notice);
  return lines.join("\n");
}

function named(subjects: readonly string[]): string {
  const shown = subjects.slice(0, mostNames).map(visible);
  const more = subjects.length - shown.length;
  return shown.join(", ") + (more > 0 ? ` and ${more} more` : "");
}

/** More names than these make no sentence; a report for a machine holds them all. */
const mostNames = 12;

/** More ranged recipes than these are told by their number. */
const mostRanges = 12;

function rangeLines(ranges: readonly ReportRange[], paint: Paint): string[] {
  const each = ranges.map(({ recipe, range, pieces, undecided }) => {
    const open =
      undecided.length === 0 ? "" : paint(`, ${count(undecided.length, "stretch", "stretches")} not decided`, "error");
    return `${visible(recipe)}: range of ${visible(range)} judged in ${count(pieces, "piece")}${open}.`;
  });
  if (ranges.length <= mostRanges) return each;
  const pieces = ranges.reduce((sum, r) => sum + r.pieces, 0);
  const open = ranges.reduce((sum, r) => sum + r.undecided.length, 0);
  const rest = open === 0 ? "" : paint(`, ${count(open, "stretch", "stretches")} not decided`, "error");
  return [`${ranges.length} recipes with a range judged in ${count(pieces, "piece")}${rest}.`];
}

function found(counts: Report["counts"], paint: Paint): string {
  const some = (["error", "warning", "note"] as const satisfies readonly Severity[]).filter((s) => counts[s] > 0);
  return some.length === 0 ? "nothing found" : some.map((s) => paint(count(counts[s], s), s)).join(", ");
}

function goneLine(entry: BaselineEntry): string {
  const subject = entry.subject === "" ? "" : `, ${entry.subject}`;
  const times = entry.count === 1 ? "" : ` (${entry.count} times)`;
  return visible(`  ${entry.name}, ${entry.file}${subject}: ${entry.anchor}${times}`);
}

function count(n: number, noun: string, several = `${noun}s`): string {
  return `${n} ${n === 1 ? noun : several}`;
}
