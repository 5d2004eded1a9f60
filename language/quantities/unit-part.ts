/** One part of a unit, i.e. what stands between slashes: which row of the table it means, and whether its spelling is safe. */
import { type Misspelling, misspellings } from "./unit-spellings.ts";
import { rowsBelowTheLine, type UnitRow, unitRows } from "./unit-table.ts";

/** Why a spelling is not safe. `start` and `end` lie within the unit text. */
export interface UnitFault {
  rule: string;
  start: number;
  end: number;
  /** Safe spelling of that stretch; absent where two readings are possible. */
  replacement?: string;
  detail: string;
}

export interface Part {
  row: UnitRow | undefined;
  fault?: Omit<UnitFault, "start" | "end">;
}

export const bySpelling = new Map<string, UnitRow>();
export const belowTheLine = new Map<string, UnitRow>();
const byLooseCase = new Map<string, UnitRow | "several">();

for (const row of unitRows) for (const spelling of [row.spelling, ...(row.also ?? [])]) bySpelling.set(spelling, row);
for (const row of rowsBelowTheLine)
  for (const spelling of [row.spelling, ...(row.also ?? [])]) belowTheLine.set(spelling, row);
for (const [spelling, row] of bySpelling) {
  const loose = spelling.toLowerCase();
  const known = byLooseCase.get(loose);
  byLooseCase.set(loose, known === undefined || known === row ? row : "several");
}

/** Microunits are read, so that the figure in units can be offered, but are in no list of offers. */
const microunits: UnitRow = {
  spelling: "microunits",
  ucum: "10*-6.[arb'U]",
  axis: "activity",
  size: "1e-6",
  activityKind: "unit",
};

/** Undefined where no row is meant; a part with a fault and no row can be read in two ways. */
export function readPart(text: string, below: boolean): Part | undefined {
  const row = (below ? belowTheLine.get(text) : undefined) ?? bySpelling.get(text);
  const wrong = misspellings.get(text);
  if (wrong) return { row: rowMeant(wrong, below), fault: faultOf(wrong, below) };
  if (row) return { row };
  if (text.endsWith("."))
    return readWithout(text.slice(0, -1), below, "unit-period", "The dot after a unit can look like a 1.");
  if (text.length > 2 && text.endsWith("s") && bySpelling.has(text.slice(0, -1))) {
    return readWithout(text.slice(0, -1), below, "plural-unit", "The added s can be read as another unit or a figure.");
  }
  if (text.length > 2 && text.endsWith("s") && misspellings.get(text.slice(0, -1))?.means) {
    return readWithout(text.slice(0, -1), below, "plural-unit", "The added s can be read as another unit or a figure.");
  }
  // A single letter is too little to tell a slip from another unit (S, H, K).
  const loose = text.length > 1 ? byLooseCase.get(text.toLowerCase()) : undefined;
  if (loose === undefined || loose === "several") return undefined;
  const meant = (below ? belowTheLine.get(loose.spelling) : undefined) ?? loose;
  const detail = `Large and small letters are part of a unit: ${loose.spelling}.`;
  return { row: meant, fault: { rule: "unit-case", replacement: loose.spelling, detail } };
}

function rowMeant(wrong: Misspelling, below: boolean): UnitRow | undefined {
  if (wrong.means === undefined) return undefined;
  if (wrong.means === "microunits") return microunits;
  const singular = wrong.means.replace(/s$/, "");
  return (
    (below ? (belowTheLine.get(wrong.means) ?? belowTheLine.get(singular)) : undefined) ?? bySpelling.get(wrong.means)
  );
}

function faultOf(wrong: Misspelling, below: boolean): Omit<UnitFault, "start" | "end"> {
  const row = rowMeant(wrong, below);
  const detail = wrong.why;
  if (!row || row.notInRecipes || row === microunits) return { rule: wrong.rule, detail };
  return { rule: wrong.rule, replacement: row.spelling, detail };
}

/** The same without its last letter; that letter is the fault, and any other fault of the rest is mended along with it. */
function readWithout(text: string, below: boolean, rule: string, detail: string): Part | undefined {
  const rest = readPart(text, below);
  if (!rest) return undefined;
  if (!rest.row) return rest;
  return { row: rest.row, fault: { rule, detail, replacement: rest.fault?.replacement ?? text } };
}
