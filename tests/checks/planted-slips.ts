/** Wrong figures as authors write them, put into the sample recipes: ten times, a tenth, a thousand times, a fifth too much, one more. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { Library } from "../../language/library.ts";
import { linesOf, shifted } from "../mutation/mutants.ts";

const root = join(import.meta.dirname, "../../samples");

export interface Slip {
  start: number;
  end: number;
  text: string;
}

export interface SampleRecipe {
  library: Library;
  file: string;
  text: string;
}

export function openSamples(folder: string): SampleRecipe[] {
  const library = new Library({ asOf: "2026-11-25" });
  const texts = new Map(
    misceFiles(join(root, folder)).map((path) => [relative(root, path), readFileSync(path, "utf8")]),
  );
  for (const [file, text] of texts) library.open(file, text);
  return [...texts].flatMap(([file, text]) => (file.includes("/recipes/") ? [{ library, file, text }] : []));
}

function misceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? misceFiles(path) : path.endsWith(".misce") ? [path] : [];
  });
}

const blocks = new Set(["order", "materials", "steps", "preparation", "intermediate"]);

export function slipsIn(text: string): Slip[] {
  return linesOf(text).flatMap((line) => {
    if (!blocks.has(line.block)) return [];
    const bare = line.text.replace(/"[^"]*"|\s#.*$/g, (words) => " ".repeat(words.length));
    return [...bare.matchAll(/(?<![\w.,-])\d[\d,]*(?:\.\d+)?(?![\w-])/g)].flatMap((match) => {
      const written = match[0].replace(/,/g, "");
      const start = line.start + match.index;
      return othersFor(written, line.block === "materials")
        .filter((other) => other !== match[0])
        .map((other) => ({ start, end: start + match[0].length, text: other }));
    });
  });
}

function othersFor(written: string, isCount: boolean): string[] {
  if (isCount) return [String(Number(written) + 1), `${written}0`];
  const decimals = written.split(".")[1]?.length ?? 0;
  const fifthMore = shifted(String(BigInt(written.replace(".", "")) * 12n), -decimals - 1);
  return [shifted(written, 1), shifted(written, -1), shifted(written, 3), fifthMore].map(grouped);
}

function grouped(figure: string): string {
  const [whole = "", part] = figure.split(".");
  const shown = whole.length > 3 ? whole.replace(/\B(?=(\d{3})+$)/g, ",") : whole;
  return part === undefined ? shown : `${shown}.${part}`;
}

export function withSlips(text: string, slips: readonly Slip[]): string {
  return [...slips]
    .sort((a, b) => b.start - a.start)
    .reduce((changed, { start, end, text: other }) => changed.slice(0, start) + other + changed.slice(end), text);
}
