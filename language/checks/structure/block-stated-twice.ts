import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const blockStatedTwice = chunkCheck({
  name: "block-stated-twice",
  family: "structure",
  severity: "error",
  title: "A block written twice",
  why: "Which of the two holds would be a guess; only the first is used.",
  source: "common practice",
  bad: example(["  preparation bag {", "  materials {\n  }\n\n  preparation bag {"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "block-stated-twice"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` is written twice here; only the first is used. Join them.`,
  }),
});
