import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { exampleName } from "./example-runs.ts";

const before = "  preparation bag {";
const worked = (lines: string) => example([before, `  example "the standard bag" {\n${lines}  }\n\n${before}`]);

export const exampleWithoutExpectation = recipeCheck({
  name: "example-without-expectation",
  family: "volumes",
  severity: "warning",
  across: true,
  title: "A worked example that expects nothing",
  why: "It looks like a second check and compares nothing.",
  source: "common practice",
  bad: worked(""),
  good: worked("    expect  dose 4 g\n"),
  *find({ recipe, reading }) {
    for (const each of recipe.examples) {
      // A line that cannot be read is told at its place.
      if (each.facts.all("expect").length > 0 || reading.problems.some((p) => p.start > each.start)) continue;
      yield { at: { start: each.start, end: each.end }, of: each };
    }
  },
  say: ({ of }) => {
    const name = exampleName(of);
    return {
      text: `${name.slice(0, 1).toUpperCase()}${name.slice(1)} expects nothing, so nothing is compared. Add a line such as \`expect dose 4 g\`.`,
    };
  },
});
