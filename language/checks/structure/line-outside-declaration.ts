import { chunkCheck } from "../check.ts";
import { example, standardAnd } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const lineOutsideDeclaration = chunkCheck({
  name: "line-outside-declaration",
  family: "structure",
  severity: "error",
  title: "A line outside every declaration",
  why: "It is not used.",
  source: "common practice",
  bad: standardAnd("dose 4 g per bag\n"),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "line-outside-declaration"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` stands outside every declaration; the line is not used. Move it into one, or take it out.`,
  }),
});
