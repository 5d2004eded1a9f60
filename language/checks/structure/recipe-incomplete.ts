import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

export const recipeIncomplete = writtenCheck({
  name: "recipe-incomplete",
  family: "structure",
  severity: "error",
  title: "A recipe without order, materials, steps or preparation",
  why: "Without them nothing is followed and nothing is judged.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): complete instructions, container",
  rows: ["record-elements mfr-instructions", "record-elements mfr-container"],
  bad: `${example()}
recipe magnesium-empty {
  title  "Magnesium sulfate, not yet written"
}
`,
  good: example(),
  *find({ recipe, reading }) {
    // A block whose head is missing, and with it its name, is told at its place.
    const nameless = reading.tree.entries.some(
      (e) => e.kind === "block" && e.body.some((b) => b.kind === "block" && b.readAs === "preparation"),
    );
    const lacking = [
      recipe.order ? undefined : "order",
      recipe.materials.length > 0 ? undefined : "materials",
      recipe.steps.length > 0 ? undefined : "steps",
      recipe.preparations.length > 0 || nameless ? undefined : "preparation",
    ].filter((b) => b !== undefined);
    if (lacking.length > 0) yield { at: recipe.name, lacking };
  },
  say: ({ lacking }) => ({
    text: `This recipe has no ${lacking.join(", no ")}; it is not checked as a whole. Write what is lacking.`,
  }),
});
