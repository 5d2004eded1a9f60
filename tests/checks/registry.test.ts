/** No check can be half made: each shows itself in its own examples, is silent in the right ones, and its fixes mend. */
import { describe, expect, it } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { allChecks } from "../../language/checks/registry.ts";
import type { Finding, TextEdit } from "../../shared/finding.ts";
import { findingsOf } from "./findings-of.ts";

function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((t, e) => t.slice(0, e.span.start) + e.text + t.slice(e.span.end), text);
}

const shown = (list: Finding[]) => list.map((f) => `${f.name}: ${f.message}`);

describe("the registry of checks", () => {
  it("leaves the standard example alone", () => {
    expect(shown(findingsOf(standardLibrary))).toEqual([]);
  });

  it("has no name twice", () => {
    expect(new Set(allChecks.map((c) => c.name)).size).toBe(allChecks.length);
  });

  for (const check of allChecks) {
    describe(check.name, () => {
      it("is found just once in its bad example, and nothing else is", () => {
        expect(findingsOf(check.bad, check.asOf).map((f) => f.name)).toEqual([check.name]);
      });
      it("is silent in its good example", () => {
        expect(shown(findingsOf(check.good, check.asOf))).toEqual([]);
      });
      it("has fixes that mend it and break nothing", () => {
        const [found] = findingsOf(check.bad, check.asOf);
        for (const fix of found?.fixes ?? []) {
          expect(shown(findingsOf(applied(check.bad, fix.edits), check.asOf)), fix.title).toEqual([]);
        }
      });
      it("says what it is about in plain sentences", () => {
        const [found] = findingsOf(check.bad, check.asOf);
        expect(found?.message).toMatch(/[.?]$/);
        expect(found?.message.toLowerCase()).not.toMatch(/invalid|token|parse|syntax|undefined|\bnan\b/);
        expect(check.why).toMatch(/\.$/);
        expect(check.source).not.toBe("");
      });
    });
  }
});
