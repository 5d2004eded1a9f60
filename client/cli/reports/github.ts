/**
 * Workflow commands that GitHub Actions shows beside the changed lines. Escapes follow GitHub's documented command syntax
 * (`@actions/core`): `%`, CR and LF everywhere, `:` and `,` in properties too, so that no text can begin a command of its own;
 * other control characters are written out, as the log shows colours.
 */
import type { Severity } from "../../../shared/finding.ts";
import type { Report, ReportFinding } from "../../../shared/report.ts";
import { withRelated } from "./related-lines.ts";
import { visible } from "./visible.ts";

const command: Record<Severity, string> = { error: "error", warning: "warning", note: "notice" };

/** One command a finding, then one for the run. Silenced findings are left out. */
export function githubReport(report: Report): string {
  const lines = report.findings.filter((finding) => !finding.silenced).map(annotation);
  for (const { file, reason } of report.notChecked) {
    lines.push(`::error ${properties({ file, title: "not checked" })}::${escapeMessage(reason)}`);
  }
  const { error, warning, note, silenced, baseline } = report.counts;
  const counts = `errors ${error}, warnings ${warning}, notes ${note}, silenced ${silenced}, baseline ${baseline}`;
  lines.push(escapeMessage(`misce, as of ${report.asOf}: ${counts}. ${report.notice}`));
  return `${lines.join("\n")}\n`;
}

function annotation(finding: ReportFinding): string {
  const { name, severity, place, why } = finding;
  const message = withRelated(finding.message, finding);
  // GitHub takes columns only within one line.
  const columns: Record<string, string | number> =
    place.line === place.endLine ? { col: place.column, endColumn: Math.max(place.column, place.endColumn) } : {};
  const at = properties({ file: place.file, line: place.line, endLine: place.endLine, ...columns, title: name });
  return `::${command[severity]} ${at}::${escapeMessage(why === "" ? message : `${message}\n${why}`)}`;
}

function properties(values: Record<string, string | number>): string {
  return Object.entries(values)
    .map(([key, value]) => `${key}=${escapeProperty(String(value))}`)
    .join(",");
}

function escapeMessage(text: string): string {
  return visible(text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A"));
}

function escapeProperty(text: string): string {
  return escapeMessage(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
}
