import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultyTokens } from "./figures.ts";

export const textNotClosed = chunkCheck({
  name: "text-not-closed",
  family: "notation",
  severity: "error",
  title: "A text without its closing quote",
  why: "Where the text ends is then a guess, and the line is not used.",
  source: "common practice",
  bad: example(["  light          not-sensitive", `  light          not-sensitive\n  note           "Give slowly.`]),
  good: example(),
  *find({ reading }) {
    for (const { fault, start, end } of faultyTokens(reading)) {
      if (fault === "string-not-closed") yield { at: { start, end } };
    }
  },
  say: () => ({ text: 'This text has no closing quote, so the line is not used. Put `"` where it ends.' }),
  fixes: ({ at }) => [{ title: "Close the text here", edits: [{ at: { start: at.end, end: at.end }, text: '"' }] }],
});
