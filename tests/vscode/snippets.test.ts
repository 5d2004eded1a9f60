/** Each snippet, accepted as it comes, is a declaration in which its library finds no more than in the sample itself (which is silent). */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Snippet, type SnippetSource, snippetSources } from "../../client/vscode/snippets/snippets.ts";
import { beginsDeclaration, filledIn } from "../../client/vscode/src/snippet-text.ts";
import { Library } from "../../language/library.ts";

const root = join(import.meta.dirname, "../..");
const shipped: Record<string, Snippet> = JSON.parse(
  readFileSync(join(root, "client/vscode/snippets/misce.json"), "utf8"),
);

/** As an editor inserts it when nothing is typed. */
const accepted = (snippet: Snippet) => filledIn(snippet.body.join("\n"));

/** One library a folder of samples, kept over the tests: only what a snippet changes is worked out anew. */
const libraries = new Map<string, Library>();

function sampleLibrary(folder: string): Library {
  const known = libraries.get(folder);
  if (known) return known;
  const library = new Library({ asOf: "2026-11-25" });
  for (const name of readdirSync(join(root, "samples", folder), { recursive: true }) as string[]) {
    if (name.endsWith(".misce")) library.open(`${folder}/${name}`, sample(`${folder}/${name}`));
  }
  libraries.set(folder, library);
  return library;
}

function sample(file: string): string {
  return readFileSync(join(root, "samples", file), "utf8");
}

/** What is found in a text that stands in the sample library in the place of the declaration that it was made from. */
function foundIn(text: string, { file, head }: SnippetSource): string[] {
  const library = sampleLibrary(file.split("/")[0]!);
  library.change(file, without(sample(file), head));
  library.change("new.misce", text);
  const found = library.findings("new.misce").map((f) => f.name);
  library.close("new.misce");
  library.change(file, sample(file));
  return found;
}

function declared(file: string, head: string): string {
  const text = sample(file);
  const start = `\n${text}`.indexOf(`\n${head} {`);
  return text.slice(start, text.indexOf("\n}", start) + 2);
}

function without(text: string, head: string): string {
  const start = `\n${text}`.indexOf(`\n${head} {`);
  const end = text.indexOf("\n}", start) + 2;
  return text.slice(0, start) + text.slice(end);
}

describe.each([...snippetSources])("$prefix", (source) => {
  const { prefix, file, head, fill } = source;
  const snippet = shipped[prefix]!;

  it("as it comes, draws nothing that the sample itself does not draw", () => {
    const own = foundIn(declared(file, head), source);
    expect(foundIn(accepted(snippet), source).filter((name) => !own.includes(name))).toEqual([]);
  });

  it("has every place to fill in, and no old figure that the tool derives", () => {
    const body = snippet.body.join("\n");
    for (const [i, word] of fill.entries()) expect(body).toContain(`\${${i + 1}:${word}}`);
    if (prefix.startsWith("recipe")) expect(body).not.toMatch(/ {2}= |^ {4}concentration /m);
  });

  it("with another dose leaves no figure behind that contradicts it", () => {
    const dose = fill.find((word) => /^\d+(\.\d+)? (g|mg|mcg|units|mmol)$/.test(word));
    if (!prefix.startsWith("recipe") || dose === undefined) return;
    const other = dose.replace(/\d/, (digit) => String(Number(digit) + 1));
    const body = snippet.body.join("\n").replaceAll(`:${dose}}`, `:${other}}`).split("\n");
    const found = foundIn(accepted({ ...snippet, body }), source);
    expect(found.filter((n) => n === "claim-differs" || n === "concentration-differs")).toEqual([]);
  });
});

it.each<[string, boolean]>([
  ["|", true],
  ["reci|", true],
  ["recipe: via|", true],
  ["  repl|", false],
  ["recipe magnesium|", false],
  ["reci| {", false],
])("at %j a declaration can begin: %s", (picture, wanted) => {
  const cursor = picture.indexOf("|");
  expect(beginsDeclaration(picture.replace("|", ""), cursor)).toBe(wanted);
});
