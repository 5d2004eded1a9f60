/** The figures of a sheet with their working, in the sheet's words: dose, volumes to work out, containers needed, what is in the finished container. */
import type { Surroundings } from "../bench/beyond-use.ts";
import type { Run } from "../bench/run.ts";
import { contentWorkings } from "../working/contents.ts";
import { containerWorkings, doseWorkings, stepWorkings } from "../working/figures.ts";
import { worstCaseWorkings } from "../working/limits.ts";
import type { Working } from "../working/working.ts";
import { drugIn } from "./printed-names.ts";
import { inPrintedNames } from "./product.ts";
import { figure, fixed, type Said } from "./said.ts";
import type { FigureRow } from "./sheet.ts";

/** Every figure, for what follows every keystroke; how far the doses can miss takes many runs and is left out. */
export function figureRows(run: Run, runs: number): FigureRow[] {
  return allWorkings(run, runs).map((working) => rowOf(working, run));
}

/**
 * The figures that a second person works out again, and how far the doses can miss. What only repeats the order is no figure to work
 * out: it stands with the concentration that follows from it, so that a long procedure does not grow by pages that nobody reads.
 */
export function sheetFigureRows(run: Run, runs: number, around: Surroundings): FigureRow[] {
  const all = allWorkings(run, runs);
  const kept = all.filter(
    (working) =>
      !isOneKept(working, run, runs) &&
      (!repeatsOrder(working) || (working.kind === "amount" && !strengthOf(working, all))),
  );
  const rows = kept.map((working) => {
    const amount = all.find((a) => a.kind === "amount" && repeatsOrder(a) && strengthOf(a, all) === working);
    return rowOf(amount ? { ...working, lines: [...amount.lines, ...working.lines] } : working, run);
  });
  const told = [...rows, ...worstCaseWorkings(run, around).map((working) => rowOf(working, run))];
  return told.map((row) => ({ ...row, working: row.working.map((said) => printedSaid(said, run, around)) }));
}

/** One container is no number to work out, and what is left in it stands with what is kept for the check. */
function isOneKept({ kind, of }: Working, run: Run, runs: number): boolean {
  const group = kind === "containers" && runs === 1 ? run.groups.get(of[0] ?? "") : undefined;
  return group?.things.length === 1 && group.things.some((thing) => thing.kept);
}

function printedSaid(said: Said, run: Run, { lookup }: Surroundings): Said {
  return { ...said, text: inPrintedNames(said.text, lookup, run.groups) };
}

function repeatsOrder({ kind, lines }: Working): boolean {
  const [only, second] = lines;
  if (!only?.value || second) return false;
  return kind === "dose" ? only.origin === "ordered" : kind === "amount" && only.origin === "compared";
}

function strengthOf(amount: Working, all: readonly Working[]): Working | undefined {
  return all.find((w) => w.kind === "concentration" && w.of.join(" ") === amount.of.join(" "));
}

function allWorkings(run: Run, runs: number): Working[] {
  // A step that states its volume needs no working on the sheet.
  const worked = stepWorkings(run).filter(({ lines }) => lines.some((l) => l.origin !== "stated"));
  return [...doseWorkings(run), ...worked, ...containerWorkings(run, runs), ...contentWorkings(run)];
}

const ofDrug: ReadonlySet<Working["kind"]> = new Set(["dose", "amount", "concentration", "worst-case"]);

/** The label names its drug before anything else that may be called alike. */
function printed({ kind, label, of }: Working, run: Run): string {
  const [drug] = of;
  return drug !== undefined && ofDrug.has(kind) ? label.replace(drug, () => drugIn(run, drug)) : label;
}

function rowOf(working: Working, run: Run): FigureRow {
  const { kind, key, step, value, text, lines } = working;
  const label = printed(working, run);
  const counted =
    kind === "worst-case" ? ({ kind: "working", figure: key } as const) : ({ kind: "count", what: key } as const);
  return {
    label: step === undefined ? fixed(label, "figures") : { text: label, from: { kind: "step", number: step } },
    value: value ? figure(key, value) : { text, from: counted },
    isChecked: kind !== "worst-case",
    working: workingSaid(lines, key),
  };
}

export { alike, contentsOf } from "../working/contents.ts";

/** Lines of working in the sheet's words. */
export function workingSaid(lines: Working["lines"], of: string): Said[] {
  return lines.map(({ text }) => ({ text, from: { kind: "working", figure: of } }));
}
