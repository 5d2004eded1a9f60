import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { isNamed, writtenHead } from "./heads.ts";

export const headOfAnotherBlock = chunkCheck({
  name: "head-of-another-block",
  family: "structure",
  severity: "error",
  title: "A head that does not fit the lines below it",
  why: "They are read as the block that they look like; what the head says is not used.",
  source: "common practice",
  bad: example(["  steps {\n", "  stepps {\n"]),
  good: example(),
  *find({ reading }) {
    for (const { name, start, end, word } of reading.tree.problems)
      if (name === "head-of-another-block" && word !== undefined) yield { at: { start, end }, word };
  },
  say: ({ at, word }, { chunk }) => ({
    text: `The lines below \`${chunk.text.slice(at.start, at.end)}\` are lines of ${word}, and are read as such. Write \`${writtenHead(word)}\`, or move them where they belong.`,
  }),
  fixes: ({ at, word }, { chunk }) => {
    if (isNamed(word)) return [];
    const hasBrace = /^[ \t]*\{/.test(chunk.text.slice(at.end));
    return [{ title: `Write ${word} {`, edits: [replaceText(at, hasBrace ? word : `${word} {`)] }];
  },
});
