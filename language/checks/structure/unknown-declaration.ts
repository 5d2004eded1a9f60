import { chunkCheck } from "../check.ts";
import { example, standardAnd } from "../example.ts";
import { near, problemsNamed, word } from "../problems.ts";
import { didYouMean } from "../showing.ts";

export const unknownDeclaration = chunkCheck({
  name: "unknown-declaration",
  family: "structure",
  severity: "error",
  title: "A declaration that begins with an unknown word",
  why: "What stands in it is not used.",
  source: "common practice",
  bad: standardAnd("vial spare {\n  fill 10 mL\n}\n"),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "unknown-declaration"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` is no declaration; what stands in it is not used.${didYouMean(near(problem))}`,
  }),
});
