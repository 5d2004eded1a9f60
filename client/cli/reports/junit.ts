/**
 * JUnit XML: a suite a file; in it one test case for the file itself and one for each recipe. A finding at or above the level
 * fails its case; lesser and silenced ones are told in its output.
 */
import { type Severity, severities } from "../../../shared/finding.ts";
import type { Report, ReportFinding } from "../../../shared/report.ts";
import type { SourceText } from "../source-text.ts";
import { withRelated } from "./related-lines.ts";
import type { RenderContext } from "./render-report.ts";

const fileCase = "file";

export function junitReport(report: Report, context: RenderContext): string {
  // A file that was not asked about and that the library lacks has a suite too: without it the report would pass.
  const files = [...report.files, ...report.notChecked.map((entry) => entry.file)];
  const byFile = new Map<string, ReportFinding[]>(files.map((file) => [file, []]));
  for (const finding of report.findings) {
    const list = byFile.get(finding.place.file);
    if (list) list.push(finding);
    else byFile.set(finding.place.file, [finding]);
  }
  const suites = [...byFile].map(([file, findings]) => suite(file, findings, report, context.texts.get(file)));
  const total = (key: "tests" | "failures" | "errors") => suites.reduce((sum, s) => sum + s[key], 0);
  const head = `<testsuites name="misce" tests="${total("tests")}" failures="${total("failures")}" errors="${total("errors")}">`;
  const properties = [
    "  <properties>",
    `    <property name="as-of" value="${attribute(report.asOf)}"/>`,
    `    <property name="baseline" value="${report.counts.baseline}"/>`,
    `    <property name="notice" value="${attribute(report.notice)}"/>`,
    "  </properties>",
  ];
  // Properties belong to a suite, so a first one without cases carries them.
  const run = [
    '  <testsuite name="run" tests="0" failures="0" errors="0">',
    ...properties.map((l) => `  ${l}`),
    "  </testsuite>",
  ];
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    head,
    ...run,
    ...suites.flatMap((s) => s.lines),
    "</testsuites>",
  ];
  return `${lines.join("\n")}\n`;
}

interface Suite {
  tests: number;
  failures: number;
  errors: number;
  lines: string[];
}

function suite(
  file: string,
  findings: readonly ReportFinding[],
  report: Report,
  source: SourceText | undefined,
): Suite {
  const cases = new Map<string, ReportFinding[]>([[fileCase, []]]);
  for (const recipe of recipesIn(source)) cases.set(recipe, []);
  for (const finding of findings) {
    const name = finding.subject === "" ? fileCase : finding.subject;
    const list = cases.get(name);
    if (list) list.push(finding);
    else cases.set(name, [finding]);
  }
  const unread = report.notChecked.filter((entry) => entry.file === file);
  const fails = (finding: ReportFinding) => !finding.silenced && isAtLeast(finding.severity, report.level);
  const failures = [...cases.values()].filter((list) => list.some(fails)).length;
  const head = `  <testsuite name="${attribute(file)}" tests="${cases.size}" failures="${failures}" errors="${unread.length > 0 ? 1 : 0}">`;
  const lines = [...cases].flatMap(([name, list]) =>
    testCase(file, name, list, fails, name === fileCase ? unread.map((u) => u.reason) : []),
  );
  return { tests: cases.size, failures, errors: unread.length > 0 ? 1 : 0, lines: [head, ...lines, "  </testsuite>"] };
}

/** Recipes by the shape of their head line: enough to name a case that has no finding. */
function recipesIn(source: SourceText | undefined): string[] {
  return [...(source?.text ?? "").matchAll(/^recipe[ \t]+([^\s{#"]+)[ \t]*\{/gm)].map((match) => `recipe ${match[1]}`);
}

function testCase(
  file: string,
  name: string,
  findings: readonly ReportFinding[],
  fails: (finding: ReportFinding) => boolean,
  errors: readonly string[],
): string[] {
  const head = `    <testcase classname="${attribute(file)}" name="${attribute(name)}"`;
  const inside = [
    ...errors.map((reason) => `      <error message="${attribute(reason)}" type="not-checked"/>`),
    ...findings.filter(fails).map(failure),
  ];
  const told = findings.filter((finding) => !fails(finding)).map(line);
  if (told.length > 0) inside.push(`      <system-out>${content(told.join("\n"))}</system-out>`);
  return inside.length === 0 ? [`${head}/>`] : [`${head}>`, ...inside, "    </testcase>"];
}

function failure(finding: ReportFinding): string {
  const text = content([line(finding), finding.why].join("\n"));
  return `      <failure message="${attribute(finding.message)}" type="${attribute(finding.name)}">${text}</failure>`;
}

function line(finding: ReportFinding): string {
  const { severity, message, place, name, silenced } = finding;
  const quiet = silenced ? ` (silenced: ${silenced.because}, by ${silenced.by}, until ${silenced.until})` : "";
  return withRelated(`${place.file}:${place.line}:${place.column} ${severity} ${name}: ${message}${quiet}`, finding);
}

function isAtLeast(severity: Severity, level: Severity): boolean {
  return severities.indexOf(severity) <= severities.indexOf(level);
}

/** XML 1.0, section 2.2: these characters cannot stand in a document, not even as references. */
const forbidden = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

function content(text: string): string {
  return text
    .replace(forbidden, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll("\r", "&#13;");
}

/** Blanks other than the space are written as references, as an XML reader would otherwise make spaces of them. */
function attribute(text: string): string {
  return content(text).replaceAll('"', "&quot;").replaceAll("\n", "&#10;").replaceAll("\t", "&#9;");
}
