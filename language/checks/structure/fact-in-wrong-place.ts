import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const factInWrongPlace = chunkCheck({
  name: "fact-in-wrong-place",
  family: "structure",
  severity: "error",
  title: "A fact in the wrong declaration",
  why: "It is not used where it stands.",
  source: "common practice",
  bad: example(["    infuse-over     4 h", "    infuse-over     4 h\n    capacity        100 mL"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "fact-in-wrong-place"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` does not belong in ${word(problem, "inside")}; it is at home in ${word(problem, "home")}. Move the line there.`,
  }),
});
