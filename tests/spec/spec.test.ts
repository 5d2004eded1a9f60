/**
 * The language reference by example (tests/spec/*.md) is true: each fenced recipe is read, and the findings it gives are those marked
 * under their words, one to one. A line of the form `#   ^^^^ name-of-finding` under a line marks the words above the carets; a
 * finding without a mark fails, and so does a mark without a finding; `#< name-of-finding` marks the whole line above. A page may begin with a block marked `given`, whose
 * declarations stand in front of every case of the page.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { Library } from "../../language/library.ts";

interface Case {
  title: string;
  text: string;
}

interface Page {
  given: string;
  cases: Case[];
}

function read(path: string): Page {
  const page: Page = { given: "", cases: [] };
  let title = "";
  let fence: { kind: string; lines: string[] } | undefined;
  for (const line of readFileSync(path, "utf8").split("\n")) {
    if (fence) {
      if (line !== "```") fence.lines.push(line);
      else {
        const text = `${fence.lines.join("\n")}\n`;
        if (fence.kind === "given") page.given += `${text}\n`;
        else page.cases.push({ title, text });
        fence = undefined;
      }
      continue;
    }
    const heading = /^#+ (.+)$/.exec(line);
    if (heading) title = heading[1]!;
    const opening = /^```misce(?: (given))?$/.exec(line);
    if (opening) fence = { kind: opening[1] ?? "case", lines: [] };
  }
  return page;
}

const wholeLine = /^#< ([a-z0-9-]+)$/;
const mark = /^#( *)(\^+) ([a-z0-9-]+)$/;

/** The text without its marks, and what they expect as `name: words`. */
function parted(text: string): { text: string; expected: string[] } {
  const lines: string[] = [];
  const expected: string[] = [];
  for (const line of text.split("\n")) {
    const whole = wholeLine.exec(line)?.[1];
    if (whole !== undefined) {
      expected.push(`${whole}: ${lines.at(-1)!}`);
      continue;
    }
    const [, blanks, carets, name] = mark.exec(line) ?? [];
    if (carets === undefined) {
      lines.push(line);
      continue;
    }
    const start = blanks!.length + 1;
    expected.push(`${name}: ${lines.at(-1)!.slice(start, start + carets.length)}`);
  }
  return { text: lines.join("\n"), expected };
}

/** A span that runs over several lines is named by its first. */
function found(given: string, text: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("given.misce", given);
  library.open("case.misce", text);
  return ["given.misce", "case.misce"].flatMap((file) =>
    library
      .findings(file)
      .filter((f) => !f.silenced)
      .map((f) => {
        const whole = file === "case.misce" ? text : given;
        return `${f.name}: ${whole.slice(f.span.start, f.span.end).split("\n")[0]}`;
      }),
  );
}

const pages = readdirSync(import.meta.dirname).filter((name) => name.endsWith(".md"));

test("there are pages", () => expect(pages.length).toBeGreaterThan(2));

for (const name of pages) {
  const page = read(join(import.meta.dirname, name));
  describe(name, () => {
    test("has cases, each with a heading of its own", () => {
      expect(page.cases.length).toBeGreaterThan(0);
      expect(page.cases.filter((c) => c.title === "")).toEqual([]);
    });
    for (const [i, each] of page.cases.entries()) {
      test(`${each.title} (${i + 1})`, () => {
        const { text, expected } = parted(each.text);
        expect(found(page.given, text).sort()).toEqual(expected.sort());
      });
    }
  });
}
