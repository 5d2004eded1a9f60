/**
 * A stand-in for the language, small enough to read: it knows declarations, who uses whom, and findings that a line asks for by
 * name. Tests of the command line thus do not depend on what the real checks find.
 *
 *   stock NAME {       declares NAME
 *     uses NAME        depends on the declaring file; not found: structure error `unknown-name`
 *     flaw SEVERITY    finding `test-flaw` over the rest of the line, the line's own text in its message
 *     quiet flaw       the same, silenced
 *     crash            makes the engine throw
 */

import type { CheckDescription, Engine, OpenLibrary } from "../../client/cli/engine-contract.ts";
import type { Finding, Severity } from "../../shared/finding.ts";

export const checks: readonly CheckDescription[] = [
  {
    name: "test-flaw",
    family: "volumes",
    severity: "error",
    title: "A flaw that a test asked for",
    why: "Tests need something to find.",
    source: "common practice",
    bad: "recipe a {\n  flaw error\n}",
    good: "recipe a {\n}",
  },
  {
    name: "unknown-name",
    family: "structure",
    severity: "error",
    title: "A name that nothing declares",
    why: "Nobody knows what is meant.",
    source: "common practice",
    bad: "uses nothing",
    good: "",
  },
];

export class FakeLibrary implements OpenLibrary {
  private readonly texts = new Map<string, string>();
  private readonly inventories = new Map<string, string>();

  open(file: string, text: string): void {
    this.texts.set(file, text);
  }
  change(file: string, text: string): void {
    this.texts.set(file, text);
  }
  close(file: string): void {
    this.texts.delete(file);
  }
  openInventory(file: string, csv: string): void {
    this.inventories.set(file, csv);
  }
  files(): string[] {
    return [...this.texts.keys()].sort();
  }
  release(): void {}

  findings(file: string): Finding[] {
    const text = this.texts.get(file);
    if (text === undefined) return this.inventoryFindings(file);
    const findings: Finding[] = [];
    let subject = "";
    for (const match of text.matchAll(/[^\r\n]+/g)) {
      const line = match[0];
      const words = line.trim().split(/\s+/);
      if (words[0] === "crash") throw new Error("asked to");
      if (/^(recipe|stock|site)$/.test(words[0]!)) subject = `${words[0]} ${words[1]}`;
      const start = match.index + line.search(/\S/);
      const end = match.index + line.trimEnd().length;
      if (words[0] === "flaw") findings.push(this.flaw(file, start, end, line.trim(), subject, words[1] as Severity));
      if (words[0] === "quiet") {
        const span = { file, start, end };
        const silenced = { span, because: "measured, form KQ-118", by: "aseptic-lead", until: "2027-03-31" };
        findings.push({ ...this.flaw(file, start, end, line.trim(), subject, "error"), silenced });
      }
      if (words[0] === "uses" && this.declaring(words[1]!) === undefined)
        findings.push(unknown(file, start, end, line.trim(), subject));
    }
    return findings;
  }

  dependencies(file: string): string[] {
    const seen = new Set<string>();
    const visit = (name: string): void => {
      for (const match of (this.texts.get(name) ?? "").matchAll(/^\s*uses (\S+)/gm)) {
        const other = this.declaring(match[1]!);
        if (other === undefined || other === file || seen.has(other)) continue;
        seen.add(other);
        visit(other);
      }
    };
    visit(file);
    return [...seen].sort();
  }

  private inventoryFindings(file: string): Finding[] {
    const csv = this.inventories.get(file);
    return csv?.includes("flaw")
      ? [this.flaw(file, csv.indexOf("flaw"), csv.indexOf("flaw") + 4, "flaw", "", "error")]
      : [];
  }

  private declaring(name: string): string | undefined {
    return this.files().find((file) => new RegExp(`^stock ${name}\\b`, "m").test(this.texts.get(file)!));
  }

  private flaw(file: string, start: number, end: number, line: string, subject: string, severity: Severity): Finding {
    const span = { file, start, end };
    return {
      name: "test-flaw",
      family: "volumes",
      severity,
      span,
      message: `Found "${line}". Take it out.`,
      related: [{ span: { file, start: 0, end: 4 }, message: "The file begins here." }],
      why: "Tests need something to find.",
      source: "common practice",
      fixes: [{ title: "Take the line out", preferred: true, edits: [{ span, text: "" }] }],
      subject,
      anchor: line.replace(/\s+/g, " "),
    };
  }
}

function unknown(file: string, start: number, end: number, line: string, subject: string): Finding {
  const { name, family, severity, why, source } = checks[1]!;
  const message = `Nothing is declared as "${line.slice(5)}". Declare it, or name another.`;
  return {
    name,
    family,
    severity,
    span: { file, start, end },
    message,
    related: [],
    why,
    source,
    fixes: [],
    subject,
    anchor: line,
  };
}

export const engine: Engine = {
  library: async () => new FakeLibrary(),
  checks: async () => checks,
  // Two blanks at the beginning of a line become one indent; `eat` shows what happens if a formatter were to lose text.
  formatText: async () => (text) =>
    text
      .replace(/^[ \t]+/gm, "  ")
      .replace(/[ \t]+$/gm, "")
      .replace("eat me", ""),
};
