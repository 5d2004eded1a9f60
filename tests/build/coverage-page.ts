/** Writes language/checks/COVERAGE.md from the checks, the verbs' cautions and the reasons of what is absent. */
import { allVerbs } from "../../language/bench/verbs/index.ts";
import { absentRows } from "../../language/checks/absent-rows.ts";
import { allChecks } from "../../language/checks/registry.ts";
import { type PublishedRow, saying, tables } from "./published-rows.ts";

const titles: Readonly<Record<string, string>> = {
  "technique-rules": "Rules of technique",
  "record-elements": "Elements of a record and a label",
  "beyond-use-dates": "Rules of beyond-use dates, and bands of temperature",
  "error-prone-notation": "Error-prone notation",
};

const cell = (text: string) => text.replaceAll("|", "\\|").replaceAll("\n", " ");

function answer(table: string, row: PublishedRow): string {
  const key = `${table} ${row.id}`;
  const checks = allChecks.filter((check) => check.rows?.includes(key)).map((check) => `\`${check.name}\``);
  const verbs =
    table === "technique-rules"
      ? allVerbs.filter((verb) => verb.cautions.some((c) => c.rows?.includes(row.id))).map((verb) => `\`${verb.word}\``)
      : [];
  const reason = absentRows.find((group) => group.rows.includes(key))?.reason;
  return [
    checks.length > 0 ? `found by ${checks.join(", ")}` : "",
    verbs.length > 0 ? `caution printed with ${[...new Set(verbs)].join(", ")}` : "",
    reason === undefined ? "" : `not in a recipe: ${reason}`,
  ]
    .filter((part) => part !== "")
    .join("; ");
}

export function coveragePage(): string {
  const lines = [
    "# What the published rules come to",
    "",
    "Made by `npm run pages`. Each row of the four tables under `tests/reference` is found by a check, printed as a caution beside",
    "its step, or stands here with the reason why a recipe cannot show it. `memory` marks rows whose source was recalled and not read.",
  ];
  for (const { name, rows } of tables) {
    lines.push("", `## ${titles[name]}`, "", "| row | says | source | answer |", "| --- | --- | --- | --- |");
    for (const row of rows) {
      const source = `${row.source.title}${row.verified === "read" ? "" : " (memory)"}`;
      lines.push(`| ${[row.id, saying(row), source, answer(name, row)].map(cell).join(" | ")} |`);
    }
  }
  return `${lines.join("\n")}\n`;
}
