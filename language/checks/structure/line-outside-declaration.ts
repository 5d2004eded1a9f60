import { chunkCheck } from "../check.ts";
import { example, standardAnd } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const lineOutsideDeclaration = chunkCheck({
  name: "line-outside-declaration",
  family: "structure",
  severity: "error",
  title: "A line outside every declaration",
  why: "It is not used.",
  source: "common practice",
  bad: standardAnd("dose 4 g per bag\n"),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "line-outside-declaration"),
  say: ({ problem }) =>
    word(problem, "isDeclaration") === "true"
      ? {
          text: `\`${word(problem, "word")}\` begins a declaration, but its line does not end with \`{\`, so nothing below is read as part of it. Put \`{\` at the end of this line.`,
        }
      : {
          text: `\`${word(problem, "word")}\` stands outside every declaration; the line is not used. Move it into one, or take it out.`,
        },
  fixes: ({ problem }, { chunk }) => {
    if (word(problem, "isDeclaration") !== "true") return [];
    const { end } = problem;
    // A brace on the next line moves up.
    const brace = /^\s*\{(?=[ \t]*(?:\r|\n|$))/.exec(chunk.text.slice(end))?.[0].length ?? 0;
    return [{ title: "Put { at its end", edits: [{ at: { start: end, end: end + brace }, text: " {" }] }];
  },
});
