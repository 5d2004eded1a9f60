/** The figures of a sheet with their working, in the sheet's words: dose, volumes to work out, containers needed, what is in the finished container. */
import type { Surroundings } from "../bench/beyond-use.ts";
import type { Run } from "../bench/run.ts";
import { contentWorkings } from "../working/contents.ts";
import { containerWorkings, doseWorkings, stepWorkings } from "../working/figures.ts";
import { worstCaseWorkings } from "../working/limits.ts";
import type { Working } from "../working/working.ts";
import { drugIn } from "./printed-names.ts";
import { figure, fixed, type Said } from "./said.ts";
import type { FigureRow } from "./sheet.ts";

/** `around`: for how far the doses can miss, which takes many runs and is left out of what follows every keystroke. */
export function figureRows(run: Run, runs: number, around?: Surroundings): FigureRow[] {
  // A step that states its volume needs no working on the sheet.
  const worked = stepWorkings(run).filter(({ lines }) => lines.some((l) => l.origin !== "stated"));
  return [
    ...doseWorkings(run),
    ...worked,
    ...containerWorkings(run, runs),
    ...contentWorkings(run),
    ...(around ? worstCaseWorkings(run, around) : []),
  ].map((working) => rowOf(working, run));
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
