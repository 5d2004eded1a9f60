import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const trailingWordsNotUnderstood = chunkCheck({
  name: "trailing-words-not-understood",
  family: "structure",
  severity: "error",
  title: "Words behind a fact or a head that cannot be read",
  why: "The source, condition, reason or name is not used.",
  source: "common practice",
  bad: example(["    infuse-over     4 h", "    infuse-over     4 h  when dose"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "trailing-words-not-understood"),
  say: ({ problem }) => {
    const beyond = word(problem, "beyond");
    if (beyond)
      return {
        text: `Behind \`${word(problem, "word")}\` belongs the brace, and \`${beyond}\` is not used. Take it out, or write it as a line of its own.`,
      };
    return {
      text: `Behind \`${word(problem, "word")}\` belongs ${word(problem, "expected")}. Complete it, or take it out.`,
    };
  },
});
