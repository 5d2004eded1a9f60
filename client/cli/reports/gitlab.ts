/** GitLab's code quality list: an array of description, check_name, fingerprint, severity and location. Silenced findings are left out. */
import type { Severity } from "../../../shared/finding.ts";
import type { Report } from "../../../shared/report.ts";
import { withRelated } from "./related-lines.ts";

// GitLab knows info, minor, major, critical and blocker; the two ends are kept free for what a site may add.
const severityOf: Record<Severity, string> = { error: "critical", warning: "major", note: "info" };

export function gitlabReport(report: Report): string {
  const found = report.findings
    .filter((finding) => !finding.silenced)
    .map(({ name, severity, message, related, place, fingerprint }) => ({
      description: withRelated(message, { related }),
      check_name: name,
      fingerprint,
      severity: severityOf[severity],
      location: { path: place.file, lines: { begin: place.line, end: place.endLine } },
    }));
  const unread = report.notChecked.map(({ file, reason }) => ({
    description: reason,
    check_name: "not-checked",
    fingerprint: `not-checked ${file}`,
    severity: "blocker",
    location: { path: file, lines: { begin: 1, end: 1 } },
  }));
  return `${JSON.stringify([...found, ...unread], null, 2)}\n`;
}
