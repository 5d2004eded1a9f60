import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { word } from "../problems.ts";

export const strayClosingBrace = chunkCheck({
  name: "stray-closing-brace",
  family: "structure",
  severity: "error",
  title: "A closing brace without a block",
  why: "A block may have ended earlier than meant.",
  source: "common practice",
  bad: example([
    '    appearance     "clear, colourless, free of particles"\n  }\n}',
    '    appearance     "clear, colourless, free of particles"\n  }\n}\n}',
  ]),
  good: example(),
  find: ({ reading }) => {
    // The end of a declaration whose own brace is missing: that line is told, and says what to write.
    const headless = reading.problems.some(
      (p) => p.name === "line-outside-declaration" && word(p, "isDeclaration") === "true",
    );
    if (headless) return [];
    return reading.tree.problems.filter((p) => p.name === "stray-closing-brace").map((at) => ({ at }));
  },
  say: () => ({ text: "This brace closes nothing. Take it out, or open the block that it should close." }),
});
