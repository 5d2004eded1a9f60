/** What the extension ships but nobody writes by hand stays equal to its source. `npm run pages` writes it anew. */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { snippets } from "../../client/vscode/snippets/snippets.ts";
import { grammarOf } from "../../client/vscode/syntaxes/grammar.ts";
import { languageWords } from "./language-words.ts";

const root = join(import.meta.dirname, "../..");

function agrees(path: string, value: unknown): void {
  const file = join(root, path);
  if (process.env.MISCE_WRITE === "1") writeFileSync(file, `${JSON.stringify(value, null, 2)}\n`);
  expect(existsSync(file), `${path} is missing: npm run pages`).toBe(true);
  // Compared as data: the layout is the formatter's.
  expect(JSON.parse(readFileSync(file, "utf8")), `${path} is out of date: npm run pages`).toEqual(
    JSON.parse(JSON.stringify(value)),
  );
}

it("the grammar", () => agrees("client/vscode/syntaxes/misce.tmLanguage.json", grammarOf(languageWords())));

it("the snippets", () =>
  agrees(
    "client/vscode/snippets/misce.json",
    snippets((file) => readFileSync(join(root, "samples", file), "utf8")),
  ));
