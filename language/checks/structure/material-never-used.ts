import type { ChunkReading, Recipe } from "../../model/declaration.ts";
import { headWord } from "../../syntax/tree.ts";
import { writtenCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const materialNeverUsed = writtenCheck({
  name: "material-never-used",
  family: "structure",
  severity: "warning",
  title: "A material that no step uses",
  why: "Only what the preparation needs goes into the cabinet; or a step is missing.",
  source:
    "Exam item on vertical flow hood technique (public exam site, undated, explanation 2): bring in only what is needed",
  rows: ["technique-rules hood-minimum-items", "record-elements mfr-ingredients"],
  bad: example(["    needle       needle-18-gauge", "    needle       needle-18-gauge\n    spare        syringe-20mL"]),
  good: example(),
  *find({ recipe, reading }) {
    if (recipe.materials.length === 0 || stepsAreUnfinished(recipe, reading)) return;
    const words = new Set<string>();
    for (const { tokens } of recipe.steps) for (const { text } of tokens) words.add(text);
    for (const material of recipe.materials) {
      if (!words.has(material.name.name)) yield { at: material.name, name: material.name.name };
    }
  },
  say: ({ name }) => ({
    text: `\`${name}\` stands in materials, but no step uses it. Take it out, or add the step that needs it.`,
  }),
  fixes: ({ at }, { chunk }) => [{ title: "Take it out of materials", edits: [withoutLine(chunk.text, at)] }],
});

/** Steps that are missing, or that break off at the end of the text, have a finding of their own; what they would use is not known. */
function stepsAreUnfinished(recipe: Recipe, { tree }: ChunkReading): boolean {
  if (recipe.steps.length === 0) return true;
  const isSteps = (start: number) =>
    tree.entries.some(
      (e) => e.kind === "block" && e.body.some((b) => b.kind === "block" && headWord(b) === "steps" && holds(b, start)),
    );
  return tree.problems.some((p) => p.name === "block-not-closed" && p.before === undefined && isSteps(p.lastEntryEnd!));
}

function holds({ start, end }: { start: number; end: number }, at: number): boolean {
  return start <= at && at <= end;
}
