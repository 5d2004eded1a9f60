/**
 * SARIF 2.1.0 (OASIS standard, 27 March 2020). Silenced findings stay in the log as suppressed results (section 3.35);
 * `partialFingerprints` hold the fingerprint that does not depend on line numbers (section 3.27.17).
 */
import { isAbsolute } from "node:path";
import { pathToFileURL } from "node:url";
import type { Severity } from "../../../shared/finding.ts";
import type { Report, ReportFinding, ReportFix, ReportPlace } from "../../../shared/report.ts";
import type { CheckDescription } from "../engine-contract.ts";
import type { RenderContext } from "./render-report.ts";

type Json = Record<string, unknown>;
const level: Record<Severity, string> = { error: "error", warning: "warning", note: "note" };

export function sarifReport(report: Report, context: RenderContext): string {
  const names = [...new Set(report.findings.map((finding) => finding.name))].sort();
  const indexOf = new Map(names.map((name, index) => [name, index]));
  const run: Json = {
    tool: {
      driver: {
        name: "misce",
        version: report.tool.version,
        semanticVersion: report.tool.version,
        fullDescription: { text: report.notice },
        rules: names.map((name) => rule(name, report, context)),
      },
    },
    invocations: [
      {
        executionSuccessful: report.notChecked.length === 0,
        exitCode: report.exitStatus,
        toolExecutionNotifications: report.notChecked.map(({ file, reason }) => ({
          level: "error",
          message: { text: literal(reason) },
          locations: [{ physicalLocation: { artifactLocation: artifact(file) } }],
        })),
      },
    ],
    originalUriBaseIds: { "%SRCROOT%": { description: { text: "The folder in which the command was run." } } },
    artifacts: report.files.map((file) => ({ location: artifact(file), encoding: "UTF-8", sourceLanguage: "misce" })),
    columnKind: "utf16CodeUnits",
    results: report.findings.map((finding) => result(finding, indexOf, context)),
    properties: {
      asOf: report.asOf,
      knownFromBaseline: report.counts.baseline,
      knownErrorsIn: report.baseline?.errorsIn ?? [],
      ranges: report.ranges ?? [],
    },
  };
  const log = { $schema: "https://json.schemastore.org/sarif-2.1.0.json", version: "2.1.0", runs: [run] };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function rule(name: string, report: Report, context: RenderContext): Json {
  const sample = report.findings.find((finding) => finding.name === name)!;
  const known: Pick<CheckDescription, "title" | "why" | "source" | "family" | "severity" | "bad" | "good"> =
    context.rules.get(name) ?? { ...sample, title: name.replaceAll("-", " "), bad: "", good: "" };
  const text = [
    known.why,
    `Source: ${known.source}.`,
    example("It is found here:", known.bad),
    example("Right:", known.good),
  ]
    .filter((part) => part !== "")
    .join("\n\n");
  return {
    id: name,
    shortDescription: { text: literal(known.title) },
    fullDescription: { text: literal(known.why) },
    help: { text: literal(text) },
    defaultConfiguration: { level: level[known.severity] },
    properties: { tags: [known.family], source: known.source },
  };
}

function example(head: string, text: string): string {
  return text === "" ? "" : `${head}\n${text}`;
}

function result(finding: ReportFinding, indexOf: ReadonlyMap<string, number>, context: RenderContext): Json {
  const { name, severity, message, place, related, fixes, subject, fingerprint, silenced } = finding;
  const location: Json = physical(place, context);
  if (subject !== "") location.logicalLocations = [{ fullyQualifiedName: subject }];
  const json: Json = {
    ruleId: name,
    ruleIndex: indexOf.get(name)!,
    level: level[severity],
    message: { text: literal(message) },
    locations: [location],
    partialFingerprints: { "misceFinding/v1": fingerprint },
    // Present on every result, as section 3.27.23 asks: an empty array says that the result is not suppressed.
    suppressions: silenced ? [suppression(silenced, context)] : [],
  };
  if (finding.overRange) json.properties = { overRange: finding.overRange };
  if (related.length > 0) {
    json.relatedLocations = related.map((r, i) => ({
      id: i + 1,
      ...physical(r.place, context),
      message: { text: literal(r.message) },
    }));
  }
  if (fixes.length > 0) json.fixes = fixes.map(fixJson);
  return json;
}

function suppression(silenced: NonNullable<ReportFinding["silenced"]>, context: RenderContext): Json {
  const { because, by, until, place } = silenced;
  return {
    kind: "inSource",
    status: "accepted",
    justification: `${because} (by ${by}, until ${until})`,
    location: physical(place, context),
  };
}

function physical(place: ReportPlace, context: RenderContext): Json {
  const source = context.texts.get(place.file);
  const location: Json = { artifactLocation: artifact(place.file), region: region(place) };
  if (source && place.end > place.start) {
    location.region = { ...region(place), snippet: { text: source.text.slice(place.start, place.end) } };
  }
  return { physicalLocation: location };
}

function region({ line, column, endLine, endColumn, start, end }: ReportPlace): Json {
  return {
    startLine: line,
    startColumn: column,
    endLine,
    endColumn,
    charOffset: start,
    charLength: Math.max(0, end - start),
  };
}

function fixJson({ title, edits }: ReportFix): Json {
  const byFile = new Map<string, ReportFix["edits"]>();
  for (const edit of edits) byFile.set(edit.place.file, [...(byFile.get(edit.place.file) ?? []), edit]);
  return {
    description: { text: literal(title) },
    artifactChanges: [...byFile].map(([file, list]) => ({
      artifactLocation: artifact(file),
      replacements: list.map((edit) => ({ deletedRegion: region(edit.place), insertedContent: { text: edit.text } })),
    })),
  };
}

/** Relative to %SRCROOT%; a file outside it has an address of its own, as the base may not be left with `..` (section 3.4.4). */
function artifact(file: string): Json {
  if (isAbsolute(file) || file.startsWith("../")) return { uri: pathToFileURL(file).href };
  return { uri: file.split("/").map(encoded).join("/"), uriBaseId: "%SRCROOT%" };
}

/** Half a surrogate pair has no UTF-8 form and would make encodeURIComponent throw; it is written as U+FFFD, as file systems do. */
function encoded(segment: string): string {
  return encodeURIComponent(segment.replace(/\p{Surrogate}/gu, "\ufffd"));
}

/** Brackets that would read as an embedded link (section 3.11.6) are taken literally. */
function literal(text: string): string {
  return text.replace(/\[(?=[^[\]]*\]\()/g, "\\[");
}
