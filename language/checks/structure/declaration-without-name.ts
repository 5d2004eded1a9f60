import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const declarationWithoutName = chunkCheck({
  name: "declaration-without-name",
  family: "structure",
  severity: "error",
  title: "A declaration or block without its name",
  why: "Nothing can refer to it.",
  source: "common practice",
  bad: example(["  preparation bag {", "  intermediate {\n  }\n\n  preparation bag {"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "declaration-without-name"),
  say: ({ problem }) => ({
    text: word(problem, "extra")
      ? `\`${word(problem, "word")}\` needs one name behind it, and here stand several words. Join them with hyphens, or leave one.`
      : `\`${word(problem, "word")}\` needs one name behind it, of letters, digits and hyphens, beginning with a letter.`,
  }),
});
