/**
 * Approvals of a recipe: a record beside its file that says who, in which role and on which day, stood for which meaning. It holds as
 * long as the fingerprint of the whole meaning is the same; layout, comments and lots do not matter.
 *
 * The record is JSON, one file a recipe: `<recipe name>.approvals.json` in the folder of the recipe's file. Its schema is
 * shared/approvals.schema.json. Pure: texts and dates come in.
 */
import type { Finding } from "../../shared/finding.ts";
import { safetyNotice } from "../../shared/report.ts";
import type { Library } from "../library.ts";
import { dateText, isDateFault, parseDate } from "../model/dates.ts";
import type { Recipe } from "../model/declaration.ts";
import { approvalChecks } from "./approval-checks.ts";
import {
  algorithmOf,
  fingerprintAlgorithm,
  fingerprintOf,
  fingerprintsOfParts,
  isFingerprintOf,
} from "./fingerprint.ts";

export const approvalsSchema = "misce-approvals/1";

export interface Approval {
  role: string;
  /** ISO date. */
  date: string;
  /** `misce-meaning-3:…`; of an earlier version where it was given under one. */
  fingerprint: string;
  /** git commit in which the approved meaning stands; null where there was none. */
  revision: string | null;
  /** Declarations that the approved meaning was made of, each with a hash of what it said. */
  restsOn: { [declaration: string]: string };
}

export interface ApprovalRecord {
  schema: typeof approvalsSchema;
  recipe: string;
  /** In the order in which they were given. */
  approvals: Approval[];
  notice: string;
}

export function approvalFileOf(recipe: string): string {
  return `${recipe}.approvals.json`;
}

/** What lies behind the name of a record; `unread` where that is no file, may not be read, or is not UTF-8. */
export type RecordText = string | { unread: true };

/** The record, or a sentence that says what is wrong with it. */
export function readApprovals(text: RecordText): ApprovalRecord | { fault: string } {
  if (typeof text !== "string") {
    return {
      fault:
        "The record of approvals is no file of UTF-8 text that can be read. Take it back from version control, or approve again.",
    };
  }
  let data: unknown;
  try {
    data = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    return { fault: "The record of approvals is no JSON text. Take it back from version control, or approve again." };
  }
  const record = data as Partial<ApprovalRecord> | null;
  if (record?.schema !== approvalsSchema)
    return { fault: `The record of approvals is not of the form ${approvalsSchema}.` };
  if (typeof record.recipe !== "string" || !Array.isArray(record.approvals) || !record.approvals.every(isApproval)) {
    return { fault: "The record of approvals lacks a role, a day or a fingerprint. Approve again." };
  }
  return record as ApprovalRecord;
}

function isApproval(each: unknown): boolean {
  const { role, date, fingerprint, revision, restsOn } = (each ?? {}) as Partial<Approval>;
  const isDay = typeof date === "string" && !isDateFault(parseDate(date));
  const hashes = typeof restsOn === "object" && restsOn !== null ? Object.values(restsOn) : undefined;
  return (
    isDay &&
    typeof role === "string" &&
    typeof fingerprint === "string" &&
    (revision === null || typeof revision === "string") &&
    (hashes?.every((hash) => typeof hash === "string") ?? false)
  );
}

export function approvalOf(
  recipe: Recipe,
  library: Library,
  given: { role: string; date: string; revision: string | null },
): Approval {
  return { ...given, fingerprint: fingerprintOf(recipe, library), restsOn: fingerprintsOfParts(recipe, library) };
}

/** The record with one approval more; of one role the last counts, the earlier ones stay as history. */
export function withApproval(record: ApprovalRecord | undefined, recipe: string, approval: Approval): ApprovalRecord {
  const approvals = [...(record?.approvals ?? []), approval];
  return { schema: approvalsSchema, recipe, approvals, notice: safetyNotice };
}

/** The last approval of each role, of those given by the end of a day (ISO date): a later one did not exist then. */
export function standingApprovals({ approvals }: ApprovalRecord, day: string): Approval[] {
  return lastOfEachRole(approvals.filter((a) => a.date <= day));
}

/** The last of each role that bears a later day. */
export function laterApprovals({ approvals }: ApprovalRecord, day: string): Approval[] {
  return lastOfEachRole(approvals.filter((a) => a.date > day));
}

function lastOfEachRole(approvals: readonly Approval[]): Approval[] {
  return [...new Map(approvals.map((a) => [a.role, a])).values()];
}

export interface ApprovalState {
  recipe: Recipe;
  file: string;
  record: ApprovalRecord | undefined;
  /** What is wrong with the record's file, where it cannot be used. */
  fault: string | undefined;
  /** Fact by fact what changed since a revision; undefined where no history tells. */
  changesSince(approval: Approval): readonly string[] | undefined;
}

