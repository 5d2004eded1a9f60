/** What is offered beside a finding does what it says: a deviation can be completed, fix-all writes no step, an open text closes at once. */
import { describe, expect, it } from "vitest";
import { deviationDraft } from "../../language/answers/deviation-draft.ts";
import { allChecks, checkByName } from "../../language/checks/registry.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { Document } from "../../server/document.ts";
import { harmlessEdits } from "../../server/features/code-actions.ts";
import type { Finding } from "../../shared/finding.ts";

const file = "library.misce";

function checked(text: string, asOf = "2026-11-25"): { library: Library; findings: Finding[] } {
  const library = new Library({ asOf });
  library.open(file, text);
  return { library, findings: library.findings(file) };
}

/** Of each check's bad example, once for all that is asked of it here. */
const shown = new Map(allChecks.map((check) => [check.name, checked(check.bad, check.asOf)]));

function edited(text: string, edits: readonly { span: { start: number; end: number }; text: string }[]): string {
  let now = text;
  for (const { span, text: put } of [...edits].sort((a, b) => b.span.start - a.span.start))
    now = now.slice(0, span.start) + put + now.slice(span.end);
  return now;
}

describe("a deviation that is offered, completed", () => {
  let offered = 0;
  it.each(allChecks.map((c) => [c.name, c] as const))("silences %s, or none is offered", (name, check) => {
    const { library, findings } = shown.get(name)!;
    const finding = findings.find((f) => f.name === name)!;
    const draft = deviationDraft(library, finding);
    if (!draft) return;
    offered++;
    const whole = `${draft.text.trimEnd().replace('""', '"form KQ-118"')}\n    by pharmacist\n    until 2031-12-31\n`;
    const now = checked(edited(check.bad, [{ span: { start: draft.at, end: draft.at }, text: whole }]), check.asOf);
    expect(now.findings.filter((f) => f.name.startsWith("deviation-")).map((f) => f.message)).toEqual([]);
    expect(now.findings.filter((f) => f.name === name).every((f) => f.silenced)).toBe(true);
  });
  it("is offered for most findings", () => expect(offered).toBeGreaterThan(200));
});

describe("all that fix-all does", () => {
  it.each(allChecks.map((c) => [c.name, c] as const))("puts no step into a recipe: %s", (name, check) => {
    const { library, findings } = shown.get(name)!;
    const steps = (of: Library) => of.ofKind("recipe").flatMap((d) => (d as Recipe).steps.length);
    const edits = harmlessEdits(findings);
    if (edits.length === 0) return;
    expect(steps(checked(edited(check.bad, edits), check.asOf).library)).toEqual(steps(library));
  });
});

describe("a fix in a file whose lines end otherwise", () => {
  // LSP 3.17, Text Documents: a line ends with LF, CRLF or CR.
  const mended = (text: string, findings: readonly Finding[]) => {
    const document = new Document(file, file, 1, text, "utf-16");
    const put = (edits: Finding["fixes"][number]["edits"]) =>
      edited(
        text,
        edits.map((e) => ({ ...e, text: document.lineEndsIn(e.text) })),
      );
    return findings.flatMap((f) => f.fixes.map((fix) => put(fix.edits)));
  };
  const withFixes = allChecks.filter((check) => shown.get(check.name)!.findings.some((f) => f.fixes.length > 0));
  it.each(withFixes.map((c) => [c.name, c] as const))("does the same and ends its own lines so: %s", (name, check) => {
    const usual = mended(check.bad, shown.get(name)!.findings);
    for (const end of ["\r\n", "\r"]) {
      const text = check.bad.replaceAll("\n", end);
      expect(mended(text, checked(text, check.asOf).findings)).toEqual(usual.map((now) => now.replaceAll("\n", end)));
    }
  });
});

it("closes every block that is open at the end with one fix", () => {
  const { good } = checkByName.get("block-not-closed")!;
  const cut = good.slice(0, good.indexOf("    check by pharmacist") + "    check by pharmacist".length);
  const [finding] = checked(cut).findings.filter((f) => f.name === "block-not-closed");
  expect(finding!.message).toBe(
    "`recipe` has no closing brace, nor has `steps` in it. Put `}` for each on a line of its own at its end.",
  );
  const now = edited(cut, finding!.fixes[0]!.edits);
  expect(now).toBe(`${cut}\n  }\n}`);
  expect(checked(now).findings.map((f) => f.name)).not.toContain("block-not-closed");
});
