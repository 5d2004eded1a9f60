import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

export const braceNotAtLineEnd = chunkCheck({
  name: "brace-not-at-line-end",
  family: "structure",
  severity: "warning",
  title: "Text behind an opening brace",
  why: "One fact a line keeps changes easy to read.",
  source: "common practice",
  bad: example(["  preparation bag {\n    form", "  preparation bag {  form"]),
  good: example(),
  find: ({ reading }) => reading.tree.problems.filter((p) => p.name === "brace-not-at-line-end").map((at) => ({ at })),
  say: () => ({ text: "The opening brace ends its line; put what follows on the next." }),
});