/** Stale approvals; and, where the site asks for approvals, missing ones. */
export function approvalFindings(state: ApprovalState, library: Library): Finding[] {
  const { record, fault } = state;
  if (fault !== undefined) return [finding("approval-not-readable", state, library, `${fault}`)];
  const day = dateText(library.surroundings().asOf);
  const standing = record ? standingApprovals(record, day) : [];
  const holds = ({ fingerprint }: Approval) => isFingerprintOf(fingerprint, state.recipe, library);
  const findings = standing
    .filter((approval) => !holds(approval))
    .map((approval) => finding("approval-stale", state, library, staleText(approval, state, library)));
  for (const later of record ? laterApprovals(record, day) : []) {
    // What was approved before, and again since, was approved on the day.
    if (standing.some((a) => a.role === later.role && holds(a))) continue;
    findings.push(finding("approval-later", state, library, laterText(later, day)));
  }
  for (const role of rolesAskedFor(library)) {
    if (standing.some((a) => a.role === role)) continue;
    const text = `No approval by ${role} is on record for ${state.recipe.name.name}, and the site asks for one. Review the recipe, then run \`misce approve ${state.recipe.name.name} --role ${role}\`.`;
    findings.push(finding("approval-missing", state, library, text));
  }
  const { severities } = library.surroundings().policy;
  return findings.flatMap((f) => {
    const level = severities.get(f.name) ?? f.severity;
    return level === "off" ? [] : [{ ...f, severity: level }];
  });
}

/** Roles whose approval the site asks for, by its fact `approvals`. */
export function rolesAskedFor(library: Library): string[] {
  return library.ofKind("site").flatMap((site) => {
    if (site.kind !== "site") return [];
    return site.facts.all("approvals").map(({ slots }) => slots.role.name);
  });
}

function laterText({ role, date }: Approval, day: string): string {
  return `The approval by ${role} is of ${date}, after the day that is judged, ${day}: on that day it was not there, so it does not count. If its day is a slip, approve again; else judge as of a later day.`;
}

const mostTold = 6;

function staleText(approval: Approval, state: ApprovalState, library: Library): string {
  const name = state.recipe.name.name;
  const algorithm = algorithmOf(approval.fingerprint);
  const version = algorithm === fingerprintAlgorithm ? "" : ` under ${versionWords(approval.fingerprint)}`;
  const start = `Approved by ${approval.role} on ${approval.date}${version}`;
  const again = `Review the recipe, then run \`misce approve ${name} --role ${approval.role}\`.`;
  if (!algorithm) return `${start}, so it cannot be told whether the meaning is the same. ${again}`;
  const changes = state.changesSince(approval) ?? partsChanged(approval, state.recipe, library);
  const told = changes.slice(0, mostTold).join("; ");
  const more = changes.length > mostTold ? `; and ${changes.length - mostTold} more` : "";
  return `${start}, but the meaning has changed since: ${told === "" ? "it differs, and no history says where" : told}${more}. ${again}`;
}

/** `an earlier fingerprint version (misce-meaning-1)`; empty for the version of today. */
export function versionWords(fingerprint: string): string {
  const algorithm = algorithmOf(fingerprint);
  if (algorithm === fingerprintAlgorithm) return "";
  if (algorithm) return `an earlier fingerprint version (${algorithm})`;
  return `a fingerprint version that this program does not know (${fingerprint.split(":")[0]})`;
}

/** Without history: which declarations say something else now. */
function partsChanged({ restsOn, fingerprint }: Approval, recipe: Recipe, library: Library): string[] {
  const now = fingerprintsOfParts(recipe, library, algorithmOf(fingerprint));
  return [...new Set([...Object.keys(restsOn), ...Object.keys(now)])].sort().flatMap((name) => {
    if (restsOn[name] === now[name]) return [];
    if (restsOn[name] === undefined) return [`it rests on ${name} now`];
    return [now[name] === undefined ? `it no longer rests on ${name}` : `${name} says something else`];
  });
}

function finding(
  name: (typeof approvalChecks)[number]["name"],
  { recipe, file }: ApprovalState,
  library: Library,
  message: string,
): Finding {
  const check = approvalChecks.find((c) => c.name === name)!;
  const span = library.spanOf({ ...recipe.head, chunk: recipe.chunk }) ?? { file, start: 0, end: 0 };
  const { family, severity, why, source } = check;
  const text = library.text(span.file) ?? "";
  const anchor = text.slice(span.start, span.end).trim().replace(/\s+/g, " ");
  const subject = `recipe ${recipe.name.name}`;
  return { name, family, severity, span, message, related: [], why, source, fixes: [], subject, anchor };
}
