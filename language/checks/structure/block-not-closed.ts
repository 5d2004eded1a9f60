import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

export const blockNotClosed = chunkCheck({
  name: "block-not-closed",
  family: "structure",
  severity: "error",
  title: "A block that is never closed",
  why: "What follows may land in the wrong block.",
  source: "common practice",
  bad: example(
    [
      "    keep mag, filter, needle, syringe for check\n    check by pharmacist\n  }",
      "    keep mag, filter, needle, syringe for check\n    check by pharmacist\n  }",
    ],
    [
      '    appearance     "clear, colourless, free of particles"\n  }\n}',
      '    appearance     "clear, colourless, free of particles"\n  }',
    ],
  ),
  good: example(),
  find: ({ reading }) => reading.tree.problems.filter((p) => p.name === "block-not-closed").map((at) => ({ at })),
  say: () => ({ text: "This block has no closing brace. Put `}` on a line of its own where it ends." }),
});
