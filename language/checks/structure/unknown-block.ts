import type { Problem } from "../../model/facts.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { near, problemsNamed, word } from "../problems.ts";
import { didYouMean } from "../showing.ts";
import { blockHome } from "./block-homes.ts";

export const unknownBlock = chunkCheck({
  name: "unknown-block",
  family: "structure",
  severity: "error",
  title: "A block that does not belong here",
  why: "What stands in it is not used.",
  source: "common practice",
  bad: example(["  preparation bag {", "  label-texts {\n  }\n\n  preparation bag {"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "unknown-block"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` is not known in \`${word(problem, "inside")}\`; what stands in it is not used.${remedy(problem)}`,
  }),
  fixes: ({ problem }) =>
    near(problem).map((name) => ({ title: `Write ${name}`, edits: [replaceText(problem, name)] })),
});

function remedy(problem: Problem): string {
  const home = near(problem).length > 0 ? undefined : blockHome(word(problem, "word"), word(problem, "inside"));
  return home === undefined ? didYouMean(near(problem)) : ` ${home}`;
}
