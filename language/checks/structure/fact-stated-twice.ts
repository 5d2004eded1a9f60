import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const factStatedTwice = chunkCheck({
  name: "fact-stated-twice",
  family: "structure",
  severity: "error",
  title: "A fact stated twice",
  why: "Which of the two holds would be a guess.",
  source: "common practice",
  bad: example(
    ["    infuse-over     4 h\n  }", "    infuse-over     4 h\n    infuse-over     4 h\n  }"],
    ["dose            4 g per bag", "dose            4 g per bag"],
  ),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "fact-stated-twice"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` is stated ${word(problem, "times")} times in ${word(problem, "inside")}. Keep one.`,
  }),
});
