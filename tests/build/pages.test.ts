/** Pages and samples that are made from the checks stay equal to them. `npm run pages` writes them anew. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, it } from "vitest";
import { allChecks } from "../../language/checks/registry.ts";
import { Library } from "../../language/library.ts";
import { languagePage } from "./language-page.ts";
import { smallest } from "./smallest.ts";

const root = join(import.meta.dirname, "../..");
const writing = process.env.MISCE_WRITE === "1";

function agrees(path: string, text: string): void {
  const file = join(root, path);
  if (writing) {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
  expect(existsSync(file), `${path} is missing: npm run pages`).toBe(true);
  expect(readFileSync(file, "utf8"), `${path} is out of date: npm run pages`).toBe(text);
}

function findingsPage(): string {
  const lines = [
    "# Findings",
    "",
    "Made from the checks by `npm run pages`. Misce supports and does not replace the pharmacist's check, local procedures and licensed practice.",
    "A site may grade each finding otherwise (`severity NAME error | warning | note | off`, with a reason).",
  ];
  for (const family of [...new Set(allChecks.map((c) => c.family))]) {
    lines.push(
      "",
      `## ${family}`,
      "",
      "| finding | grade | what it says | why | source |",
      "| --- | --- | --- | --- | --- |",
    );
    for (const c of allChecks.filter((check) => check.family === family)) {
      const cells = [`\`${c.name}\``, c.severity, c.title, c.why, c.source].map((cell) => cell.replaceAll("|", "\\|"));
      lines.push(`| ${cells.join(" | ")} |`);
    }
  }
  return `${lines.join("\n")}\n`;
}

it("the page of the language's words", () => agrees("language/LANGUAGE.md", languagePage()));

it("the page of findings", () => agrees("language/checks/FINDINGS.md", findingsPage()));

/** The day for which a sample is to be checked, said where it is not the samples' own. */
function faultySample(check: (typeof allChecks)[number]): string {
  const day = check.asOf ? ` To be checked as of ${check.asOf}.` : "";
  const head = `# Shows the finding ${check.name}: ${check.title}. All figures are invented.${day}\n`;
  return head + smallest(check.bad, check.asOf ?? "2026-11-25");
}

it("one small faulty sample a finding, and no other", () => {
  const folder = join(root, "samples/faulty");
  if (writing) {
    rmSync(folder, { recursive: true, force: true });
    for (const check of allChecks) {
      mkdirSync(join(folder, check.name), { recursive: true });
      writeFileSync(join(folder, check.name, "library.misce"), faultySample(check));
    }
  }
  expect(readdirSync(folder).sort(), "npm run pages").toEqual(allChecks.map((c) => c.name).sort());
}, 1_200_000);

it.each(allChecks.map((c) => [c.name, c] as const))("the faulty sample of %s shows just that", (name, check) => {
  const library = new Library({ asOf: check.asOf ?? "2026-11-25" });
  library.open("library.misce", readFileSync(join(root, "samples/faulty", name, "library.misce"), "utf8"));
  expect(
    library.findings("library.misce").map((f) => f.name),
    "npm run pages",
  ).toEqual([name]);
});
