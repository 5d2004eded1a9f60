/** The figures of a sheet with their working, in the sheet's words: dose, volumes to work out, containers needed, what is in the finished container. */
import type { Run } from "../bench/run.ts";
import { contentWorkings } from "../working/contents.ts";
import { containerWorkings, doseWorkings, stepWorkings } from "../working/figures.ts";
import type { Working } from "../working/working.ts";
import { figure, fixed, type Said } from "./said.ts";
import type { FigureRow } from "./sheet.ts";

export function figureRows(run: Run, runs: number): FigureRow[] {
  // A step that states its volume needs no working on the sheet.
  const worked = stepWorkings(run).filter(({ lines }) => lines.some((l) => l.origin !== "stated"));
  return [...doseWorkings(run), ...worked, ...containerWorkings(run, runs), ...contentWorkings(run)].map(rowOf);
}

function rowOf({ key, label, step, value, text, lines }: Working): FigureRow {
  return {
    label: step === undefined ? fixed(label, "figures") : { text: label, from: { kind: "step", number: step } },
    value: value ? figure(key, value) : { text, from: { kind: "count", what: key } },
    working: workingSaid(lines, key),
  };
}

export { alike, contentsOf } from "../working/contents.ts";

/** Lines of working in the sheet's words. */
export function workingSaid(lines: Working["lines"], of: string): Said[] {
  return lines.map(({ text }) => ({ text, from: { kind: "working", figure: of } }));
}
