import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const capitalLetters = chunkCheck({
  name: "capital-letters",
  family: "structure",
  severity: "warning",
  title: "A word of the language written with capitals or as a sign",
  why: "Words of the language are written small; the line is read all the same.",
  source: "common practice",
  bad: example(["    tap mag", "    Tap mag"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "capital-letters"),
  say: ({ problem }) => ({ text: `Write \`${word(problem, "word")}\` instead of \`${word(problem, "written")}\`.` }),
  fixes: ({ problem }) => [
    { title: `Write ${word(problem, "word")}`, preferred: true, edits: [replaceText(problem, word(problem, "word"))] },
  ],
});
