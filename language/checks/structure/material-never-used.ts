import { recipeCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const materialNeverUsed = recipeCheck({
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
  *find({ recipe }) {
    if (recipe.materials.length === 0) return;
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
