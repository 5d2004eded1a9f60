import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

export const strayContinuation = chunkCheck({
  name: "stray-continuation",
  family: "structure",
  severity: "error",
  title: "A line that continues nothing",
  why: "Its source, reason or condition belongs to no statement and is not used.",
  source: "common practice",
  bad: example(["    infuse-over     4 h", "    infuse-over     4 h\n\n    when dose up to 5 g"]),
  good: example(),
  find: ({ reading }) => reading.tree.problems.filter((p) => p.name === "stray-continuation").map((at) => ({ at })),
  say: () => ({
    text: "This line continues the statement above, but a blank line or comment stands between, or nothing stands above. Put it right below its statement.",
  }),
});
