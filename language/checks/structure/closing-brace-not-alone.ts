import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

export const closingBraceNotAlone = chunkCheck({
  name: "closing-brace-not-alone",
  family: "structure",
  severity: "warning",
  title: "A closing brace that shares its line",
  why: "One fact a line keeps changes easy to read.",
  source: "common practice",
  bad: example(['  lot "KQ-2291"  expires 2027-04\n}', '  lot "KQ-2291"  expires 2027-04 }']),
  good: example(),
  find: ({ reading }) =>
    reading.tree.problems.filter((p) => p.name === "closing-brace-not-alone").map((at) => ({ at })),
  say: () => ({ text: "The closing brace stands on a line of its own." }),
});
