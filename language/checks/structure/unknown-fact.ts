import type { Problem } from "../../model/facts.ts";
import { blocksIn } from "../../syntax/blocks.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { near, problemsNamed, word } from "../problems.ts";
import { didYouMean } from "../showing.ts";
import { blockHome } from "./block-homes.ts";
import { meantFact } from "./meant-facts.ts";

export const unknownFact = chunkCheck({
  name: "unknown-fact",
  family: "structure",
  severity: "error",
  title: "A line that begins with a word its block does not know",
  why: "A misspelled word would leave its fact out without a sound.",
  source: "common practice",
  bad: example(["    diluent-volume  100 mL", "    diluent-volum   100 mL"]),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "unknown-fact"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` is not known in \`${word(problem, "inside")}\`; the line is not used.${remedy(problem)}`,
  }),
  fixes: ({ problem }) => {
    const meant = meantFact(problem);
    const instead = meant ? [meant.word ?? []].flat() : near(problem).slice(0, 1);
    return instead.map((name) => ({ title: `Write ${name}`, edits: [replaceText(problem, name)] }));
  },
});

function remedy(problem: Problem): string {
  const home = blockHome(word(problem, "word"), word(problem, "inside"));
  if (home !== undefined) return ` ${home}`;
  const meant = meantFact(problem);
  if (meant) return ` ${meant.text}`;
  const alike = didYouMean(near(problem));
  const inside = word(problem, "inside");
  const noted = blocksIn("recipe").includes(inside)
    ? "; what none of them says is written as a `note` of the recipe"
    : "";
  return alike === "" ? ` \`misce explain ${inside}\` lists the lines that it knows${noted}.` : alike;
}
