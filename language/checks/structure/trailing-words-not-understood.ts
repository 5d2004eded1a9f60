import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const trailingWordsNotUnderstood = chunkCheck({
  name: "trailing-words-not-understood",
  family: "structure",
  severity: "error",
  title: "Words behind a fact that cannot be read",
  why: "The source, condition or reason is not used.",
  source: "common practice",
  bad: example(["    infuse-over     4 h", "    infuse-over     4 h  when dose"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "trailing-words-not-understood"),
  say: ({ problem }) => ({
    text: `Behind \`${word(problem, "word")}\` belongs ${word(problem, "expected")}. Complete it, or take it out.`,
  }),
});
