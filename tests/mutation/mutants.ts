/**
 * Systematic clinical faults in a recipe's text: a figure ten, a hundred or a thousand times off, a unit swapped, a step deleted,
 * two steps swapped, a fact deleted, a stock taken in another strength or another drug, a lot gone out of date. Texts in, texts
 * out; nothing here knows what the checks look for.
 */

export interface Mutant {
  kind: MutantKind;
  /** What was done, in words: `4 g → 40 g`. */
  what: string;
  /** Line of the recipe that was touched, from 1; 0 where the fault lies in another file. */
  line: number;
  /** The words of that line. */
  words: string;
  file: string;
  text: string;
}

export type MutantKind =
  | "figure times 10"
  | "figure divided by 10"
  | "figure times 1000"
  | "figure divided by 1000"
  | "unit swapped"
  | "step deleted"
  | "steps swapped"
  | "fact deleted"
  | "material deleted"
  | "stock swapped"
  | "lot out of date";

interface Line {
  text: string;
  start: number;
  block: string;
}

/** Lines of a file with the innermost block each stands in (`order`, `materials`, `steps` …). */
export function linesOf(text: string): Line[] {
  const open: string[] = [];
  let start = 0;
  return text.split("\n").map((line) => {
    const bare = line.replace(/\s#.*$|^#.*$/, "").trim();
    if (bare === "}") open.pop();
    const here = { text: line, start, block: open.at(-1) ?? "" };
    if (bare.endsWith("{")) open.push(bare.split(/\s+/)[0]!);
    start += line.length + 1;
    return here;
  });
}

const figure = /(?<![\w.-])\d[\d ]*(?:\.\d+)?(?![\w-])/g;
const clinical = new Set(["order", "steps", "preparation", "intermediate", "example"]);

/** A figure times a power of ten, written in house style. */
export function shifted(written: string, places: number): string {
  const [whole = "", part = ""] = written.replace(/ /g, "").split(".");
  const digits = whole + part;
  const point = whole.length + places;
  const padded = point <= 0 ? "0".repeat(1 - point) + digits : digits.padEnd(point, "0");
  const cut = point <= 0 ? 1 : point;
  const left = padded.slice(0, cut).replace(/^0+(?=\d)/, "");
  const right = padded.slice(cut).replace(/0+$/, "");
  return right === "" ? left : `${left}.${right}`;
}

const powers: [MutantKind, number][] = [
  ["figure times 10", 1],
  ["figure divided by 10", -1],
  ["figure times 1000", 3],
  ["figure divided by 1000", -3],
];

function withoutStrings(text: string): string {
  return text.replace(/"[^"]*"|\s#.*$/g, (s) => " ".repeat(s.length));
}

export function figureMutants(file: string, text: string): Mutant[] {
  return linesOf(text).flatMap((line, index) => {
    if (!clinical.has(line.block)) return [];
    const found = [...withoutStrings(line.text).matchAll(figure)];
    return found.flatMap((match) =>
      powers.flatMap(([kind, places]) => {
        const written = match[0].trimEnd();
        const next = shifted(written, places);
        if (next === written) return [];
        return [changedLine(kind, file, text, line, index, match.index, written, next)];
      }),
    );
  });
}

/** Swaps that people make, one unit for a neighbour of it. */
const swaps: Readonly<Record<string, readonly string[]>> = {
  g: ["mg", "kg"],
  mg: ["mcg", "g", "mmol", "units"],
  mcg: ["mg", "ng"],
  mL: ["L", "mg"],
  L: ["mL"],
  mmol: ["mEq", "mg"],
  mEq: ["mmol", "mg"],
  units: ["mg", "mmol"],
  h: ["min", "days"],
  min: ["h"],
  days: ["h"],
  kg: ["g"],
  "mg/mL": ["mcg/mL", "g/L", "mg/L"],
  "mcg/mL": ["mg/mL", "mcg/L"],
  "mmol/L": ["mmol/mL", "mEq/L"],
  "mEq/L": ["mmol/L"],
  "units/mL": ["mg/mL", "units/L"],
  "mg/kg": ["mcg/kg", "mg"],
  "mcg/kg": ["mg/kg", "mcg"],
};

export function unitMutants(file: string, text: string): Mutant[] {
  return linesOf(text).flatMap((line, index) => {
    if (!clinical.has(line.block)) return [];
    const found = [...withoutStrings(line.text).matchAll(/(?<=\d )[A-Za-z][A-Za-z0-9/]*/g)];
    return found.flatMap((match) =>
      (swaps[match[0]] ?? []).map((unit) =>
        changedLine("unit swapped", file, text, line, index, match.index, match[0], unit),
      ),
    );
  });
}

function changedLine(
  kind: MutantKind,
  file: string,
  text: string,
  line: Line,
  index: number,
  at: number,
  was: string,
  now: string,
): Mutant {
  const start = line.start + at;
  return {
    kind,
    what: `${was} → ${now}`,
    line: index + 1,
    words: line.text.trim(),
    file,
    text: text.slice(0, start) + now + text.slice(start + was.length),
  };
}

function withoutLine(text: string, index: number): string {
  const lines = text.split("\n");
  lines.splice(index, 1);
  return lines.join("\n");
}

export function deletionMutants(file: string, text: string): Mutant[] {
  const kinds: Readonly<Record<string, MutantKind>> = {
    steps: "step deleted",
    materials: "material deleted",
    order: "fact deleted",
    preparation: "fact deleted",
    intermediate: "fact deleted",
  };
  return linesOf(text).flatMap((line, index) => {
    const kind = kinds[line.block];
    const words = line.text.trim();
    if (!kind || words === "" || words.startsWith("#") || words.endsWith("{")) return [];
    return [{ kind, what: "deleted", line: index + 1, words, file, text: withoutLine(text, index) }];
  });
}

/** Each step changed places with the next, and with the one after the next. */
export function swapMutants(file: string, text: string): Mutant[] {
  const lines = linesOf(text);
  const steps = lines.map((l, i) => ({ ...l, i })).filter((l) => l.block === "steps" && isStep(l.text));
  const all = text.split("\n");
  return steps.flatMap((step, n) =>
    [1, 2].flatMap((distance) => {
      const other = steps[n + distance];
      if (!other || other.text === step.text) return [];
      const swapped = [...all];
      swapped[step.i] = other.text;
      swapped[other.i] = step.text;
      const words = `${step.text.trim()} ⇄ ${other.text.trim()}`;
      return [{ kind: "steps swapped" as const, what: words, line: step.i + 1, words, file, text: swapped.join("\n") }];
    }),
  );
}

function isStep(text: string): boolean {
  const words = text.trim();
  return words !== "" && !words.startsWith("#") && !words.endsWith("{");
}

export interface StockOnShelf {
  name: string;
  /** Drug or fluid that it holds. */
  of: string;
  container: string;
}

/** A material taken from another stock: another strength or size of the same, or another drug in the same kind of container. */
export function stockMutants(file: string, text: string, shelf: readonly StockOnShelf[]): Mutant[] {
  return linesOf(text).flatMap((line, index) => {
    if (line.block !== "materials") return [];
    const [was] = line.text.match(/(?<=^\s*\S+\s+(?:\d+ x )?)[a-z][\w.-]*/) ?? [];
    const stock = shelf.find((s) => s.name === was);
    if (!was || !stock) return [];
    const same = shelf.filter((s) => s.of === stock.of && s.name !== was);
    const strangers = shelf.filter((s) => s.of !== stock.of && s.container === stock.container).slice(0, 3);
    const at = line.text.indexOf(was, line.text.indexOf(line.text.trim().split(/\s+/)[0]!) + 1);
    return [...same, ...strangers].map((other) =>
      changedLine("stock swapped", file, text, line, index, at, was, other.name),
    );
  });
}

/** The lots of a stock all gone out of date before the day. */
export function lotMutants(file: string, text: string, stocks: readonly string[]): Mutant[] {
  return stocks.flatMap((stock) => {
    const block = new RegExp(`^lots ${stock.replaceAll(".", "\\.")} \\{[^}]*\\}`, "m").exec(text);
    if (!block) return [];
    const gone = block[0].replace(/expires \d{4}-\d\d(-\d\d)?/g, "expires 2026-10-31");
    if (gone === block[0]) return [];
    const changed = text.slice(0, block.index) + gone + text.slice(block.index + block[0].length);
    return [{ kind: "lot out of date" as const, what: `lots of ${stock}`, line: 0, words: stock, file, text: changed }];
  });
}
