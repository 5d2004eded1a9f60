/**
 * Names a finding so that it is known again after lines moved: its check, the declaration it stands in, the author's own words
 * there, and its number among findings that are equal in all three. A finding outside any declaration is tied to its file.
 */
import { createHash } from "node:crypto";
import type { Finding } from "../../shared/finding.ts";
import type { StableNames } from "./stable-names.ts";

/**
 * What makes findings equal. `root` is the library's folder: two libraries in one run may hold recipes of the same name, and a
 * fault known in one must not pass for a new one in the other.
 */
export function likeness(finding: Pick<Finding, "name" | "subject" | "anchor">, root: string, file: string): string {
  const subject = finding.subject === "" ? `file ${file}` : finding.subject;
  return JSON.stringify([finding.name, root, subject, finding.anchor]);
}

/** Counts equals, so that the second is told from the first. */
export class Fingerprints {
  private readonly met = new Map<string, number>();

  constructor(private readonly names: Pick<StableNames, "root" | "file" | "subject">) {}

  /** 64 hexadecimal digits (SHA-256); findings must come in order of place. */
  of(finding: Finding, root: string): string {
    const { names } = this;
    const subject = names.subject(finding.subject);
    const file = subject === "" ? names.file(finding.span.file) : "";
    const like = likeness({ ...finding, subject }, names.root(root), file);
    const ordinal = (this.met.get(like) ?? 0) + 1;
    this.met.set(like, ordinal);
    return createHash("sha256").update(`${like} ${ordinal}`).digest("hex");
  }
}
