import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";
import { meantFact } from "./meant-facts.ts";

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
  say: ({ problem }) => {
    const [written, inside, meant] = [word(problem, "word"), word(problem, "inside"), meantFact(problem)];
    if (meant) return { text: `\`${written}\` is no line of ${inside} and is not used. ${meant.text}` };
    return {
      text: `\`${written}\` does not belong in ${inside}; it is at home in ${word(problem, "home")}. Move the line there.`,
    };
  },
  fixes: ({ problem }) => {
    const instead = meantFact(problem)?.word;
    return instead === undefined ? [] : [{ title: `Write ${instead}`, edits: [replaceText(problem, instead)] }];
  },
});
