import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

export const materialNamedTwice = writtenCheck({
  name: "material-named-twice",
  family: "structure",
  severity: "error",
  title: "Two materials with one name",
  why: "Which of the two a step means would be a guess.",
  source: "common practice",
  bad: example([
    "    needle       needle-18-gauge",
    "    needle       needle-18-gauge\n    needle       needle-21-gauge",
  ]),
  good: example(),
  *find({ recipe }) {
    for (const [i, material] of recipe.materials.entries()) {
      const first = recipe.materials
        .slice(0, i)
        .find((m) => m.name.name === material.name.name && !(m.when && material.when));
      if (first) yield { at: material.name, name: material.name.name, first: first.name };
    }
  },
  say: ({ name, first }) => ({
    text: `\`${name}\` stands twice in materials; only the first is used. Give this one a name of its own, or tell them apart with \`when\`.`,
    related: [{ at: first, text: "first here" }],
  }),
});
