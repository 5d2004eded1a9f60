/** What titles and label lines of the sample library are told when they read otherwise for a moment. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Library } from "../../language/library.ts";

const folder = join(import.meta.dirname, "../../samples/library");
const library = new Library({ asOf: "2026-11-25" });
for (const file of readdirSync(folder, { recursive: true, encoding: "utf8" }))
  if (file.endsWith(".misce")) library.open(file, readFileSync(join(folder, file), "utf8"));

function told(recipe: string, change: (text: string) => string): string[] {
  const file = join("recipes", `${recipe}.misce`);
  const text = library.text(file)!;
  library.change(file, change(text));
  const found = library.findings(file).filter(({ name }) => name.endsWith("-contradicts-order"));
  library.change(file, text);
  return found.map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));
}

export const title = (recipe: string, words: string) =>
  told(recipe, (text) => text.replace(/title {2}".*"/, () => `title  "${words}"`));
export const label = (recipe: string, words: string) =>
  told(recipe, (text) =>
    text.includes("  label-text {\n")
      ? text.replace("  label-text {\n", () => `  label-text {\n    line  "${words}"\n`)
      : text.replace(/\n}\n$/, () => `\n\n  label-text {\n    line  "${words}"\n  }\n}\n`),
  );
