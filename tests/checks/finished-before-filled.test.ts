/** A syringe that is the finished container is labelled, sealed and looked at when everything is in, as a bag is. Common practice. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { Library } from "../../language/library.ts";

const root = join(import.meta.dirname, "../../samples/library");
const recipe = "recipes/calcium-1g-syringe.misce";

/** What is told of the sample with a step moved to the beginning. */
function told(step: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  for (const file of readdirSync(root, { recursive: true, encoding: "utf8" }).filter((f) => f.endsWith(".misce")))
    library.open(file, readFileSync(join(root, file), "utf8"));
  const text = library.text(recipe)!;
  const line = `    ${step}\n`;
  const head = "  steps {\n";
  expect(text).toContain(line);
  library.change(recipe, text.replace(line, "").replace(head, head + line));
  return library.findings(recipe).map(({ name, message }) => `${name}: ${message}`);
}

test.each([
  ["label syringe", "labelled-before-filled: Step 5 adds to syringe, which already carries its label; so does step 7."],
  ["seal syringe", "touched-after-seal: Step 5 goes into syringe, sealed in step 1; so does step 7."],
  [
    "inspect syringe",
    "inspection-step-missing: After step 9, the last that works on syringe, no step inspects syringe.",
  ],
])("`%s` before it is filled", (step, said) => {
  expect(told(step)).toEqual([expect.stringContaining(said)]);
});
