import { libraryCheck } from "../check.ts";
import { example, standardAnd } from "../example.ts";

export const declaredTwice = libraryCheck({
  name: "declared-twice",
  family: "structure",
  severity: "error",
  title: "One name for two declarations",
  why: "Which of the two is meant would be a guess.",
  source: "common practice",
  bad: standardAnd(`reference magnesium-sulfate {
  title     "A reference with the name of a drug"
  invented  yes
}
`),
  good: example(),
  *find({ declaration, lookup }) {
    if (declaration.kind === "lots" || declaration.kind === "site") return;
    const first = lookup.any(declaration.name.name);
    if (first && first !== declaration) yield { at: declaration.name, name: declaration.name.name, first };
  },
  say: ({ name, first }) => ({
    text: `\`${name}\` is already the name of a ${first.kind}; the first is used. Give one of them another name.`,
    related: [
      { at: { chunk: first.chunk, start: first.name.start, end: first.name.end }, text: "first declared here" },
    ],
  }),
});
