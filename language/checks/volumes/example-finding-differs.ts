import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { exampleName, pointOf } from "./example-runs.ts";

const before = "  preparation bag {";
const worked = (expect: string) =>
  example([before, `  example "the standard bag" {\n    expect  ${expect}\n  }\n\n${before}`]);

export const exampleFindingDiffers = recipeCheck({
  name: "example-finding-differs",
  family: "volumes",
  severity: "error",
  across: true,
  title: "A worked example expects a finding that does not come, or none where one comes",
  why: "What the author foresaw at these figures is not what happens.",
  source: "common practice",
  bad: worked("finding draw-beyond-syringe"),
  good: worked("no finding"),
  *find({ recipe, namesAt, checkNames }) {
    for (const each of recipe.examples) {
      const expected = each.facts.all("expect").filter((f) => f.slots.finding || f.slots.none);
      const point = expected.length > 0 ? pointOf(each, recipe) : undefined;
      if (!point) continue;
      const names = namesAt(point);
      for (const fact of expected) {
        const name = fact.slots.check?.name;
        const base = {
          at: { start: fact.start, end: fact.end },
          of: each,
          name,
          known: name === undefined || checkNames.has(name),
        };
        if (name === undefined ? names.size > 0 : !names.has(name)) yield { ...base, names: [...names].sort() };
      }
    }
  },
  say({ of, name, known, names }) {
    const found = names.length > 0 ? `it gives ${names.map((n) => `\`${n}\``).join(", ")}` : "it gives no finding";
    if (!known)
      return {
        text: `${exampleTitle(of)} expects \`${name}\`, and no finding is called so. Take the name from the finding itself.`,
      };
    return {
      text: `${exampleTitle(of)} expects ${name === undefined ? "no finding" : `\`${name}\``}; ${found}. Mend the example or the recipe.`,
    };
  },
});

function exampleTitle(of: Parameters<typeof exampleName>[0]): string {
  const name = exampleName(of);
  return name.slice(0, 1).toUpperCase() + name.slice(1);
}
