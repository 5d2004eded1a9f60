/** What titles and label lines of the sample library are told when they read otherwise for a moment. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";

const folder = join(import.meta.dirname, "../../samples/library");
const library = new Library({ asOf: "2026-11-25" });
for (const file of readdirSync(folder, { recursive: true, encoding: "utf8" }))
  if (file.endsWith(".misce")) library.open(file, readFileSync(join(folder, file), "utf8"));

const contradictions = (name: string) => name.endsWith("-contradicts-order");

/** All that is found of a sample while it reads so. */
function found(recipe: string, change: (text: string) => string): Finding[] {
  const file = join("recipes", `${recipe}.misce`);
  const text = library.text(file)!;
  library.change(file, change(text));
  const findings = library.findings(file);
  library.change(file, text);
  return findings;
}

export function told(recipe: string, change: (text: string) => string, isMeant = contradictions): string[] {
  return found(recipe, change)
    .filter(({ name }) => isMeant(name))
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));
}

/** All that is not silenced, of whatever check. */
function everything(recipe: string, change: (text: string) => string): string[] {
  return found(recipe, change)
    .filter(({ silenced }) => !silenced)
    .map(({ message }) => message.replace(/\. Correct whichever is wrong\.$/, ""));
}

const titled = (words: string) => (text: string) => text.replace(/title {2}".*"/, () => `title  "${words}"`);
export const labelled = (words: string) => (text: string) =>
  text.includes("  label-text {\n")
    ? text.replace("  label-text {\n", () => `  label-text {\n    line  "${words}"\n`)
    : text.replace(/\n}\n$/, () => `\n\n  label-text {\n    line  "${words}"\n  }\n}\n`);

const noted = (words: string) => (text: string) =>
  text.replace("\n  order {", () => `\n  note  "${words}"\n\n  order {`);

export const title = (recipe: string, words: string) => told(recipe, titled(words));
export const label = (recipe: string, words: string) => told(recipe, labelled(words));

/** What is told of `title: ...`, `note: ...`, or of a line of the label. */
export function sayingTold(recipe: string, saying: string, isMeant = contradictions): string[] {
  const [, where, words] = /^(?:(title|note): )?(.*)$/.exec(saying)!;
  const change = where === "title" ? titled : where === "note" ? noted : labelled;
  return told(recipe, change(words!), isMeant);
}

export const allOfTitle = (recipe: string, words: string) => everything(recipe, titled(words));
export const allOfLabel = (recipe: string, words: string) => everything(recipe, labelled(words));

/** What is told of names that are not the ordered drug's. */
const strange = (name: string) => name === "drug-name-not-known";
export const namesInTitle = (recipe: string, words: string) => told(recipe, titled(words), strange);
export const namesOnLabel = (recipe: string, words: string) => told(recipe, labelled(words), strange);

export const exampleTitle = (recipe: string, from: string, to: string) =>
  told(
    recipe,
    (text) => text.replace(`example "${from}"`, `example "${to}"`),
    (name) => name === "example-title-differs",
  );
