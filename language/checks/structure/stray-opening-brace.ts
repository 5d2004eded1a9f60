import { chunkCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const strayOpeningBrace = chunkCheck({
  name: "stray-opening-brace",
  family: "structure",
  severity: "error",
  title: "An opening brace that opens nothing",
  why: "A block may begin where none was meant.",
  source: "common practice",
  bad: example(["  steps {\n", "  steps {\n  steps {\n"]),
  good: example(),
  *find({ reading, chunk }) {
    for (const { name, start, end } of reading.tree.problems)
      if (name === "stray-opening-brace") yield { at: { start, end }, head: chunk.text.slice(start, end) };
  },
  say: ({ head }) => ({
    text:
      head === "{"
        ? "This brace opens nothing. Take it out, or write before it what it should open."
        : `\`${head}\` is written twice. Take one of the two lines out, or write what was to stand between them.`,
  }),
  fixes: ({ at }, { chunk }) => [{ title: "Take it out", edits: [withoutLine(chunk.text, at)] }],
});
