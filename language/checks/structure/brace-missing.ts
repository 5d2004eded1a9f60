import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

export const braceMissing = chunkCheck({
  name: "brace-missing",
  family: "structure",
  severity: "error",
  title: "A block without its opening brace",
  why: "It is read as the block that it looks like, but nobody wrote where it begins.",
  source: "common practice",
  bad: example(["  steps {\n", "  steps\n"]),
  good: example(),
  find: ({ reading }) => reading.tree.problems.filter((p) => p.name === "brace-missing").map((at) => ({ at })),
  say: ({ at }, { chunk }) => {
    const head = chunk.text.slice(at.start, at.end);
    return { text: `\`${head}\` begins a block, but its line does not end with \`{\`. Write \`${head} {\`.` };
  },
  fixes: ({ at }) => [
    { title: "Write the brace", edits: [{ at: { start: at.end, end: at.end }, text: " {" }], preferred: true },
  ],
});
