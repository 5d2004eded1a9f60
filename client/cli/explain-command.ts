/** `misce explain NAME`: what a check looks for, why, who says so, and the smallest text that shows it. */
import { nearNames } from "../../language/model/near.ts";
import { safetyNotice } from "../../shared/report.ts";
import { CannotRun } from "./cannot-run.ts";
import type { CheckDescription, Engine } from "./engine-contract.ts";
import { fileChecks } from "./file-checks.ts";
import { byCodeUnit } from "./source-files.ts";
import type { Surroundings } from "./surroundings.ts";

/** Without a name, the list of all checks by family. @throws CannotRun for a name that no check has. */
export async function explainCommand(name: string | undefined, engine: Engine, { stdout }: Surroundings): Promise<0> {
  const checks = [...fileChecks, ...(await engine.checks())];
  if (name === undefined) {
    stdout.write(listOf(checks));
    return 0;
  }
  const check = checks.find((c) => c.name === name);
  if (!check) {
    const near = nearNames(
      name,
      checks.map((c) => c.name),
    );
    const hint = near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "misce explain, without a name, lists them.";
    throw new CannotRun(`No check is called "${name}". ${hint}`);
  }
  stdout.write(explanation(check));
  return 0;
}

function explanation(check: CheckDescription): string {
  const parts = [
    `${check.title}\n${check.severity}, ${check.family}: ${check.name}`,
    `Why     ${check.why}\nSource  ${check.source}`,
  ];
  if (check.bad !== "") parts.push(`It is found here:\n\n${indented(check.bad)}`);
  if (check.good !== "") parts.push(`Right:\n\n${indented(check.good)}`);
  return `${[...parts, safetyNotice].join("\n\n")}\n`;
}

function indented(text: string): string {
  return text
    .replace(/^\n+|\s+$/g, "")
    .split("\n")
    .map((line) => (line === "" ? "" : `    ${line}`))
    .join("\n");
}

function listOf(checks: readonly CheckDescription[]): string {
  const families = [...new Set(checks.map((check) => check.family))].sort(byCodeUnit);
  const width = Math.max(...checks.map((check) => check.name.length)) + 2;
  const blocks = families.map((family) => {
    const own = checks.filter((check) => check.family === family).sort((a, b) => byCodeUnit(a.name, b.name));
    return [family, ...own.map((c) => `  ${c.name.padEnd(width)}${c.severity.padEnd(9)}${c.title}`)].join("\n");
  });
  return `${blocks.join("\n\n")}\n`;
}
