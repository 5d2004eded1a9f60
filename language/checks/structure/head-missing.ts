import { lineStartAt } from "../../syntax/lines.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNamed, writtenHead } from "./heads.ts";

export const headMissing = chunkCheck({
  name: "head-missing",
  family: "structure",
  severity: "error",
  title: "Lines without the head of their block",
  why: "They are read as the block that they look like, but nobody wrote where it begins, and more may have been lost with that line.",
  source: "common practice",
  bad: example(["  steps {\n", ""]),
  good: example(),
  *find({ reading }) {
    for (const { name, start, end, word } of reading.tree.problems)
      if (name === "head-missing" && word !== undefined) yield { at: { start, end }, word };
  },
  say: ({ word }) => ({
    text: `The line \`${writtenHead(word)}\` is missing above this one${isNamed(word) ? "" : `; what follows is read as ${word}`}. Write it, and look whether more was lost with it.`,
  }),
  fixes: ({ at, word }, { chunk }) => {
    if (isNamed(word)) return [];
    const lineStart = lineStartAt(chunk.text, at.start);
    const indent = /^[ \t]*/.exec(chunk.text.slice(lineStart, at.start))![0].replace(/^(?: {2}|\t)/, "");
    const edits = [{ at: { start: lineStart, end: lineStart }, text: `${indent}${word} {\n` }];
    return [{ title: `Write ${word} { above it`, edits }];
  },
});
