/**
 * What is said of a file that declares nothing. There is no declaration, and often no text, for a check to look at, so this one
 * stands outside the registry, as those of an inventory do; the site re-grades it as any other.
 */
import type { Finding } from "../../shared/finding.ts";
import type { Policy } from "../model/policy.ts";

export const fileDeclaresNothing = {
  name: "file-declares-nothing",
  family: "structure",
  severity: "warning",
  title: "The file declares nothing",
  why: "A file that was cut off when it was saved, or a recipe made a comment of, would pass for one that was checked.",
  source: "common practice",
} as const;

/** A line that begins with anything but a comment. */
const saysSomething = /(?:^|[\n\r])[^\S\n\r]*[^\s#]/;

/** Undefined for a text with anything in it that is not a comment: of that the checks tell what is wrong. */
export function nothingDeclared(file: string, text: string, policy: Policy): Finding | undefined {
  if (saysSomething.test(text)) return undefined;
  const { name, family, severity, why, source } = fileDeclaresNothing;
  const level = policy.severities.get(name) ?? severity;
  if (level === "off") return undefined;
  const what = text.includes("#") ? "holds only comments" : "is empty";
  return {
    name,
    family,
    severity: level,
    span: { file, start: 0, end: 0 },
    message: `The file ${what}, so nothing in it was checked. Write what it should declare, or remove it.`,
    related: [],
    why,
    source,
    fixes: [],
    subject: "",
    anchor: "",
  };
}
