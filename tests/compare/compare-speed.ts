/**
 * How long `misce compare` needs for two states of a library of 1,000 recipes: nothing but layout changed; every tenth recipe changed;
 * one stock fact changed; a fact of the site changed, which reaches every recipe. Run: bundle with esbuild and start (see DEVELOPERS.md).
 */
import { compareLibraries } from "../../language/compare/compare.ts";
import { Library } from "../../language/library.ts";
import { generate } from "../bench/generate.ts";

const { files } = generate({ seed: 1, recipes: 1_000, faulty: 0.05 });

function measured(name: string, edit: (file: string, text: string) => string): void {
  const start = performance.now();
  const open = (change: typeof edit) => {
    const library = new Library({ asOf: "2026-11-25" });
    for (const [file, text] of files) library.open(file, change(file, text));
    return library;
  };
  const about = { names: { before: "a", after: "b" }, version: "", notOpened: [] };
  const { counts } = compareLibraries({ before: open((_, text) => text), after: open(edit), ...about });
  process.stdout.write(`${name}: ${Math.round(performance.now() - start)} ms, ${JSON.stringify(counts)}\n`);
}

const isRecipe = (file: string) => file.startsWith("recipes/");
const stock = files.find(([file, text]) => file.startsWith("stock/") && /^ +strength +\d/m.test(text))![0];

measured("nothing changed", (_, text) => text);
measured("a comment in every recipe", (file, text) => (isRecipe(file) ? text.replace("{", "{  # seen") : text));
measured("every tenth recipe changed", (file, text) =>
  isRecipe(file) && /[05]\d?\.misce$/.test(file) ? text.replace(/infuse-over +\d+/, "infuse-over  7") : text,
);
measured("one stock's strength changed", (file, text) =>
  file === stock ? text.replace(/(strength +)(\d)/, "$19$2") : text,
);
measured("a fact of the site changed", (_, text) =>
  /^site\b/m.test(text) ? text.replace(/tolerance +dose 5/, "tolerance  dose 6") : text,
);

const library = new Library({ asOf: "2026-11-25" });
for (const [file, text] of files) library.open(file, text);
const start = performance.now();
for (const file of library.files()) library.findings(file);
process.stdout.write(`for comparison, all findings of one state: ${Math.round(performance.now() - start)} ms\n`);
