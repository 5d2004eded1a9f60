/**
 * Systematic faults in every sample recipe. At least 95 in 100 of those that could hurt are told as an error or a warning; the
 * rest stand by name in REPORT.md, which is made by `npm run pages` and kept in step by this test.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { type Trial, trials } from "./trial.ts";

const page = join(import.meta.dirname, "REPORT.md");

function report(all: readonly Trial[]): string {
  const kinds = [...new Set(all.map((t) => t.mutant.kind))];
  const rows = kinds.map((kind) => {
    const of = all.filter((t) => t.mutant.kind === kind);
    const told = of.filter((t) => t.told.length > 0).length;
    const fine = of.filter((t) => t.harmless).length;
    return `| ${kind} | ${of.length} | ${told} | ${fine} | ${of.length - told - fine} |`;
  });
  const missed = all.filter((t) => t.told.length === 0 && !t.harmless);
  const reasons = new Map<string, number>();
  for (const { harmless } of all) if (harmless) reasons.set(harmless, (reasons.get(harmless) ?? 0) + 1);
  const told = all.filter((t) => t.told.length > 0).length;
  return `${[
    "# Faults put into the sample recipes",
    "",
    "Made by `npm run pages`; `tests/mutation` holds the faults and the rules. A fault is told when it raises an error or a warning.",
    "",
    `Of ${all.length} faults ${told} are told, ${all.length - told - missed.length} hurt nobody, ${missed.length} are missed: ${(Math.floor((1000 * told) / (told + missed.length)) / 10).toFixed(1)} % of those that could hurt are told.`,
    "",
    "| fault | tried | told | harmless | missed |",
    "| --- | --: | --: | --: | --: |",
    ...rows,
    "",
    "## Why the untold ones are harmless",
    "",
    ...[...reasons].sort((a, b) => b[1] - a[1]).map(([reason, count]) => `- ${count}: ${reason}`),
    "",
    "## Missed",
    "",
    ...(missed.some((t) => t.mutant.words.startsWith("infuse-"))
      ? [
          "Only the order says how long it is given over: between the bounds that a monograph states, nothing contradicts it.",
          "",
        ]
      : []),
    ...missed.map((t) => `- ${t.recipe.split("/").at(-1)}, ${t.mutant.kind}: \`${t.mutant.words}\` (${t.mutant.what})`),
    "",
  ].join("\n")}`;
}

// Minutes on a machine that does other work beside it.
it("tells the faults that could hurt", () => {
  const all = [...trials("library"), ...trials("library-containment")];
  const text = report(all);
  if (process.env.MISCE_WRITE) writeFileSync(page, text);
  const told = all.filter((t) => t.told.length > 0).length;
  const missed = all.filter((t) => t.told.length === 0 && !t.harmless).length;
  expect(told / (told + missed)).toBeGreaterThan(0.95);
  expect(readFileSync(page, "utf8")).toBe(text);
}, 900_000);
